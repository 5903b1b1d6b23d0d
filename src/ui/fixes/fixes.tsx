// Work to do: the list in order, the step in hand big, with what goes off and the caution of its place. Steps are ticked
// off here for the hand only; what counts in the record is the look at the place afterwards.

import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { AuditId, PlaceId } from '../../core/plan/identity.ts';
import type { FixBlockView, FixesView } from '../../core/report/fixesView.ts';
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

function ToDo({ audit }: { audit: AuditId }) {
  const services = useServices();
  const asked = useAsked('fixes', { audit });
  const under = useSignal<UnderWay | null>(null);
  const left = useLeftToCheck(audit, under.value);
  const chosen = useSignal<string | null>(null);
  const check = useCheck();
  useEffect(() => {
    void services.draft(draftKey(audit), UNDER_WAY).then((kept) => {
      under.value ??= kept;
    });
  }, [audit]);
  if (asked.type !== 'ready' || asked.value === null)
    return <NoAnswer title={FIX_WORDS.title} asked={asked} missing={FIX_WORDS.missing} next={FIX_WORDS.fetch} />;
  const view = asked.value;
  const keep = (next: UnderWay | null) => {
    under.value = next;
    if (next) void services.saveDraft(draftKey(audit), next, UNDER_WAY);
    else void services.dropDraft(draftKey(audit));
  };
  const walkTo = (place: PlaceId | null) => go({ screen: 'walk', audit, place });
  const toTest = (place: PlaceId) => {
    openFirst({ type: 'work' });
    walkTo(place);
  };
  const at = Math.max(
    view.blocks.findIndex(({ id }) => id === chosen.value),
    chosen.value === null ? firstOpen(view) : 0,
  );
  const block = view.blocks[at];
  const one = under.value;
  const step = one && !isFinished(one) && one.back === null ? one.block.steps[one.done] : undefined;
  const caution = step?.caution ?? (one ? null : block?.steps.find((each) => each.caution !== null)?.caution);
  const foot = one ? cellsUnderWay(one) : block ? cellsChosen(view, block, at) : [];

  function cellsUnderWay(now: UnderWay): CellProps[] {
    if (isFinished(now)) {
      const first = now.block.lookAgain.find(({ placeId }) => left?.includes(placeId));
      if (first) {
        return [
          {
            small: FIX_WORDS.lookAgain,
            big: first.words,
            primary: true,
            share: 2,
            onPress: () => walkTo(first.placeId),
          },
        ];
      }
      return left === null
        ? []
        : [{ small: FIX_WORDS.allLookedAt, big: FIX_WORDS.finish, primary: true, onPress: () => keep(null) }];
    }
    const next = stepOn(now);
    const turned = turnBack(now);
    const forward = now.back === null;
    return [
      {
        small: forward ? FIX_WORDS.done : FIX_WORDS.rolledBack,
        big: next === null ? FIX_WORDS.asFound : FIX_WORDS.nextStep,
        primary: true,
        share: 2,
        onPress: () => {
          const changes = forward && (now.block.steps[now.done]?.back.length ?? 0) > 0;
          const places = now.block.lookAgain.map(({ placeId }) => placeId);
          if (changes) void noteWork(services, audit, places);
          keep(next);
        },
      },
      ...(forward
        ? [
            {
              small: turned ? FIX_WORDS.stop : FIX_WORDS.nothingChanged,
              big: turned ? FIX_WORDS.rollBack : FIX_WORDS.leaveIt,
              onPress: () => keep(turned),
            },
          ]
        : [
            {
              small: 'Do not roll back',
              big: 'Go on',
              onPress: () => keep({ ...now, back: null }),
              disabled: now.back !== 0,
            },
          ]),
    ];
  }

  function cellsChosen({ blocks }: FixesView, now: FixBlockView, n: number): CellProps[] {
    const place = now.steps.find(({ placeId }) => placeId !== null)?.placeId;
    const asks = now.steps[0]?.check;
    const following = blocks[n + 1];
    return [
      ...(isHandsOn(now)
        ? [
            {
              small: now.onlyInWindow ? FIX_WORDS.onlyInWindow : count(now.steps.length, 'step'),
              big: FIX_WORDS.begin,
              primary: true,
              share: 2,
              onPress: () => keep(begin(now)),
            },
          ]
        : asks !== undefined
          ? [
              {
                small: FIX_WORDS.recordShown,
                big: FIX_WORDS.check(now.steps[0]?.to ?? ''),
                primary: true,
                share: 2,
                onPress: () => check(asks),
              },
            ]
          : place
            ? [
                {
                  small: now.type === 'work' ? FIX_WORDS.notNow : FIX_WORDS.goThere,
                  big: now.lookAgain[0]?.words ?? now.steps[0]?.to ?? FIX_WORDS.theJack,
                  primary: true,
                  share: 2,
                  onPress: () => walkTo(place),
                },
              ]
            : []),
      ...(following
        ? [
            {
              small: nthOf(n + 2, blocks.length),
              big: FIX_WORDS.next,
              onPress: () => {
                chosen.value = following.id;
              },
            },
          ]
        : []),
      { small: FIX_WORDS.theAudit, big: FIX_WORDS.walkOn, onPress: () => walkTo(null) },
    ];
  }

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
      {one && one.back !== null && <BackNow one={one} />}
      {one && isFinished(one) && <Finished one={one} left={left} walkTo={walkTo} />}
      {one && step && (
        <StepNow step={step} n={one.done + 1} of={one.block.steps.length} block={one.block} toTest={toTest} />
      )}
      {!one && block?.steps[0] && (
        <StepNow step={block.steps[0]} n={1} of={block.steps.length} block={block} toTest={toTest} />
      )}
      {one && !view.blocks.some(({ id }) => id === one.block.id) && <p class="desk-note">{FIX_WORDS.changed}</p>}
      {one && one.back === null && (
        <WorkList title={FIX_WORDS.inHand} blocks={[one.block]} chosen={one.block.id} done={one.done} />
      )}
      {!one && view.blocks.length > 0 && (
        <>
          <p class="desk-note">{totalsToWords(view, servicesOf(view).length)}</p>
          <Depends view={view} />
          <WorkList
            title={FIX_WORDS.inOrder}
            blocks={view.blocks}
            chosen={block?.id ?? null}
            onChoose={(id) => {
              chosen.value = id;
            }}
          />
          <WindowRow view={view} />
        </>
      )}
      {!one && view.blocks.length === 0 && (
        <Empty
          what={FIX_WORDS.noWork}
          why={view.record + view.left > 0 ? restToWords(view) : FIX_WORDS.nothingDiffers}
          next={{ text: FIX_WORDS.walkOn, onPress: () => walkTo(null) }}
        />
      )}
    </Screen>
  );
}
