// Sending and receiving: what is not sent, pairing, further phones, and the whole station as one file. Nothing leaves
// this phone's keeping before the server has said that it holds it.
import { useSignal } from '@preact/signals';
import { useServices } from '../context.ts';
import { syncToMessage } from '../messages.ts';
import { PlainButton } from '../parts/form.tsx';
import { Plate, Screen, TitleBlock } from '../parts/frame.tsx';
import { ErrorBox, Row, SectionHead } from '../parts/rows.tsx';
import { go } from '../router.ts';
import { clock } from '../times.ts';
import { unsentToWords } from './homeWords.ts';
import { PairPart } from './syncPair.tsx';
import { PhonesPart } from './syncPhones.tsx';
import '../look/desk.css';

export default function Sync() {
  const services = useServices();
  const state = services.sync.state.value;
  const unsent = services.unsent.value;
  const message = syncToMessage(state, clock);
  const paired = state.type !== 'unpaired' && !(state.type === 'stopped' && state.why === 'needs-pairing');
  return (
    <Screen
      plate={
        <Plate
          back={{ label: 'Back to the station', onPress: () => go({ screen: 'home' }) }}
          cells={[{ small: services.stationName.value || 'Station', big: 'Send and receive', heading: true }]}
        />
      }
      foot={
        paired ? (
          <TitleBlock
            rows={[
              [
                {
                  small: message.what,
                  big: state.type === 'sending' ? 'Sending' : 'Send now',
                  primary: true,
                  onPress: () => services.sync.now(),
                },
              ],
            ]}
          />
        ) : undefined
      }
    >
      <div class="desk-part" role="status">
        <p>
          <strong>{message.what}</strong> {message.todo}
        </p>
        <p>{unsentToWords(unsent)}</p>
      </div>
      {unsent.refused.length > 0 && (
        <>
          <SectionHead title="Not taken by the server" right={String(unsent.refused.length)} />
          <p class="desk-note">
            These stay on this phone and go with the file below. Show them to whoever looks after the server.
          </p>
          {unsent.refused.slice(0, 50).map((one) => (
            <Row key={one.id} title={<span class="ident">{one.id.slice(0, 18)}</span>} second={one.why} />
          ))}
        </>
      )}
      {!paired && <PairPart />}
      {paired && <PhonesPart />}
      <BundlePart />
    </Screen>
  );
}

function BundlePart() {
  const services = useServices();
  const ready = useSignal<{ file: File; canShare: boolean } | null>(null);
  const word = useSignal<string | null>(null);
  const trouble = useSignal<{ what: string; todo: string } | null>(null);
  const working = useSignal(false);
  return (
    <>
      <SectionHead title="As one file" />
      <div class="desk-part">
        <p>Everything of this station in one file: plan, statements, photos. It can be brought in on another phone.</p>
        {trouble.value && <ErrorBox what={trouble.value.what} todo={trouble.value.todo} />}
        {ready.value ? (
          <PlainButton
            primary
            onPress={() => {
              const made = ready.value;
              if (made)
                void services.handOver(made.file).then((how) => {
                  word.value =
                    how === 'cancelled'
                      ? 'Not handed over. The file is still ready.'
                      : how === 'shared'
                        ? 'Handed over.'
                        : 'Saved with the downloads.';
                });
            }}
          >
            {ready.value.canShare ? 'Hand over' : 'Save'} {ready.value.file.name} (
            {Math.max(1, Math.round(ready.value.file.size / 1000))} kB)
          </PlainButton>
        ) : (
          <PlainButton
            disabled={working.value}
            onPress={() => {
              working.value = true;
              services.prepareBundle().then(
                (made) => {
                  ready.value = made;
                  working.value = false;
                },
                () => {
                  trouble.value = { what: 'The file could not be made.', todo: 'Free some space, then try again.' };
                  working.value = false;
                },
              );
            }}
          >
            {working.value ? 'Making the file' : 'Make the file'}
          </PlainButton>
        )}
        <p role="status">{word.value}</p>
        <label class="plain-button">
          Bring a file in
          <input
            type="file"
            class="only-spoken"
            accept=".zip,application/zip"
            onChange={(e) => {
              const [file] = e.currentTarget.files ?? [];
              if (!file) return;
              void services.takeBundle(file).then((taken) => {
                if (taken.type === 'refused') trouble.value = { what: taken.what, todo: taken.nextStep };
                else
                  word.value = `Brought in: ${taken.events} new entries, ${taken.documents} documents.${taken.damaged.length > 0 ? ` Damaged and left out: ${taken.damaged.join('; ')}.` : ''}`;
              });
            }}
          />
        </label>
      </div>
    </>
  );
}
