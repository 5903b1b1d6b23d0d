// The form that places a unit, without its markup: the draft, what follows from it, and how it is kept.
import { useSignal } from '@preact/signals';
import { jackToPlace } from '../../core/plan/identity.ts';
import type { UnitSaid } from '../../core/record/described.ts';
import { type DescribedView, unitsInTheWay } from '../../core/report/describedView.ts';
import { nameToKey } from '../../core/trade/names.ts';
import { useServices } from '../context.ts';
import { UNIT } from '../drafts/describeDrafts.ts';
import { go } from '../router.ts';
import {
  NEW_UNIT,
  saidToDraft,
  type UnitDraft,
  unitToPayload,
  unitToU,
  unitTrouble,
  whereOf,
} from './describeDraft.ts';
import { noteKept } from './describeKept.tsx';
import { unitDraftKey } from './describeStart.ts';
import { keptUnitToWords } from './describeWords.ts';

export interface UnitFormProps {
  view: DescribedView;
  /** Of the unit that is corrected, or the label a new one begins with. */
  label: string | null;
  before: UnitSaid | null;
  kept: UnitDraft | null;
}

/** Once it is kept: its jacks, or the next one. */
export type Then = 'walk' | 'next';
export type UnitFacts = ReturnType<typeof unitFacts>;

/** What the draft comes to: where it stands, what is there already, what is still missing. */
function unitFacts(draft: UnitDraft, { view, label, before }: UnitFormProps) {
  const units = [...view.racks, ...view.elsewhere].flatMap((group) => group.units);
  const known = before ? units.find((unit) => unit.label === label) : undefined;
  const own = known?.id ?? '';
  const usual = view.racks.find(({ id }) => id === view.usual) ?? view.racks.at(-1) ?? null;
  const where = whereOf(draft, view, usual);
  const rack = where.type === 'rack' ? where.rack : null;
  const u = rack && unitToU(draft, rack, before);
  const inTheWay = rack && u !== null ? unitsInTheWay(rack, draft.mounted, u, draft.heightU, own) : [];
  return {
    known,
    where,
    rack,
    u,
    trouble: unitTrouble(draft, where, before, own),
    /** It stands elsewhere, or is of another height, than was said before. */
    moved: before?.rack !== rack?.id || before?.u !== u || before?.heightU !== draft.heightU,
    /** Units where it stands: those that somebody described, and those that only the plan has there. */
    taken: inTheWay.filter(({ events }) => events.length > 0),
    planned: inTheWay.filter(({ events }) => events.length === 0),
  };
}

export function useUnitForm(props: UnitFormProps) {
  const { label, before } = props;
  const { audit } = props.view;
  const services = useServices();
  const key = unitDraftKey(audit, label);
  const draft = useSignal<UnitDraft>({
    ...NEW_UNIT,
    ...(before ? saidToDraft(before) : { label: label ?? '' }),
    ...props.kept,
  });
  const tried = useSignal(false);
  const saving = useSignal(false);
  const failed = useSignal<string | null>(null);
  const asking = useSignal<Then | null>(null);
  const d = draft.value;
  const facts = unitFacts(d, props);
  const { where, trouble } = facts;
  const gone = facts.moved ? facts.planned : [];
  // A rack that was named a moment ago may not be in the answer yet: nothing is kept before it is.
  const isWaiting = saving.value || (where.type === 'missing' && before?.rack !== where.rack);
  const list = () => go({ screen: 'describe', audit, what: null, label: null }, 'replace');

  /** @param isGone What was answered about planned units in its place; absent while nobody was asked. */
  const keep = async (then: Then, isGone?: boolean) => {
    tried.value = true;
    if (trouble !== null || isWaiting) return;
    asking.value = gone.length > 0 && isGone === undefined ? then : null;
    if (asking.value !== null) return;
    saving.value = true;
    const ids = isGone ? gone.map(({ id }) => id) : facts.moved ? [] : undefined;
    const payload = unitToPayload(d, where, before, facts.known?.events ?? [], ids);
    const result = await services.record('unit-described', payload, { audit });
    if (result.event === '') {
      saving.value = false;
      failed.value = result.type === 'not-saved' ? result.why : '';
      return;
    }
    failed.value = null;
    await services.dropDraft(key);
    await noteKept(services, audit, result.event, keptUnitToWords(where, payload));
    // The next U is counted from this unit: only an answer that knows of it may offer one.
    await services.ask('described', { audit }).catch(() => null);
    saving.value = false;
    const [jack] = payload.faces[0]?.rows[0] ?? [];
    if (then === 'walk' && jack) {
      go({ screen: 'walk', audit, place: jackToPlace(nameToKey(payload.label), jack) }, 'replace');
    } else if (label !== null) list();
    else {
      draft.value = { ...NEW_UNIT, rack: payload.rack ?? '', room: d.room, mounted: d.mounted, group: d.group };
      tried.value = false;
    }
  };
  return {
    draft: d,
    set: (change: Partial<UnitDraft>) => {
      draft.value = { ...draft.value, ...change };
      void services.saveDraft(key, draft.value, UNIT);
    },
    facts,
    /** Planned units that are asked about before it is kept. */
    gone,
    asking: asking.value,
    isWaiting,
    trouble: tried.value ? trouble : null,
    failed: failed.value,
    list,
    keep,
  };
}
