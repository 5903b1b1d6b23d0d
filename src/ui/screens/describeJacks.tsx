// The jacks of a unit, tapped together in groups, written in one line, or copied; with the face drawn as it will be
// walked. One line of text is the truth behind all three.
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { nameToKey } from '../../core/plan/identity.ts';
import { CONNECTOR_NAMES, type FaceRows, parseJacks } from '../../core/plan/jackNotation.ts';
import { useAsked } from '../context.ts';
import { FaceStrip } from '../parts/face-strip.tsx';
import { Choice, Field, PlainButton } from '../parts/form.tsx';
import { Row, SectionHead } from '../parts/rows.tsx';
import { type UnitDraft, withGroup } from './describeDraft.ts';
import { Stepper } from './stepper.tsx';

/** First those that an audio rack is full of. */
const COMMON = ['XLR', 'RJ45', 'BNC', 'TRS', 'D-sub 25', 'terminal'];
const OTHERS = CONNECTOR_NAMES.filter((name) => !COMMON.includes(name));

export function DescribeJacks(props: {
  audit: string;
  draft: UnitDraft;
  rows: string[][];
  units: readonly string[];
  set: (change: Partial<UnitDraft>) => void;
}) {
  const { draft, set } = props;
  const copying = useSignal(false);
  const noted = parseJacks(draft.notation);
  return (
    <>
      <SectionHead strong title="Jacks" right={String(noted.jacks.length)} />
      <div class="desk-part">
        <Field
          label="In one line"
          ident
          lines={2}
          value={draft.notation}
          placeholder="8 x XLR in, 1 x RJ45 NET"
          hint='Counted groups, ranges such as P01-P24, two rows as J1-J24/J25-J48, legs as IN L/R. In quotes a name is taken as it stands: "IN, L".'
          onInput={(notation) => set({ notation })}
        />
        {noted.problems.map((one) => (
          <p key={one.at} class="describe-trouble" role="alert">
            “{one.said}”: {one.why}
          </p>
        ))}
      </div>
      {props.rows.length > 0 && (
        <div class="describe-face">
          <FaceStrip
            unitLabel={draft.label.trim() || '?'}
            heightU={draft.heightU}
            rows={props.rows.map((row) =>
              row.map((label) => ({
                place: label,
                label,
                connector: noted.jacks.find((jack) => nameToKey(jack.label) === nameToKey(label))?.connector,
                state: 'unseen' as const,
              })),
            )}
          />
          <p class="quiet">
            {props.rows.map((row) => `${row[0]} to ${row.at(-1)}`).join(' over ')}, {draft.face}, from the left.
          </p>
        </div>
      )}
      <div class="desk-part">
        <Group onAdd={(group) => set({ notation: withGroup(draft.notation, group) })} />
        <Choice<FaceRows>
          legend="Rows"
          value={draft.rows}
          options={[
            { value: 'one', text: 'One' },
            { value: 'odd-over-even', text: 'Odd over even' },
            { value: 'one-after-the-other', text: 'Half over half' },
          ]}
          onChoose={(rows) => set({ rows })}
        />
        <Choice
          legend="Jacks are seen from the"
          value={draft.face}
          options={[
            { value: 'rear', text: 'Rear' },
            { value: 'front', text: 'Front' },
          ]}
          onChoose={(face) => set({ face })}
        />
        {props.units.length > 0 && (
          <PlainButton
            onPress={() => {
              copying.value = !copying.value;
            }}
          >
            {copying.value ? 'Do not copy' : 'Copy from a unit like it'}
          </PlainButton>
        )}
      </div>
      {copying.value && (
        <Likes
          audit={props.audit}
          units={props.units}
          onLike={(change) => {
            copying.value = false;
            set(change);
          }}
        />
      )}
    </>
  );
}

function Group(props: {
  onAdd: (group: { count: number; connector: string; direction: string; label: string }) => void;
}) {
  const connector = useSignal('XLR');
  const direction = useSignal<'in' | 'out' | ''>('in');
  const count = useSignal(8);
  const label = useSignal('');
  const more = useSignal(false);
  return (
    <fieldset class="describe-group">
      <legend class="field-label">A group of like jacks</legend>
      <Choice
        legend="Connector"
        value={connector.value}
        options={[...COMMON, ...(more.value ? OTHERS : [])].map((name) => ({ value: name, text: name }))}
        onChoose={(name) => {
          connector.value = name;
          // A network jack is neither.
          if (name === 'RJ45' || name === 'LC' || name === 'SC') direction.value = '';
        }}
      />
      {!more.value && (
        <PlainButton
          onPress={() => {
            more.value = true;
          }}
        >
          Other connectors
        </PlainButton>
      )}
      <Choice
        legend="Direction"
        value={direction.value}
        options={[
          { value: 'in', text: 'In' },
          { value: 'out', text: 'Out' },
          { value: '', text: 'Neither' },
        ]}
        onChoose={(to) => {
          direction.value = to;
        }}
      />
      <Stepper
        label="How many"
        value={count.value}
        least={1}
        most={96}
        onChange={(n) => {
          count.value = n;
        }}
      />
      <Field
        label="Name of the first"
        ident
        value={label.value}
        placeholder={direction.value === 'in' ? 'IN 1' : direction.value === 'out' ? 'OUT 1' : 'J1'}
        hint="As it is printed; the rest is counted on from it."
        onInput={(text) => {
          label.value = text;
        }}
      />
      <PlainButton
        onPress={() => {
          props.onAdd({
            count: count.value,
            connector: connector.value,
            direction: direction.value,
            label: label.value,
          });
          label.value = '';
        }}
      >
        Add {count.value} × {connector.value} {direction.value}
      </PlainButton>
    </fieldset>
  );
}

function Likes(props: { audit: string; units: readonly string[]; onLike: (change: Partial<UnitDraft>) => void }) {
  const filter = useSignal('');
  const chosen = useSignal<string | null>(null);
  const wanted = filter.value.trim().toUpperCase();
  const found = props.units.filter((label) => label.toUpperCase().includes(wanted)).slice(0, 30);
  return (
    <section aria-label="Units to copy from">
      {props.units.length > 12 && (
        <Field
          label="Unit"
          type="search"
          ident
          value={filter.value}
          onInput={(text) => {
            filter.value = text;
          }}
        />
      )}
      {found.map((label) => (
        <Row
          key={label}
          title={<span class="ident">{label}</span>}
          onPress={() => {
            chosen.value = label;
          }}
        />
      ))}
      {chosen.value !== null && <Copy audit={props.audit} label={chosen.value} onLike={props.onLike} />}
    </section>
  );
}

function Copy(props: { audit: string; label: string; onLike: (change: Partial<UnitDraft>) => void }) {
  const asked = useAsked('like', { audit: props.audit, label: props.label });
  useEffect(() => {
    if (asked.type !== 'ready' || !asked.value) return;
    const { notation, rows, heightU, face, through } = asked.value;
    const [upper = [], lower = []] = rows;
    const interleaved = rows.length === 2 && lower.length > 0;
    props.onLike({
      notation,
      heightU,
      face,
      through,
      like: props.label,
      rows: !interleaved ? 'one' : isNext(upper[0], lower[0]) ? 'odd-over-even' : 'one-after-the-other',
    });
  }, [asked.type]);
  return null;
}

function isNext(a = '', b = ''): boolean {
  const number = (text: string) => Number(/(\d+)\D*$/.exec(text)?.[1] ?? Number.NaN);
  return number(b) === number(a) + 1;
}
