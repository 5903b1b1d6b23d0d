// A stand-in for what a phone offers beside its camera: sound, a voice, buzz, wake lock, and a camera with torch, zoom
// and focus. It writes down what the page asked for; how a real phone behaves is not proven by it.

declare global {
  interface Window {
    /** What was heard, felt and asked for since the last call, in order. */
    __heard(): string[];
    /** What each camera track was told, in order. */
    __told(): Record<string, unknown>[];
  }
}

/** For `addInitScript`, after the fake camera's own script. Plain script text. */
export const fakePhoneScript = `(() => {
  let heard = [];
  const told = [];
  window.__heard = () => { const all = heard; heard = []; return all; };
  window.__told = () => told;

  class Param {
    constructor(put) { this.put = put; }
    set value(value) { this.put?.(value); }
    setValueAtTime() {}
    linearRampToValueAtTime() {}
  }
  window.AudioContext = class {
    state = 'suspended';
    currentTime = 0;
    destination = {};
    async resume() { await null; this.state = 'running'; }
    async close() { this.state = 'closed'; }
    createOscillator() {
      let hz = 0;
      return { frequency: new Param((next) => { hz = next; }), connect() {}, start() { heard.push('tone ' + hz); }, stop() {} };
    }
    createGain() { return { gain: new Param(), connect() {} }; }
    createStereoPanner() { return { pan: new Param(), connect() {} }; }
  };
  Object.defineProperty(navigator, 'vibrate', { value: (pattern) => { heard.push('buzz ' + pattern.join(' ')); return true; } });
  Object.defineProperty(window, 'speechSynthesis', { value: {
    getVoices: () => [{ localService: true, lang: 'en-GB', default: true, name: 'invented' }],
    cancel() {},
    speak(utterance) { heard.push('says ' + utterance.text); },
  } });
  window.SpeechSynthesisUtterance = class { constructor(text) { this.text = text; } };
  Object.defineProperty(navigator, 'wakeLock', { value: {
    async request() {
      heard.push('screen kept on');
      return { addEventListener() {}, async release() { heard.push('screen let go'); } };
    },
  } });

  const media = navigator.mediaDevices;
  const open = media.getUserMedia.bind(media);
  media.getUserMedia = async (wanted) => {
    const stream = await open(wanted);
    const [track] = stream.getVideoTracks();
    track.getCapabilities = () => ({ torch: true, zoom: { min: 1, max: 8, step: 0.1 }, focusMode: ['continuous', 'single-shot'] });
    track.applyConstraints = async ({ advanced }) => { for (const one of advanced) told.push(one); };
    return stream;
  };
})();`;
