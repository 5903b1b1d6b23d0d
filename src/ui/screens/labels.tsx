// A page of labels to print, or to read off this screen with another phone: QR of the plain identifier with the text
// beneath. It changes nothing in the record.
import { useSignal } from '@preact/signals';
import { useAsked, useServices } from '../context.ts';
import { Field } from '../parts/form.tsx';
import { Plate, Screen, TitleBlock } from '../parts/frame.tsx';
import { Empty } from '../parts/rows.tsx';
import { go } from '../router.ts';
import { Qr } from './labelsQr.tsx';
import { back, NoAnswer } from './planParts.tsx';
import '../look/desk.css';

const PAGE = 60;

export default function Labels({ audit }: { audit: string | null }) {
  const services = useServices();
  const asked = useAsked('labels', { audit });
  const wanted = useSignal('');
  const page = useSignal(0);
  if (asked.type !== 'ready') return <NoAnswer title="Labels" asked={asked} missing="" />;
  const key = wanted.value.trim().toUpperCase();
  const rows = asked.value.filter(
    ({ text, line }) => text.toUpperCase().startsWith(key) || line.toUpperCase().includes(key),
  );
  const pages = Math.max(1, Math.ceil(rows.length / PAGE));
  const at = Math.min(page.value, pages - 1);
  const shown = rows.slice(at * PAGE, (at + 1) * PAGE);
  const turn = (by: number) => {
    page.value = Math.min(pages - 1, Math.max(0, at + by));
  };
  return (
    <Screen
      plate={
        <Plate
          back={{ label: 'Back', onPress: back }}
          cells={[
            { small: services.stationName.value || 'Station', big: 'Labels', heading: true },
            { small: 'Labels', big: String(rows.length) },
            { small: 'Page', big: `${at + 1} of ${pages}` },
          ]}
        />
      }
      foot={
        shown.length > 0 ? (
          <TitleBlock
            rows={[
              [
                {
                  small: `${shown.length} on this page`,
                  big: 'Print',
                  primary: true,
                  share: 2,
                  onPress: () => print(),
                },
                { small: 'Page', big: 'Before', disabled: at === 0, onPress: () => turn(-1) },
                { small: 'Page', big: 'Next', disabled: at === pages - 1, onPress: () => turn(1) },
              ],
            ]}
          />
        ) : undefined
      }
    >
      <div class="desk-part no-print">
        <Field
          label="Only labels with"
          hint="The beginning of a number, or a unit."
          type="search"
          ident
          value={wanted.value}
          onInput={(text) => {
            wanted.value = text;
            page.value = 0;
          }}
        />
      </div>
      {asked.value.length === 0 ? (
        <Empty
          what="The plan has no numbered cables."
          why="Labels are made from the plan in force."
          next={{ text: 'Bring in a schedule', onPress: () => go({ screen: 'bring-in' }) }}
        />
      ) : shown.length === 0 ? (
        <Empty what={`No label with “${wanted.value.trim().slice(0, 60)}”.`} />
      ) : (
        <>
          <ul class="label-sheet">
            {shown.map((row, i) => (
              <li key={i} class="label-one">
                <Qr text={row.text} title={`Code of ${row.text}`} />
                <span class="ident">{row.text}</span>
                <small>{row.line}</small>
              </li>
            ))}
          </ul>
          <div class="label-ruler" aria-hidden="true">
            100 mm
          </div>
          <p class="desk-note">
            Print at 100 %, without fitting to the page: the line above then measures 100 mm. Each code holds the
            identifier and nothing else; any reader can read it.
          </p>
        </>
      )}
    </Screen>
  );
}
