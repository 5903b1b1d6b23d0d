// Owns the beat of a playing video: one call per new frame.
// Must never queue frames; whoever is called looks at the video as it is then.

export function onFrames(video: HTMLVideoElement, fn: () => void): () => void {
  let stopped = false;
  let handle = 0;
  if (typeof video.requestVideoFrameCallback === 'function') {
    const beat = () => {
      if (stopped) return;
      handle = video.requestVideoFrameCallback(beat);
      fn();
    };
    handle = video.requestVideoFrameCallback(beat);
    return () => {
      stopped = true;
      video.cancelVideoFrameCallback(handle);
    };
  }
  let lastTime = -1;
  const beat = () => {
    if (stopped) return;
    handle = requestAnimationFrame(beat);
    if (video.currentTime === lastTime) return;
    lastTime = video.currentTime;
    fn();
  };
  handle = requestAnimationFrame(beat);
  return () => {
    stopped = true;
    cancelAnimationFrame(handle);
  };
}
