// Label pictures for browser tests, and a camera that shows them in place of the machine's own.
// Must never be served to a person; it only runs where a test injects it.
import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { rolldown } from 'rolldown';
import { prepareZXingModule, writeBarcode } from 'zxing-wasm/writer';

const CAMERA = { width: 1280, height: 720 } as const;

/** Where a label lies in the picture: centre and width in picture pixels. */
type ShownLabel = { text: string; x?: number; y?: number; size?: number; image?: string };
export type CameraMode = 'granted' | 'refused' | 'busy' | 'missing';

declare global {
  interface Window {
    /** One QR label with its text beneath, in the middle; null shows bare grey. */
    __showLabel(text: string | null): void;
    __showLabels(labels: ShownLabel[]): Promise<void>;
    __cameraMode(mode: CameraMode): void;
    /** Freezes the picture: no new frame comes until it is let go. */
    __freezeCamera(frozen: boolean): void;
    /** Frames come on, and all of them are black. */
    __blackCamera(black: boolean): void;
    /** Ends every live track, as a phone does that takes the camera away. */
    __endTracks(): void;
    __cameraCalls(): { opened: number; live: number };
    /** Settles after so many pictures were drawn. */
    __ticks(count: number): Promise<void>;
  }
}

// Runs in the page before anything else. Plain script text: nothing of this file is there.
const IN_PAGE = `(() => {
  const canvas = document.createElement('canvas');
  canvas.width = ${CAMERA.width};
  canvas.height = ${CAMERA.height};
  const context = canvas.getContext('2d');
  const cameras = [
    { kind: 'videoinput', deviceId: 'fake-rear', groupId: '', label: 'Rear camera' },
    { kind: 'videoinput', deviceId: 'fake-near', groupId: '', label: 'Near camera' },
  ];
  let labels = [];
  let mode = 'granted';
  let frozen = false;
  let black = false;
  let tick = 0;
  let opened = 0;
  let tracks = [];
  const waiting = new Set();

  function drawQr(text, x, y, size) {
    const { data } = uqr.encode(text, { ecc: 'M', border: 4 });
    const module = Math.max(1, Math.floor(size / data.length));
    const side = module * data.length;
    context.fillStyle = '#fff';
    context.fillRect(x - side / 2, y - side / 2, side, side + 40);
    context.fillStyle = '#000';
    data.forEach((row, r) => row.forEach((dark, c) => {
      if (dark) context.fillRect(x - side / 2 + c * module, y - side / 2 + r * module, module, module);
    }));
    context.font = '28px sans-serif';
    context.textAlign = 'center';
    context.fillText(text, x, y + side / 2 + 24, side);
  }
  function draw() {
    if (frozen) return;
    tick += 1;
    if (black) {
      context.fillStyle = '#000';
      context.fillRect(0, 0, canvas.width, canvas.height);
      context.fillStyle = tick % 2 ? '#000' : '#010101';
      context.fillRect(0, 0, 4, 4);
      return;
    }
    context.fillStyle = '#8a8a8a';
    context.fillRect(0, 0, canvas.width, canvas.height);
    // A picture that never changes gives no frames, and no two photos of a real camera have the same bytes.
    context.fillStyle = 'rgb(' + (tick * 37 % 256) + ' ' + (tick % 256) + ' ' + ((tick >> 8) * 50 % 256) + ')';
    context.fillRect(0, 0, 16, 16);
    for (const { text, x = canvas.width / 2, y = canvas.height / 2, size = 300, picture } of labels) {
      if (!picture) drawQr(text, x, y, size);
      else {
        const height = (picture.height / picture.width) * size;
        context.imageSmoothingEnabled = false;
        context.fillStyle = '#fff';
        context.fillRect(x - size / 2 - 30, y - height / 2 - 30, size + 60, height + 60);
        context.drawImage(picture, x - size / 2, y - height / 2, size, height);
      }
    }
    for (const entry of waiting) if (tick >= entry.at) { waiting.delete(entry); entry.done(); }
  }
  setInterval(draw, 50);
  draw();

  window.__showLabels = async (next) => {
    const ready = await Promise.all(next.map(async (label) => {
      if (!label.image) return label;
      const picture = await createImageBitmap(await (await fetch(label.image)).blob());
      return { ...label, picture };
    }));
    labels = ready;
    draw();
  };
  window.__showLabel = (text) => { labels = text === null ? [] : [{ text }]; draw(); };
  window.__cameraMode = (next) => { mode = next; };
  window.__blackCamera = (next) => { black = next; };
  window.__freezeCamera = (next) => { frozen = next; };
  window.__endTracks = () => {
    for (const track of tracks.filter((t) => t.readyState === 'live')) {
      track.stop();
      track.dispatchEvent(new Event('ended'));
    }
  };
  window.__cameraCalls = () => ({ opened, live: tracks.filter((t) => t.readyState === 'live').length });
  window.__ticks = (count) => new Promise((done) => waiting.add({ at: tick + count, done }));

  const media = navigator.mediaDevices;
  media.enumerateDevices = async () => cameras;
  const ownMedia = media.getUserMedia.bind(media);
  media.getUserMedia = async ({ video, audio }) => {
    if (audio && !video) return ownMedia({ audio });
    if (mode === 'refused') throw new DOMException('Permission denied', 'NotAllowedError');
    if (mode === 'missing') throw new DOMException('Requested device not found', 'NotFoundError');
    if (mode === 'busy') throw new DOMException('Could not start video source', 'NotReadableError');
    const wanted = video?.deviceId?.exact;
    const camera = wanted === undefined ? cameras[0] : cameras.find((c) => c.deviceId === wanted);
    if (!camera) throw new DOMException('no such camera', 'OverconstrainedError');
    opened += 1;
    const stream = canvas.captureStream(20);
    const [track] = stream.getVideoTracks();
    const settings = track.getSettings.bind(track);
    track.getSettings = () => ({ ...settings(), deviceId: camera.deviceId });
    Object.defineProperty(track, 'label', { value: camera.label });
    tracks.push(track);
    return stream;
  };
})();`;

const requireHere = createRequire(import.meta.url);

async function script(): Promise<string> {
  const bundle = await rolldown({ input: requireHere.resolve('uqr'), logLevel: 'silent' });
  const { output } = await bundle.generate({ format: 'iife', name: 'uqr' });
  await bundle.close();
  return `${output[0].code}\n${IN_PAGE}`;
}

/** For `addInitScript({ content: fakeCameraScript })`, before the page opens. */
export const fakeCameraScript: string = await script();

/** A symbol as a PNG data URL, one picture pixel per module. */
export async function symbolPicture(text: string, format: 'Code128' | 'DataMatrix' | 'QRCode'): Promise<string> {
  const wasm = await readFile(requireHere.resolve('zxing-wasm/writer/zxing_writer.wasm'));
  prepareZXingModule({ overrides: { wasmBinary: new Uint8Array(wasm).buffer } });
  const { image, error } = await writeBarcode(text, { format, scale: 1, addQuietZones: false });
  if (image === null) throw new Error(`no ${format} of ${text}: ${error}`);
  return `data:image/png;base64,${Buffer.from(await image.arrayBuffer()).toString('base64')}`;
}
