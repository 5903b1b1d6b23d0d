// Work to do: the list in order, the step in hand big, with what goes off and the caution of its place. Steps are ticked
// off here for the hand only; what counts in the record is the look at the place afterwards.

import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { AuditId, PlaceId } from '../../core/plan/identity.ts';
import type { FixBlockView, FixesView, FixStepView } from '../../core/report/fixesView.ts';
import { useAsked, useServices } from '../context.ts';
import { useCheck, WithCheck } from '../differences/differencesCheck.tsx';
import { UNDER_WAY } from '../drafts/workDrafts.ts';
import { type CellProps, Plate, Screen, TitleBlock } from '../parts/frame.tsx';
import { Caution } from '../parts/hazard.tsx';
import { Empty } from '../parts/rows.tsx';
import { back, NoAnswer } from '../plan/planParts.tsx';
import { go } from '../router.ts';
import { NameFirst } from '../settings/nameFirst.tsx';
import { useLeftToCheck } from '../walk/walkAfterWork.tsx';
import { noteWork, openFirst } from '../walk/walkDraft.ts';
import { count } from '../words.ts';
import {
  begin,
  draftKey,
  firstOpen,
  isFinished,
  isHandsOn,
  servicesOf,
  stepOn,
  turnBack,
  type UnderWay,
} from './fixesFlow.ts';
import { BackNow, Depends, Finished, StepNow, WorkList } from './fixesParts.tsx';
import { WindowRow } from './fixesWindow.tsx';
import { dependToBig, FIX_WORDS, nthOf, restToWords, totalsToWords } from './fixesWords.ts';
import '../look/desk.css';
import '../look/fixes.css';

export default function Fixes(props: { audit: AuditId }) {
  return (
    <>
      <NameFirst audit={props.audit} />
      <WithCheck audit={props.audit} back={FIX_WORDS.backToWork}>
        <ToDo {...props} />
      </WithCheck>
    </>
  );
}

/** What this phone has in hand, kept as a draft, and where a person goes from here. */
function useWork(audit: AuditId) {
  const services = useServices();
  const under = useSignal<UnderWay | null>(null);
  useEffect(() => {
    void services.draft(draftKey(audit), UNDER_WAY).then((kept) => {
      under.value ??= kept;
    });
  }, [audit]);
  const walkTo = (place: PlaceId | null) => go({ screen: 'walk', audit, place });
  return {
    one: under.value,
    left: useLeftToCheck(audit, under.value),
    keep: (next: UnderWay | null) => {
      under.value = next;
      if (next) void services.saveDraft(draftKey(audit), next, UNDER_WAY);
      else void services.dropDraft(draftKey(audit));
    },
    /** Hands were at work at these places: what is said of them next is as left. */
    worked: (places: PlaceId[]) => void noteWork(services, audit, places),
    walkTo,
    toTest: (place: PlaceId) => {
      openFirst({ type: 'work' });
      walkTo(place);
    },
    check: useCheck(),
  };
}
type Work = ReturnType<typeof useWork>;

function ToDo({ audit }: { audit: AuditId }) {
  const asked = useAsked('fixes', { audit });
  const work = useWork(audit);
  const chosen = useSignal<string | null>(null);
  if (asked.type !== 'ready' || asked.value === null)
    return <NoAnswer title={FIX_WORDS.title} asked={asked} missing={FIX_WORDS.missing} next={FIX_WORDS.fetch} />;
  const view = asked.value;
  const { one } = work;
  const at = Math.max(
    view.blocks.findIndex(({ id }) => id === chosen.value),
    chosen.value === null ? firstOpen(view) : 0,
  );
  const block = view.blocks[at];
  const choose = (id: string) => {
    chosen.value = id;
  };
  const foot = one ? cellsUnderWay(one, work) : block ? cellsChosen(view, block, at, work, choose) : [];
  const caution = one ? stepInHand(one)?.caution : block?.steps.find((each) => each.caution !== null)?.caution;
  return (
    <Screen
      plate={
        <Plate
          back={{ label: 'Back', onPress: back }}
          cells={[
            { small: view.name, big: FIX_WORDS.title, heading: true, wide: true },
            { small: FIX_WORDS.plugs, big: String(view.totals.movements) },
            view.totals.onAir > 0
              ? { small: FIX_WORDS.offAir, big: count(view.totals.onAir, 'circuit') }
              : { small: FIX_WORDS.dependOnIt, big: dependToBig(servicesOf(view).length) },
            { small: FIX_WORDS.waiting, big: String(view.waiting) },
          ]}
        />
      }
      above={caution && <Caution>{caution}</Caution>}
      foot={foot.length > 0 && <TitleBlock rows={[foot]} />}
    >
      {one ? (
        <InHand one={one} view={view} work={work} />
      ) : (
        <InOrder view={view} block={block} work={work} choose={choose} />
      )}
    </Screen>
  );
}

/** The step that is to be done next; none while it is rolled back or when all are done. */
function stepInHand(one: UnderWay): FixStepView | undefined {
  return isFinished(one) || one.back !== null ? undefined : one.block.steps[one.done];
}

function InHand({ one, view, work }: { one: UnderWay; view: FixesView; work: Work }) {
  const { block, done } = one;
  const step = stepInHand(one);
  return (
    <>
      {one.back !== null && <BackNow one={one} />}
      {isFinished(one) && <Finished one={one} left={work.left} walkTo={work.walkTo} />}
      {step && <StepNow step={step} n={done + 1} of={block.steps.length} block={block} toTest={work.toTest} />}
      {!view.blocks.some(({ id }) => id === block.id) && <p class="desk-note">{FIX_WORDS.changed}</p>}
      {one.back === null && <WorkList title={FIX_WORDS.inHand} blocks={[block]} chosen={block.id} done={done} />}
    </>
  );
}

function InOrder(props: {
  view: FixesView;
  block: FixBlockView | undefined;
  work: Work;
  choose: (id: string) => void;
}) {
  const { view, block, work, choose } = props;
  if (view.blocks.length === 0)
    return (
      <Empty
        what={FIX_WORDS.noWork}
        why={view.record + view.left > 0 ? restToWords(view) : FIX_WORDS.nothingDiffers}
        next={{ text: FIX_WORDS.walkOn, onPress: () => work.walkTo(null) }}
      />
    );
  const [first] = block?.steps ?? [];
  return (
    <>
      {block && first && <StepNow step={first} n={1} of={block.steps.length} block={block} toTest={work.toTest} />}
      <p class="desk-note">{totalsToWords(view, servicesOf(view).length)}</p>
      <Depends view={view} />
      <WorkList title={FIX_WORDS.inOrder} blocks={view.blocks} chosen={block?.id ?? null} onChoose={choose} />
      <WindowRow view={view} />
    </>
  );
}

function cellsUnderWay(now: UnderWay, { left, keep, worked, walkTo }: Work): CellProps[] {
  const { block, done } = now;
  if (isFinished(now)) {
    const first = block.lookAgain.find(({ placeId }) => left?.includes(placeId));
    const look = { small: FIX_WORDS.lookAgain, primary: true, share: 2 as const };
    if (first) return [{ ...look, big: first.words, onPress: () => walkTo(first.placeId) }];
    if (left === null) return [];
    return [{ small: FIX_WORDS.allLookedAt, big: FIX_WORDS.finish, primary: true, onPress: () => keep(null) }];
  }
  const next = stepOn(now);
  const turned = turnBack(now);
  const forward = now.back === null;
  const on: CellProps = {
    small: forward ? FIX_WORDS.done : FIX_WORDS.rolledBack,
    big: next === null ? FIX_WORDS.asFound : FIX_WORDS.nextStep,
    primary: true,
    share: 2,
    onPress: () => {
      const changes = forward && (block.steps[done]?.back.length ?? 0) > 0;
      if (changes) worked(block.lookAgain.map(({ placeId }) => placeId));
      keep(next);
    },
  };
  const other: CellProps = forward
    ? {
        small: turned ? FIX_WORDS.stop : FIX_WORDS.nothingChanged,
        big: turned ? FIX_WORDS.rollBack : FIX_WORDS.leaveIt,
        onPress: () => keep(turned),
      }
    : {
        small: FIX_WORDS.doNotRollBack,
        big: FIX_WORDS.goOn,
        onPress: () => keep({ ...now, back: null }),
        disabled: now.back !== 0,
      };
  return [on, other];
}

/** What a piece of work that is chosen is begun with: hands, the form of its check, or going there. */
function cellToBegin(now: FixBlockView, { keep, check, walkTo }: Work): CellProps | null {
  const [first] = now.steps;
  const main = { primary: true, share: 2 as const };
  if (isHandsOn(now)) {
    const small = now.onlyInWindow ? FIX_WORDS.onlyInWindow : count(now.steps.length, 'step');
    return { ...main, small, big: FIX_WORDS.begin, onPress: () => keep(begin(now)) };
  }
  const asks = first?.check;
  if (asks !== undefined) {
    const big = FIX_WORDS.check(first?.to ?? '');
    return { ...main, small: FIX_WORDS.recordShown, big, onPress: () => check(asks) };
  }
  const place = now.steps.find(({ placeId }) => placeId !== null)?.placeId;
  if (!place) return null;
  return {
    ...main,
    small: now.type === 'work' ? FIX_WORDS.notNow : FIX_WORDS.goThere,
    big: now.lookAgain[0]?.words ?? first?.to ?? FIX_WORDS.theJack,
    onPress: () => walkTo(place),
  };
}

function cellsChosen(
  { blocks }: FixesView,
  now: FixBlockView,
  n: number,
  work: Work,
  choose: (id: string) => void,
): CellProps[] {
  const first = cellToBegin(now, work);
  const following = blocks[n + 1];
  return [
    ...(first ? [first] : []),
    ...(following
      ? [{ small: nthOf(n + 2, blocks.length), big: FIX_WORDS.next, onPress: () => choose(following.id) }]
      : []),
    { small: FIX_WORDS.theAudit, big: FIX_WORDS.walkOn, onPress: () => work.walkTo(null) },
  ];
}
