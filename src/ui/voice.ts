// Speaking a note: the microphone is asked for on the press, held only while it records, and let go whatever happens.
// It stores nothing; what was spoken is handed over once, as one piece.
import type { Signal } from '@preact/signals';
import { type ReadonlySignal, signal } from '@preact/signals';

export const VOICE_MAX_MS = 120_000;

export type VoiceFailure =
  | 'no-recorder'
  | 'no-permission'
  | 'no-microphone'
  | 'microphone-in-use'
  | 'insecure-context'
  | 'nothing-recorded';
type VoiceState =
  | { type: 'ready' }
  | { type: 'asking' }
  | { type: 'recording'; since: number }
  | { type: 'failed'; why: VoiceFailure };

type Stream = Pick<MediaStream, 'getTracks'>;
export interface RecorderLike {
  mimeType: string;
  state: string;
  start(slice?: number): void;
  stop(): void;
  ondataavailable: ((event: { data: Blob }) => void) | null;
  onstop: (() => void) | null;
  onerror: (() => void) | null;
}

export interface VoicePorts {
  /** Null where the page has none, mostly because its address is not trusted. */
  microphone: (() => Promise<Stream>) | null;
  /** Null where the browser cannot record. */
  recorder: ((stream: Stream, mime: string | null) => RecorderLike) | null;
  canRecord: (mime: string) => boolean;
  now: () => number;
  after: (ms: number, call: () => void) => () => void;
}

export interface Voice {
  state: ReadonlySignal<VoiceState>;
  start(): Promise<void>;
  /** Ends it and hands over what was spoken. */
  stop(): void;
  /** Ends it and forgets it. */
  discard(): void;
}

/** What servers keep and browsers play, what the most can play first: older iPhones play no WebM (from memory). */
const MIMES = ['audio/mp4;codecs=mp4a.40.2', 'audio/webm;codecs=opus', 'audio/webm', 'audio/mp4'];

type Speaking = {
  ports: VoicePorts;
  onSpoken: (sound: Blob, lasts: number) => void;
  state: Signal<VoiceState>;
  running: { end: (keep: boolean) => void } | null;
  // Whatever was asked for before a discard belongs to nobody.
  epoch: number;
};

export function createVoice(ports: VoicePorts, onSpoken: (sound: Blob, lasts: number) => void): Voice {
  const voice: Speaking = { ports, onSpoken, state: signal<VoiceState>({ type: 'ready' }), running: null, epoch: 0 };

  return {
    state: voice.state,
    start: () => start(voice),
    stop: () => voice.running?.end(true),
    discard() {
      voice.epoch += 1;
      voice.running?.end(false);
      if (voice.state.peek().type === 'asking') voice.state.value = { type: 'ready' };
    },
  };
}

async function start(voice: Speaking): Promise<void> {
  if (voice.running || voice.state.value.type === 'asking') return;
  if (!voice.ports.microphone) return fail(voice, 'insecure-context');
  if (!voice.ports.recorder) return fail(voice, 'no-recorder');
  voice.epoch += 1;
  const mine = voice.epoch;
  voice.state.value = { type: 'asking' };
  let stream: Stream;
  try {
    stream = await voice.ports.microphone();
  } catch (thrown) {
    if (mine === voice.epoch) fail(voice, toFailure(thrown));
    return;
  }
  if (mine !== voice.epoch) return letGo(stream);
  try {
    record(voice, stream);
  } catch {
    letGo(stream);
    fail(voice, 'no-recorder');
  }
}

function record(voice: Speaking, stream: Stream): void {
  const mime = MIMES.find(voice.ports.canRecord) ?? null;
  const recorder = voice.ports.recorder!(stream, mime);
  const since = voice.ports.now();
  const parts: Blob[] = [];
  let keep = true;
  let lasts = 0;
  const callOff = voice.ports.after(VOICE_MAX_MS, () => voice.running?.end(true));
  const end = (kept: boolean) => {
    keep = kept;
    lasts = Math.min(VOICE_MAX_MS, voice.ports.now() - since);
    callOff();
    if (recorder.state === 'inactive') over();
    else recorder.stop();
  };
  let closed = false;
  const over = () => {
    if (closed) return;
    closed = true;
    callOff();
    letGo(stream);
    voice.running = null;
    lasts ||= Math.min(VOICE_MAX_MS, voice.ports.now() - since);
    const sound = new Blob(parts, { type: recorder.mimeType || mime || 'audio/webm' });
    if (keep && sound.size === 0) return fail(voice, 'nothing-recorded');
    voice.state.value = { type: 'ready' };
    if (keep) voice.onSpoken(sound, lasts);
  };
  recorder.ondataavailable = ({ data }) => {
    if (data.size > 0) parts.push(data);
  };
  recorder.onstop = over;
  recorder.onerror = () => end(true);
  // A call or another app can take the microphone away: what was spoken until then is kept.
  for (const track of stream.getTracks()) track.addEventListener('ended', () => voice.running?.end(true));
  voice.running = { end };
  recorder.start(1000);
  voice.state.value = { type: 'recording', since };
}

function fail(voice: Speaking, why: VoiceFailure): void {
  voice.state.value = { type: 'failed', why };
}

function letGo(stream: Stream): void {
  for (const track of stream.getTracks()) track.stop();
}

/** Names of the Media Capture and Streams specification, getUserMedia. */
function toFailure(thrown: unknown): VoiceFailure {
  const name = thrown instanceof Error || thrown instanceof DOMException ? thrown.name : '';
  if (name === 'NotFoundError' || name === 'OverconstrainedError') return 'no-microphone';
  if (name === 'NotReadableError' || name === 'AbortError') return 'microphone-in-use';
  return 'no-permission';
}

/** The browser's own microphone and recorder. */
export function browserVoice(now: () => number): VoicePorts {
  const { mediaDevices } = navigator;
  const Recorder = globalThis.MediaRecorder as typeof MediaRecorder | undefined;
  return {
    microphone: mediaDevices ? () => mediaDevices.getUserMedia({ audio: true }) : null,
    recorder: Recorder
      ? (stream, mime) => new Recorder(stream as MediaStream, mime ? { mimeType: mime } : {}) as RecorderLike
      : null,
    canRecord: (mime) => Recorder?.isTypeSupported(mime) === true,
    now,
    after: (ms, call) => {
      const timer = setTimeout(call, ms);
      return () => clearTimeout(timer);
    },
  };
}

/** `1:05` */
export function lastsToWords(ms: number): string {
  const seconds = Math.round(ms / 1000);
  return `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, '0')}`;
}
