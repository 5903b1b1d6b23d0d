// What is filled in for a panel, patchbay, block or trunk: the draft's form and its fields. It keeps nothing itself.
import { CONNECTOR_NAMES } from '../../core/record/jackWords.ts';
import type { PanelDraft } from '../../core/report/walk/partPayloads.ts';
import type { WalkView } from '../../core/report/walk/walkView.ts';
import { Choice, Field } from '../parts/form.tsx';
import { Stepper } from '../parts/stepper.tsx';

type Kind = PanelDraft['form'];
export const PANEL_KINDS: Record<
  Kind,
  { text: string; second: string; many: string; count: string; connector: string; rows: number }
> = {
  panel: {
    ...{ text: 'Panel', second: 'Holes seen from both sides', many: 'Holes, J1 and on' },
    ...{ count: '24', connector: 'RJ45', rows: 1 },
  },
  patchbay: {
    ...{ text: 'Patchbay', second: 'Front for leads, rear for cables', many: 'Holes, J1 and on' },
    ...{ count: '48', connector: 'TT', rows: 2 },
  },
  'punch-block': {
    ...{ text: 'Punch block', second: 'Landings, several wires each', many: 'Pairs, numbered from 1' },
    ...{ count: '25', connector: 'IDC', rows: 1 },
  },
  trunk: {
    ...{ text: 'Trunk', second: 'Pairs, fibres or cores from here to there', many: 'How many of them' },
    ...{ count: '25', connector: 'D-sub 50', rows: 1 },
  },
};

const FORMS: readonly Kind[] = ['panel', 'patchbay', 'punch-block', 'trunk'];

export interface PanelForm extends Omit<PanelDraft, 'count' | 'u' | 'ends'> {
  count: string;
  u: string;
  /** First landing of a trunk here and, if known, at its other end. */
  first: string;
  far: string;
}

export function newPanel({ room, rack }: WalkView): PanelForm {
  return {
    ...{ form: 'panel', label: '', room: room ?? '', rack: rack === null ? '' : '?', u: '' },
    ...{ count: '24', rows: 1, connector: 'RJ45', sides: 'one', wires: 'pairs', first: '', far: '' },
  };
}

interface Props {
  form: PanelForm;
  set: (change: Partial<PanelForm>) => void;
  racks: readonly { id: string; label: string }[];
  /** The rack it is in; blank for a room. */
  rack: string;
  /** Where one stands. */
  unit: string;
  jack: string;
}

export function PanelFields(props: Props) {
  const { form: d, set } = props;
  const isTrunk = d.form === 'trunk';
  return (
    <div class="desk-part">
      <Choice
        legend="What it is"
        stacked
        value={d.form}
        options={FORMS.map((form) => ({ value: form, ...PANEL_KINDS[form] }))}
        onChoose={(form) => {
          const { count, connector, rows } = PANEL_KINDS[form];
          set({ form, count, connector, rows });
        }}
      />
      <Field label="Its label" ident value={d.label} onInput={(label) => set({ label })} />
      <Field label={PANEL_KINDS[d.form].many} inputMode="numeric" value={d.count} onInput={(count) => set({ count })} />
      {isTrunk ? (
        <TrunkFields {...props} />
      ) : (
        <Stepper label="Rows" value={d.rows} least={1} most={12} onChange={(rows) => set({ rows })} />
      )}
      <Field
        label={isTrunk ? 'Connector at both ends' : 'Connector'}
        value={d.connector}
        suggestions={CONNECTOR_NAMES}
        onInput={(connector) => set({ connector })}
      />
      {d.form === 'punch-block' && (
        <Choice
          legend="House and jumper side"
          value={d.sides}
          options={[
            { value: 'one', text: 'One row of pairs' },
            { value: 'two', text: 'Two sides, kept apart' },
          ]}
          onChoose={(sides) => set({ sides })}
        />
      )}
      {!isTrunk && <WhereFields {...props} />}
    </div>
  );
}

function TrunkFields({ form: d, set, unit, jack }: Props) {
  return (
    <>
      <Choice
        legend="What is in it"
        value={d.wires ?? 'pairs'}
        options={[
          { value: 'pairs', text: 'Pairs' },
          { value: 'fibres', text: 'Fibres' },
          { value: 'cores', text: 'Cores' },
        ]}
        onChoose={(wires) => set({ wires })}
      />
      <Field
        label={`First landing here, on ${unit}`}
        ident
        value={d.first}
        placeholder={jack}
        onInput={(first) => set({ first })}
      />
      <Field
        label="First landing at the other end, if known"
        ident
        value={d.far}
        hint="For example: PP2 J1 rear. Whoever is there can describe the same trunk from that end."
        onInput={(far) => set({ far })}
      />
    </>
  );
}

function WhereFields({ form: d, set, racks, rack }: Props) {
  return (
    <>
      {racks.length > 0 && (
        <Choice
          legend="Where"
          value={rack}
          options={[...racks.map(({ id, label }) => ({ value: id, text: label })), { value: '', text: 'In a room' }]}
          onChoose={(to) => set({ rack: to })}
        />
      )}
      {rack === '' ? (
        <Field label="Room, as on the door" value={d.room} onInput={(room) => set({ room })} />
      ) : (
        <Field label="Lowest U it takes up" inputMode="numeric" value={d.u} onInput={(u) => set({ u })} />
      )}
    </>
  );
}
