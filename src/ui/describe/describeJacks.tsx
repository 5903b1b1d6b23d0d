// The jacks of a unit, tapped together in groups, written in one line, or copied; with the face drawn as it will be
// walked. One line of text is the truth behind all three.

import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { AuditId } from '../../core/plan/identity.ts';
import type { UnitSaid } from '../../core/record/described.ts';
import { type FaceRows, parseJacks } from '../../core/record/jackNotation.ts';
import { CONNECTOR_NAMES } from '../../core/record/jackWords.ts';
import { nameToKey } from '../../core/trade/names.ts';
import { useAsked } from '../context.ts';
import { FaceStrip } from '../parts/face-strip.tsx';
import { Choice, Field, PlainButton } from '../parts/form.tsx';
import { Row, SectionHead } from '../parts/rows.tsx';
import { Stepper } from '../parts/stepper.tsx';
import { draftToFaces, likeToDraft, type UnitDraft, withGroup } from './describeDraft.ts';
import { faceToWords, groupToAct } from './describeWords.ts';
import { JackPreview } from './jackPreview.tsx';

/** First those that an audio rack is full of. */
const COMMON = ['XLR', 'RJ45', 'BNC', 'TRS', 'D-sub 25', 'terminal'];
const OTHERS = CONNECTOR_NAMES.filter((name) => !COMMON.includes(name));

export function DescribeJacks(props: {
  audit: AuditId;
  draft: UnitDraft;
  before: UnitSaid | null;
  units: readonly string[];
  set: (change: Partial<UnitDraft>) => void;
}) {
  const { draft, set } = props;
  const copying = useSignal(false);
  const noted = parseJacks(draft.notation);
  const faces = draftToFaces(draft, props.before).filter(({ rows }) => rows.length > 0);
  const source = draft.from ?? props.before;
  const isKept = draft.rows === 'kept' && source !== null && noted.rows.length < 2;
  const more = source?.jacks.some(({ signal, leg, mult }) => signal ?? leg ?? mult) ?? false;
  return (
    <>
      <SectionHead strong title="Jacks" right={String(noted.jacks.length)} />
      <div class="desk-part">
        <Field
          label="On one line"
          ident
          lines={2}
          value={draft.notation}
          placeholder="8 XLR in, 1 RJ45 NET"
          hint='For example: 16 XLR; 8 XLR in + 2 RJ45 (A/B); P01-P24 RJ45. Rows: J1-J24/J25-J48. Legs: IN L/R. Put a name in quotes to keep it as typed: "IN, L".'
          onInput={(notation) => set({ notation })}
        />
      </div>
      <JackPreview noted={noted} />
      {faces.map(({ face, rows }) => (
        <div key={face} class="describe-face">
          <FaceStrip
            unitLabel={draft.label.trim() || '?'}
            heightU={draft.heightU}
            rows={rows.map((row) =>
              row.map((label) => ({
                place: label,
                label,
                connector: noted.jacks.find((jack) => nameToKey(jack.label) === nameToKey(label))?.connector,
                state: 'unseen' as const,
              })),
            )}
          />
          <p class="quiet">{faceToWords(rows, face)}</p>
        </div>
      ))}
      <div class="desk-part">
        {more && <p class="quiet">Each jack keeps its signal, its left or right and its mult, matched by name.</p>}
        <Group draft={draft} set={set} />
        <Rows draft={draft} isKept={isKept} lineRows={noted.rows.length} set={set} />
        {isKept && source.faces.length !== 1 ? (
          <p class="quiet">
            {source.faces.length === 0
              ? 'No face is given. Choose rows to lay out one face.'
              : 'Front and rear stay as they were described. Choose rows to lay out one face again.'}
          </p>
        ) : (
          <Choice
            legend="Jacks are seen from the"
            value={draft.face}
            options={[
              { value: 'rear', text: 'Rear' },
              { value: 'front', text: 'Front' },
            ]}
            onChoose={(face) => set({ face })}
          />
        )}
        {props.units.length > 0 && (
          <PlainButton
            onPress={() => {
              copying.value = !copying.value;
            }}
          >
            {copying.value ? 'Do not copy' : 'Copy a similar unit'}
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

const NUMBERS = ['', 'One', 'Two', 'Three', 'Four'];

/** How many rows, and which way the jacks are counted through them. */
function Rows(props: {
  draft: UnitDraft;
  isKept: boolean;
  lineRows: number;
  set: (change: Partial<UnitDraft>) => void;
}) {
  const { draft, isKept, set } = props;
  const { rows, rowCount } = draft;
  if (props.lineRows > 1) return <p class="quiet">In {props.lineRows} rows, as typed.</p>;
  const options = [1, 2, 3, 4].map((n) => ({ value: String(n), text: NUMBERS[n]! }));
  return (
    <>
      <Choice
        legend="Rows"
        value={isKept ? 'kept' : rows === 'one' || rows === 'kept' ? '1' : String(rowCount)}
        options={isKept ? [...options, { value: 'kept', text: 'As before' }] : options}
        onChoose={(to) => {
          const usual: FaceRows = rows === 'one' || rows === 'kept' ? 'odd-over-even' : rows;
          set(to === '1' ? { rows: 'one' } : to === 'kept' ? { rows: 'kept' } : { rows: usual, rowCount: Number(to) });
        }}
      />
      {!isKept && rows !== 'one' && rows !== 'kept' && (
        <Choice<FaceRows>
          legend="Numbered"
          value={rows}
          options={[
            { value: 'odd-over-even', text: rowCount === 2 ? 'Odd over even' : 'Down each column' },
            { value: 'one-after-the-other', text: rowCount === 2 ? 'Half over half' : 'Along each row' },
          ]}
          onChoose={(to) => set({ rows: to })}
        />
      )}
    </>
  );
}

function Group(props: { draft: UnitDraft; set: (change: Partial<UnitDraft>) => void }) {
  const { draft, set } = props;
  const { group } = draft;
  const more = useSignal(!COMMON.includes(group.connector));
  const change = (part: Partial<UnitDraft['group']>) => set({ group: { ...group, ...part } });
  return (
    <fieldset class="describe-group">
      <legend class="field-label">Add a group of jacks</legend>
      <Choice
        legend="Connector"
        value={group.connector}
        options={[...COMMON, ...(more.value ? OTHERS : [])].map((name) => ({ value: name, text: name }))}
        onChoose={(name) => {
          // A network jack is neither.
          const isNeither = name === 'RJ45' || name === 'LC' || name === 'SC';
          change({ connector: name, ...(isNeither ? { direction: '' } : {}) });
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
        value={group.direction}
        options={[
          { value: 'in', text: 'In' },
          { value: 'out', text: 'Out' },
          { value: '', text: 'Neither' },
        ]}
        onChoose={(direction) => change({ direction })}
      />
      <Stepper label="How many" value={group.count} least={1} most={512} onChange={(n) => change({ count: n })} />
      <Field
        label="Name of the first jack"
        ident
        value={group.label}
        placeholder={group.direction === 'in' ? 'IN 1' : group.direction === 'out' ? 'OUT 1' : 'J1'}
        hint="As printed; the rest are numbered on from it."
        onInput={(label) => change({ label })}
      />
      <PlainButton onPress={() => set({ notation: withGroup(draft.notation, group), group: { ...group, label: '' } })}>
        {groupToAct(group)}
      </PlainButton>
    </fieldset>
  );
}

function Likes(props: { audit: AuditId; units: readonly string[]; onLike: (change: Partial<UnitDraft>) => void }) {
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

function Copy(props: { audit: AuditId; label: string; onLike: (change: Partial<UnitDraft>) => void }) {
  const asked = useAsked('like', { audit: props.audit, label: props.label });
  useEffect(() => {
    if (asked.type !== 'ready' || !asked.value) return;
    if (asked.value.whole) props.onLike(likeToDraft(asked.value.whole));
  }, [asked.type]);
  return null;
}
