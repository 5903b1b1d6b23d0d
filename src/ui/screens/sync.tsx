// The exchange with the server in words: its state, what was not sent, what was refused and why; pairing, phones,
// and the whole station as a file. Unpairing clears the token and never the work.
import { useServices } from '../context.ts';
import { syncToMessage } from '../messages.ts';
import { Plate, Screen, TitleBlock } from '../parts/frame.tsx';
import { ErrorBox, Row, SectionHead } from '../parts/rows.tsx';
import { clock } from '../times.ts';
import { unsentCount, unsentToWords } from './homeWords.ts';
import { toHome } from './planParts.tsx';
import { BundlePart } from './syncBundle.tsx';
import { PairPart } from './syncPair.tsx';
import { PhonesPart } from './syncPhones.tsx';
import '../look/desk.css';

export default function SyncScreen() {
  const services = useServices();
  const state = services.sync.state.value;
  const unsent = services.unsent.value;
  const message = syncToMessage(state, clock);
  const paired = state.type !== 'unpaired' && !(state.type === 'stopped' && state.why === 'needs-pairing');
  const stuck = state.type === 'waiting' || state.type === 'stopped';
  const waiting = unsentCount(unsent);
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
                  small: waiting === 0 ? 'Nothing waits' : `${waiting} wait`,
                  big: state.type === 'sending' ? 'Sending' : 'Send now',
                  primary: true,
                  disabled: state.type === 'sending',
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
                ? `Next try ${clock(state.retryAt)}, after ${state.tries} ${state.tries === 1 ? 'try' : 'tries'}.`
                : undefined
            }
            todo={message.todo}
          />
        ) : (
          <p>
            <strong>{message.what}</strong> {message.todo}
          </p>
        )}
        <p>{unsentToWords(unsent)}</p>
        <p class="quiet">
          What you record stays on this phone until the server says that it holds it, and is kept here after that as
          well.
        </p>
      </div>
      {unsent.refused.length > 0 && (
        <>
          <SectionHead strong title="Not taken by the server" right={String(unsent.refused.length)} />
          <p class="desk-note">They stay on this phone and in its reports. Take them along in the station’s file.</p>
          {unsent.refused.slice(0, 100).map(({ id, why }) => (
            <Row key={id} title={why} second={<span class="ident">{id}</span>} />
          ))}
          {unsent.refused.length > 100 && <p class="desk-note">And {unsent.refused.length - 100} more.</p>}
        </>
      )}
      <PairPart paired={paired} />
      {paired && <PhonesPart />}
      <BundlePart />
    </Screen>
  );
}
