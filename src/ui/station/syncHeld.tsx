// What did not get through, each with its reason and "send again"; what came with faults; over which network photos go.
import { useServices } from '../context.ts';
import { Choice, PlainButton } from '../parts/form.tsx';
import { Row, SectionHead } from '../parts/rows.tsx';
import { dayAndClock } from '../times.ts';
import { count } from '../words.ts';
import { faultLines, heldToWords } from './sendWords.ts';

/** More rows help nobody; the rest is counted. */
const SHOWN = 50;

export function HeldPart() {
  const services = useServices();
  const held = services.sync.sending.value?.held ?? [];
  if (held.length === 0) return null;
  return (
    <>
      <SectionHead strong title="Held back" right={String(held.length)} />
      <div class="desk-part">
        <p>What is held back stays on this phone and in its reports. The app tries again by itself.</p>
        {held.length > 1 && (
          <PlainButton onPress={() => void services.sync.sendAgain(null)}>Send all {held.length} again</PlainButton>
        )}
      </div>
      {held.slice(0, SHOWN).map((item) => {
        const { title, second } = heldToWords(item, dayAndClock);
        return (
          <Row
            key={item.key}
            title={title}
            second={second}
            right="Send again"
            onPress={() => void services.sync.sendAgain(item.key)}
          />
        );
      })}
      {held.length > SHOWN && <p class="desk-note">And {count(held.length - SHOWN, 'more item')}.</p>}
    </>
  );
}

export function FaultsPart() {
  const sending = useServices().sync.sending.value;
  const lines = sending ? faultLines(sending, dayAndClock) : [];
  if (lines.length === 0) return null;
  return (
    <>
      <SectionHead strong title="Received with faults" right={String(lines.length)} />
      <p class="desk-note">Everything else goes on as usual.</p>
      {lines.slice(0, SHOWN).map((line) => (
        <Row key={line} title={line} />
      ))}
      {lines.length > SHOWN && <p class="desk-note">And {count(lines.length - SHOWN, 'more fault')}.</p>}
    </>
  );
}

const NETWORK = {
  good: 'This phone is on Wi-Fi or a cable now.',
  poor: 'This phone is on a mobile network now.',
  unknown: 'This browser does not say which network it is on. Where it is good, send them by hand.',
} as const;

export function PhotosPart() {
  const services = useServices();
  const sending = services.sync.sending.value;
  if (!sending) return null;
  const { photosWait, network, details } = sending;
  const waiting = services.unsent.value.photos;
  return (
    <>
      <SectionHead strong title="Photos" />
      <div class="desk-part">
        <Choice
          legend="Send photos over"
          hint={NETWORK[network]}
          options={[
            { value: 'any', text: 'any network' },
            { value: 'good', text: 'a good one only' },
          ]}
          value={photosWait ? 'good' : 'any'}
          onChoose={(value) => void services.sync.setPhotosWait(value === 'good')}
        />
        {details.photosHeld && waiting > 0 && (
          <PlainButton onPress={() => services.sync.sendPhotosNow()}>Send {count(waiting, 'photo')} now</PlainButton>
        )}
      </div>
    </>
  );
}
