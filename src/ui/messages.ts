// Every expected failure in one sentence with the next step. Screens show these and nothing of their own.
import type { ScanFailure } from '../scan/scanner.ts';
import type { PairFailure, SyncState, WaitingWhy } from '../sync/ports.ts';
import type { MediaFailure } from './services.ts';
import type { VoiceFailure } from './voice.ts';

export interface Message {
  what: string;
  todo: string;
}

const WAITING: Record<WaitingWhy, Message> = {
  'no-answer': {
    what: 'The server does not answer.',
    todo: 'It is tried again by itself. Go on working; nothing is lost.',
  },
  timeout: { what: 'The server took too long.', todo: 'It is tried again by itself.' },
  'not-our-server': {
    what: 'Something else answered: a log-in page or a proxy.',
    todo: 'Open the network’s log-in page, then send again.',
  },
  'server-failed': {
    what: 'The server had a fault.',
    todo: 'It is tried again by itself. If it stays so, look at the server.',
  },
  'server-busy': { what: 'The server asks for patience.', todo: 'It is tried again when it said.' },
  'answer-unreadable': {
    what: 'The server’s answer could not be read.',
    todo: 'It is tried again. Check that app and server are of one version.',
  },
  'phone-failed': { what: 'This phone’s own storage refused.', todo: 'Free some space on the phone, then send again.' },
};

const REASONS: Record<WaitingWhy, string> = {
  'no-answer': 'the server does not answer',
  timeout: 'the server took too long',
  'not-our-server': 'something else answered, a log-in page or a proxy',
  'server-failed': 'the server had a fault',
  'server-busy': 'the server asks to wait',
  'answer-unreadable': 'the server’s answer could not be read',
  'phone-failed': 'this phone’s own storage refused',
};

/** The same inside a sentence. */
export function waitingToReason(why: WaitingWhy): string {
  return REASONS[why];
}

const STOPPED: Record<Extract<SyncState, { type: 'stopped' }>['why'], Message> = {
  'needs-pairing': {
    what: 'The server no longer knows this phone.',
    todo: 'Pair again with a new code. What is not sent stays here and goes then.',
  },
  'phone-too-old': {
    what: 'This phone’s app is older than the server takes.',
    todo: 'Update the app. What is not sent stays here.',
  },
  'server-too-old': {
    what: 'The server is older than this app.',
    todo: 'Update the server. What is not sent stays here.',
  },
};

/** State of the exchange in words; `at` writes a time. */
export function syncToMessage(state: SyncState, at: (time: number) => string): Message {
  switch (state.type) {
    case 'unpaired':
      return {
        what: 'Not paired with a server.',
        todo: 'Everything is kept on this phone. Pair it, or take it away as a file.',
      };
    case 'idle':
      return state.lastAt === null
        ? { what: 'Not sent yet since this start.', todo: 'It is sent by itself.' }
        : { what: `Sent and received at ${at(state.lastAt)}.`, todo: 'New statements go by themselves.' };
    case 'sending':
      return {
        what: `Sending: ${state.progress.done} done, ${state.progress.left} left.`,
        todo: 'Keep the screen on until it is through.',
      };
    case 'waiting':
      return WAITING[state.why];
    case 'stopped':
      return STOPPED[state.why];
  }
}

const PAIRING: Record<Exclude<PairFailure, WaitingWhy>, Message> = {
  'not-a-code': { what: 'That is not a pairing code.', todo: 'Type the ten characters as the server prints them.' },
  'code-unknown': {
    what: 'The server does not know this code.',
    todo: 'Check it letter by letter, or make a new one.',
  },
  'code-used': { what: 'This code was used already.', todo: 'Make a new one: each works once.' },
  'code-expired': { what: 'This code is too old.', todo: 'Make a new one: each is good for 15 minutes.' },
  'station-needed': {
    what: 'The server has no station yet and this phone has no name for one.',
    todo: 'Name the station first, or bring in a schedule; then pair.',
  },
  'station-differs': {
    what: 'The code belongs to another station than the one on this phone.',
    todo: 'Use a code made for this station, or pair an empty phone.',
  },
  'too-many': { what: 'Too many tries.', todo: 'Wait some minutes, then try a new code.' },
  'phone-too-old': STOPPED['phone-too-old'],
  'server-too-old': STOPPED['server-too-old'],
};

export function pairFailureToMessage(why: PairFailure): Message {
  return why in PAIRING ? PAIRING[why as keyof typeof PAIRING] : WAITING[why as WaitingWhy];
}

export function scanFailureToMessage(failure: ScanFailure): Message {
  switch (failure.type) {
    case 'no-permission':
      return {
        what: 'The camera is not allowed.',
        todo: 'Allow it for this app in the phone’s settings, or type the label.',
      };
    case 'no-camera':
      return { what: 'No camera was found.', todo: 'Type the label, or use a hand scanner.' };
    case 'camera-in-use':
      return { what: 'Another app holds the camera.', todo: 'Close it, then start the camera again.' };
    case 'insecure-context':
      return { what: 'The camera works over HTTPS only.', todo: 'Open the app by its https address; see Help.' };
    case 'stalled':
      return { what: 'The camera gives no picture.', todo: 'Start it again.' };
    case 'decoder-failed':
      return { what: 'The reader of codes failed.', todo: 'Start the camera again, or type the label.' };
  }
}

const MEDIA: Record<MediaFailure, Message> = {
  heic: {
    what: 'This picture is in HEIC, which other phones cannot show.',
    todo: 'Set the camera to “most compatible” (JPEG), or take it in the app.',
  },
  'not-a-picture': { what: 'That is not a picture.', todo: 'Choose a JPEG or PNG, or take one in the app.' },
  'no-memory': {
    what: 'The phone has no memory left for the picture.',
    todo: 'Close other apps and take it again. Statements are kept all the same.',
  },
  'no-room': {
    what: 'Storage on this phone is almost full: no more photos or voice notes.',
    todo: 'Send what waits and free some space. Statements and notes go on.',
  },
  full: {
    what: 'The phone has no room for it.',
    todo: 'Free some space and try again. Statements are kept all the same.',
  },
  'store-lost': { what: 'It could not be stored.', todo: 'Try again. If it stays so, reload the app.' },
  'too-large': { what: 'It is too large.', todo: 'Take it again in the app.' },
};

export function mediaFailureToMessage(why: MediaFailure): Message {
  return MEDIA[why];
}

export function saveFailureToMessage(why: string): Message {
  return why === 'full'
    ? {
        what: 'The phone is full: this is only in memory.',
        todo: 'Free some space, then press Try again. Do not close the app.',
      }
    : { what: 'This could not be saved.', todo: 'Press Try again. Do not close the app before it is saved.' };
}

const VOICE: Record<VoiceFailure, Message> = {
  'no-recorder': { what: 'This browser cannot record sound.', todo: 'Write the note instead.' },
  'no-permission': {
    what: 'The microphone is not allowed.',
    todo: 'Allow it for this app in the phone’s settings, or write the note.',
  },
  'no-microphone': { what: 'No microphone was found.', todo: 'Write the note instead.' },
  'microphone-in-use': { what: 'Another app holds the microphone.', todo: 'Close it and record again.' },
  'insecure-context': {
    what: 'The microphone works over HTTPS only.',
    todo: 'Open the app by its https address; see Help.',
  },
  'nothing-recorded': { what: 'Nothing was recorded.', todo: 'Record again, or write the note.' },
};

export function voiceFailureToMessage(why: VoiceFailure): Message {
  return VOICE[why];
}
