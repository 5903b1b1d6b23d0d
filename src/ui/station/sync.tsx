// The exchange with the server in words: its state, what waits, since when and why, what was held back; pairing,
// phones, and the whole station as a file. Unpairing clears the token and never the work.
import { useServices } from '../context.ts';
import { unsentCount } from '../home/homeWords.ts';
import { syncToMessage } from '../messages.ts';
import { Plate, Screen, TitleBlock } from '../parts/frame.tsx';
import { ErrorBox } from '../parts/rows.tsx';
import { toHome } from '../plan/planParts.tsx';
import { clock } from '../times.ts';
import { count, timeToWords } from '../words.ts';
import { clockLine, receiveLine, waitLines } from './sendWords.ts';
import { BundlePart } from './syncBundle.tsx';
import { FaultsPart, HeldPart, PhotosPart } from './syncHeld.tsx';
import { PairPart } from './syncPair.tsx';
import { PhonesPart } from './syncPhones.tsx';
import { RecordPart } from './syncRecord.tsx';
import '../look/desk.css';

const momentFrom = (now: number) => (at: number) => timeToWords(at, now);

export default function SyncScreen() {
  const services = useServices();
  const state = services.sync.state.value;
  const unsent = services.unsent.value;
  const message = syncToMessage(state, clock);
  const paired = state.type !== 'unpaired' && !(state.type === 'stopped' && state.why === 'needs-pairing');
  const sending = services.sync.sending.value;
  const skew = clockLine(sending?.details.clockAhead ?? null);
  const received = paired ? receiveLine(sending) : null;
  const stuck = state.type === 'waiting' || state.type === 'stopped';
  const waiting = unsentCount(unsent);
  // A long upload is no reason to keep a person from trying the rest again.
  const busy = state.type === 'sending' && sending?.details.lanes.entries.type !== 'waiting';
  return (
    <Screen
      plate={
        <Plate
          back={{ label: 'Back to the first screen', onPress: toHome }}
          cells={[
            { small: services.stationName.value || 'Station', big: 'Send and receive', heading: true },
            { small: 'Not sent', big: String(waiting) },
          ]}
        />
      }
      foot={
        paired ? (
          <TitleBlock
            rows={[
              [
                {
                  small: waiting === 0 ? 'Nothing waits' : count(waiting, 'item waits', 'items wait'),
                  big: busy ? 'Sending' : 'Send now',
                  primary: true,
                  disabled: busy,
                  onPress: () => services.sync.now(),
                },
              ],
            ]}
          />
        ) : undefined
      }
    >
      <div class="desk-part" role="status">
        {stuck ? (
          <ErrorBox
            what={message.what}
            where={
              state.type === 'waiting'
                ? `Next try ${clock(state.retryAt)}, after ${count(state.tries, 'try', 'tries')}.`
                : undefined
            }
            todo={message.todo}
          />
        ) : (
          <p>
            <strong>{message.what}</strong> {message.todo}
          </p>
        )}
        {waitLines(unsent, state, sending, momentFrom(services.now())).map((line) => (
          <p key={line}>{line}</p>
        ))}
        {received && <p>{received}</p>}
        <p class="quiet">
          What you record stays on this phone until the server confirms it, and is kept here after that too.
        </p>
      </div>
      {skew && (
        <div class="desk-part">
          <ErrorBox what={skew} todo="Set the phone’s clock to automatic. Your own entries keep their order anyway." />
        </div>
      )}
      <HeldPart />
      <FaultsPart />
      <RecordPart />
      <PairPart paired={paired} />
      {paired && <PhotosPart />}
      {paired && <PhonesPart />}
      <BundlePart />
    </Screen>
  );
}
