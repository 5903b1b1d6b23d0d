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
    todo: 'The app tries again by itself. Go on working; nothing is lost.',
  },
  timeout: { what: 'The server took too long.', todo: 'The app tries again by itself.' },
  'not-our-server': {
    what: 'Something else answered: a log-in page or a proxy.',
    todo: 'Open the network’s log-in page, then send again.',
  },
  'server-failed': {
    what: 'The server had a fault.',
    todo: 'The app tries again by itself. If that does not help, check the server.',
  },
  'server-busy': { what: 'The server is busy.', todo: 'The app tries again when the server said to.' },
  'answer-unreadable': {
    what: 'The server’s answer could not be read.',
    todo: 'The app tries again. Check that app and server are the same version.',
  },
  'phone-failed': { what: 'This phone’s own storage failed.', todo: 'Free some space on the phone, then send again.' },
};

const REASONS: Record<WaitingWhy, string> = {
  'no-answer': 'the server does not answer',
  timeout: 'the server took too long',
  'not-our-server': 'something else answered, a log-in page or a proxy',
  'server-failed': 'the server had a fault',
  'server-busy': 'the server is busy',
  'answer-unreadable': 'the server’s answer could not be read',
  'phone-failed': 'this phone’s own storage failed',
};

/** The same inside a sentence. */
export function waitingToReason(why: WaitingWhy): string {
  return REASONS[why];
}

const STOPPED: Record<Extract<SyncState, { type: 'stopped' }>['why'], Message> = {
  'needs-pairing': {
    what: 'The server no longer knows this phone.',
    todo: 'Pair again with a new code. What is not sent stays here and is sent then.',
  },
  'phone-too-old': {
    what: 'This phone’s app is too old for the server.',
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
        todo: 'Everything is kept on this phone. Pair it with a server, or save it all as a file.',
      };
    case 'idle':
      return state.lastAt === null
        ? { what: 'Nothing sent since the app was opened.', todo: 'What is recorded is sent by itself.' }
        : { what: `Sent and received at ${at(state.lastAt)}.`, todo: 'New entries are sent by themselves.' };
    case 'sending':
      return {
        what: `Sending: ${state.progress.done} done, ${state.progress.left} left.`,
        todo: 'Keep the screen on until it is done.',
      };
    case 'waiting':
      return WAITING[state.why];
    case 'stopped':
      return STOPPED[state.why];
  }
}

const PAIRING: Record<Exclude<PairFailure, WaitingWhy>, Message> = {
  'not-a-code': {
    what: 'That is not a pairing code.',
    todo: 'Type the ten characters just as the server prints them.',
  },
  'code-unknown': {
    what: 'The server does not know this code.',
    todo: 'Check it letter by letter, or make a new one.',
  },
  'code-used': { what: 'This code was used already.', todo: 'Make a new one: each works once.' },
  'code-expired': { what: 'This code is too old.', todo: 'Make a new one: each works for 15 minutes.' },
  'station-needed': {
    what: 'The server has no station yet and this phone has no name for one.',
    todo: 'Name the station first, or import a schedule; then pair.',
  },
  'station-differs': {
    what: 'The code is for a different station from the one on this phone.',
    todo: 'Use a code for this station, or pair an empty phone.',
  },
  'too-many': { what: 'Too many tries.', todo: 'Wait a few minutes, then try a new code.' },
  'phone-too-old': STOPPED['phone-too-old'],
  'server-too-old': STOPPED['server-too-old'],
};

function isWaiting(why: PairFailure): why is WaitingWhy & PairFailure {
  return why in WAITING;
}

export function pairFailureToMessage(why: PairFailure): Message {
  return isWaiting(why) ? WAITING[why] : PAIRING[why];
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
      return { what: 'Another app is using the camera.', todo: 'Close it, then start the camera again.' };
    case 'insecure-context':
      return { what: 'The camera works only over HTTPS.', todo: 'Open the app by its https address; see Help.' };
    case 'stalled':
      return { what: 'The camera gives no picture.', todo: 'Start it again.' };
    case 'decoder-failed':
      return { what: 'The code reader failed.', todo: 'Start the camera again, or type the label.' };
  }
}

const MEDIA: Record<MediaFailure, Message> = {
  heic: {
    what: 'This picture is in HEIC format, which other phones cannot show.',
    todo: 'Set the camera to “most compatible” (JPEG), or take the picture in the app.',
  },
  'not-a-picture': { what: 'That is not a picture.', todo: 'Choose a JPEG or PNG, or take one in the app.' },
  'no-memory': {
    what: 'The phone has no memory left for the picture.',
    todo: 'Close other apps and take it again. Your entries are kept all the same.',
  },
  'no-room': {
    what: 'Storage on this phone is almost full: no more photos or voice notes.',
    todo: 'Send what waits and free some space. You can still record entries and notes.',
  },
  full: {
    what: 'The phone has no space for it.',
    todo: 'Free some space and try again. Your entries are kept all the same.',
  },
  'store-lost': { what: 'It could not be stored.', todo: 'Try again. If that does not help, reload the app.' },
  'too-large': { what: 'The file is too large.', todo: 'Take it again in the app.' },
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
  'microphone-in-use': { what: 'Another app is using the microphone.', todo: 'Close it and record again.' },
  'insecure-context': {
    what: 'The microphone works only over HTTPS.',
    todo: 'Open the app by its https address; see Help.',
  },
  'nothing-recorded': { what: 'Nothing was recorded.', todo: 'Record again, or write the note.' },
};

export function voiceFailureToMessage(why: VoiceFailure): Message {
  return VOICE[why];
}
