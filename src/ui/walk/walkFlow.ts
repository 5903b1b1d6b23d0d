// The walk as it runs: which jack is meant, what a reading becomes, what was said last, which sheet is open. It owns
// no markup and no rule of its own; rules are in walkState.ts, and every fact comes from the record worker.

import { batch, signal } from '@preact/signals';
import { type AuditId, isJack, type PlaceId } from '../../core/plan/identity.ts';
import { MAX_LABEL } from '../../core/record/events.ts';
import type { Verdict } from '../../core/report/walk/verdict.ts';
import type { WalkView } from '../../core/report/walk/walkView.ts';
import { WALK } from '../drafts/walkDrafts.ts';
import { createRenaming, type LabelDone } from '../renaming/renamingFlow.ts';
import type { Services } from '../services.ts';
import { twinOnto } from './sheets/twinFlow.ts';
import type { Sheet } from './sheets/walkSheet.ts';
import { tellWay } from './sheets/walkWay.tsx';
import { actAt, createAside } from './walkAside.ts';
import { createCorrections } from './walkCorrections.ts';
import type { WalkFlow } from './walkFlowType.ts';
import { goOnAt, unseenWords, type Whereabouts } from './walkKept.ts';
import { rangeToVerdict } from './walkRangeState.ts';
import { keepAsked, lastSaid, placeToResume, withCutOff } from './walkResume.ts';
import type { By, Sighting } from './walkSaid.ts';
import { type Slip, slipIn } from './walkSlip.ts';
import {
  afterAct,
  afterSighting,
  earlierDiffering,
  isUnlikelyLabel,
  NEW_MEMORY,
  plugsOf,
  resolveEarlier,
  resumed,
  type Said,
  toSighting,
  visitAt,
  type WalkMemory,
  walkDraft,
} from './walkState.ts';

export type { WalkFlow } from './walkFlowType.ts';

export function createFlow(services: Services, audit: AuditId, onPlace: (place: PlaceId) => void): WalkFlow {
  const memory = signal<WalkMemory>(NEW_MEMORY);
  const view = signal<WalkView | null | 'loading'>('loading');
  const verdict = signal<Verdict | null>(null);
  const said = signal<Verdict | null>(null);
  const line = signal<string | null>(null);
  const sheet = signal<Sheet | null>(null);
  const mode: WalkFlow['mode'] = signal('walk');
  const slip = signal<Slip | null>(null);
  const lastRead = signal<string | null>(null);
  const failed = signal<string | null>(null);
  // One thing after the other: a label read while the last one is being kept belongs to the next jack.
  let chain: Promise<unknown> = Promise.resolve();
  let [asking, inHand] = [0, 0];
  /** Where the walk went on to by itself: a person who went elsewhere is done with what was said before. */
  let wentOn: string | null = null;
  const renaming = createRenaming(services, audit);
  const corrections = createCorrections(services, audit, memory, remember);
  const aside = createAside(services, audit, memory, remember, line);

  function inLine<T>(job: () => Promise<T>): Promise<T> {
    inHand += 1;
    const result = chain.then(job).finally(() => {
      inHand -= 1;
    });
    chain = result.catch(() => undefined);
    return result;
  }
  /** A tap means the jack that was on the screen: a second one on its heels must not speak about the next jack. */
  function tapped(job: () => Promise<void>): Promise<void> {
    const meant = memory.value.place;
    return inLine(async () => {
      if (memory.value.place === meant) await job();
    });
  }
  function remember(next: WalkMemory): void {
    memory.value = { ...next, at: services.now() };
    void services.saveDraft(walkDraft(audit), memory.value, WALK);
  }
  function shown(): WalkView | null {
    return view.value === 'loading' ? null : view.value;
  }

  async function refresh(): Promise<void> {
    const mine = ++asking;
    const said = verdict.value?.place || undefined;
    try {
      const [nextView, nextVerdict] = await Promise.all([
        services.ask('walk', { audit, place: memory.value.place }),
        said === undefined ? null : services.ask('verdict', { audit, place: said }),
      ]);
      if (mine !== asking) return;
      failed.value = null;
      view.value = nextView;
      if (said !== undefined && verdict.value?.place === said) verdict.value = nextVerdict;
      if (nextView && nextView.current.place !== memory.value.place) {
        remember({ ...memory.value, place: nextView.current.place });
        onPlace(nextView.current.place);
      }
    } catch (error) {
      if (mine === asking) failed.value = error instanceof Error ? error.message : String(error);
    }
  }

  async function moveTo(place: PlaceId | null): Promise<void> {
    if (place !== null && place !== memory.value.place) {
      remember({ ...memory.value, place });
      onPlace(place);
    }
    await refresh();
  }

  async function keep(sighting: Sighting): Promise<void> {
    const at = shown();
    const [place] = sighting.places;
    if (!at || place === undefined) return;
    if (sheet.value !== null) sheet.value = null;
    const result = await services.record('sighting', sighting, { audit });
    if (result.event === '') {
      line.value = `This was not kept: ${result.type === 'not-saved' ? result.why : ''}`;
      return;
    }
    const stated = afterSighting(memory.value, result.event, sighting, at.unit.id);
    await follow(stated, at, sighting.places, sighting.state, result.type);
  }

  /** Shows what was said and goes on: one question, one change of the screen. */
  async function follow(
    stated: WalkMemory,
    at: WalkView,
    places: PlaceId[],
    state: Said['state'],
    where: Whereabouts,
  ): Promise<void> {
    const [place = ''] = places;
    const answer = await services.ask('stated', { audit, places, here: at.current.place }).catch(() => null);
    if (answer === null) return followUnseen(stated, at, places, where);
    const { verdicts, view: nextView, last } = answer;
    asking += 1;
    // One change of the screen, not five: on a slow phone each costs what the eye waits for.
    batch(() => {
      // What is not on disk is the bar's business; the verdict is owed all the same.
      line.value = null;
      mode.value = 'walk';
      verdict.value = places.length === 1 ? (verdicts[0] ?? null) : rangeToVerdict(verdicts, state);
      said.value = verdict.value && { ...verdict.value };
      remember({ ...stated, place: nextView?.current.place ?? stated.place });
      wentOn = memory.value.place;
      view.value = nextView;
      if (isJack(place)) slip.value = slipIn(last, place, at.unit.id, memory.value, slip.value);
      if (nextView && nextView.current.place !== at.current.place) onPlace(nextView.current.place);
    });
  }

  /** Said and written all the same: only the screen cannot follow. */
  async function followUnseen(stated: WalkMemory, at: WalkView, places: PlaceId[], where: Whereabouts): Promise<void> {
    batch(() => {
      line.value = unseenWords(at, places, where);
      mode.value = 'walk';
      verdict.value = null;
      remember(stated);
    });
    await moveTo(await goOnAt(services, audit, at, places));
  }

  async function say(said: Said): Promise<void> {
    const at = shown();
    if (!at) return;
    const sighting = toSighting(said, visitAt(memory.value, at.unit.id));
    const here = sighting.places.length === 1 && sighting.places[0] === at.current.place;
    const earlier = here ? earlierDiffering(at.looks, visitAt(memory.value, at.unit.id), sighting) : [];
    if (earlier.length === 0) await keep(sighting);
    // Between the two looks hands were at work: there is nothing to ask.
    else if (memory.value.worked?.includes(at.current.place)) await keep(resolveEarlier(sighting, earlier, 'changed'));
    else sheet.value = { type: 'earlier', sighting, earlier };
  }

  function here(): Said['places'] {
    const at = shown();
    return at ? [{ place: at.current.place, words: `${at.unit.label} ${at.current.jack}` }] : [];
  }

  async function sayLabelNow(text: string, by: By, means?: string): Promise<void> {
    const label = means === undefined ? { text } : { text, means };
    await say({ places: here(), state: 'label', plugs: [{ labels: [label] }], by });
  }

  /** A label act of a renaming, or a label read again that says nothing new. False: the text is still to be dealt with. */
  async function afterLabel(done: LabelDone): Promise<boolean> {
    const at = shown();
    if (done === null || !at) return false;
    if (done.type === 'not-kept') line.value = `This was not kept: ${done.why}`;
    else {
      const { place } = done;
      const act = {
        ...actAt(memory.value, done.type === 'put' ? done.event : '', place),
        kind: 'label' as const,
        words: done.words,
      };
      if (done.type === 'again') await follow(memory.value, at, [place], 'label', 'nothing');
      else await follow(afterAct(memory.value, act), at, [place], 'label', done.where);
    }
    return true;
  }

  /** Read with the label first: it waits for its jack. A later one takes its place. */
  function hold(text: string, by: By): void {
    batch(() => {
      line.value = null;
      remember({ ...memory.value, first: { text, by } });
    });
  }

  async function readNow(text: string, by: By, length: number): Promise<void> {
    if (memory.value.first && text.trim() !== '' && !memory.value.paused) {
      hold(text.trim(), by);
      return;
    }
    if (text.trim() === '' || !shown() || memory.value.paused) return;
    const { place, notNow = [] } = memory.value;
    const justSaid = place === wentOn && by !== 'typed' ? verdict.value?.place : undefined;
    if (justSaid && !notNow.includes(justSaid) && (await afterLabel(await twinOnto(services, audit, justSaid, text))))
      return;
    if (place !== null && (await afterLabel(await renaming.scanned(place, text)))) return;
    const found = await services.ask('reading', { audit, place, text });
    if (found.type === 'ask') sheet.value = { type: 'candidates', text, by, candidates: found.candidates };
    else if (found.type === 'cable') await sayLabelNow(text, by);
    else if (found.type !== 'unknown') {
      sheet.value = { type: 'named', what: found.type, id: found.id, label: found.label };
    } else if (isUnlikelyLabel(text)) sheet.value = { type: 'unlikely', text, by, length };
    else await sayLabelNow(text, by);
  }

  keepAsked(sheet, memory, remember);
  return {
    audit,
    memory,
    view,
    verdict,
    said,
    line,
    sheet,
    mode,
    slip,
    lastRead,
    failed,
    async begin(place) {
      const kept = await services.draft(walkDraft(audit), WALK);
      const before = await withCutOff(services, audit, resumed(kept ?? NEW_MEMORY, services.now()));
      memory.value = { ...before, place: placeToResume(before, place) };
      if (memory.value.place !== before.place) void services.saveDraft(walkDraft(audit), memory.value, WALK);
      await tellWay(services, audit);
      await refresh();
      sheet.value = before.asked ?? null;
      const said = await lastSaid(services, audit, before);
      if (said && memory.value.acts === before.acts)
        slip.value = slipIn(said.there, said.at, said.there.unit.id, memory.value, null);
    },
    refresh,
    recordChanged() {
      // What is in hand shows the record anew when it is done; once more in between would only keep the eye waiting.
      if (inHand === 0) void refresh();
    },
    moveTo,
    read(reading) {
      // While a question is open the scanner is paused; what slips through then is not an answer to it.
      if (sheet.value !== null || mode.value !== 'walk') return;
      lastRead.value = reading.show;
      void inLine(async () => {
        if (sheet.value === null) await readNow(reading.text, reading.by, reading.cut?.length ?? reading.text.length);
      });
    },
    readText: (text, by) => inLine(() => readNow(text.slice(0, MAX_LABEL), by, text.length)),
    sayLabel: (text, by, means) => tapped(() => sayLabelNow(text, by, means)),
    sayState: (state, more) =>
      tapped(() => say({ places: here(), state, plugs: plugsOf(state), by: 'tapped', ...more })),
    say: (said) => inLine(() => say(said)),
    keep: (sighting) => inLine(() => keep(sighting)),
    answerEarlier: (answer) =>
      inLine(async () => {
        const open = sheet.value;
        if (open?.type === 'earlier') await keep(resolveEarlier(open.sighting, open.earlier, answer));
      }),
    answerSlip: (who) =>
      inLine(async () => {
        const [found, at] = [slip.value, shown()];
        slip.value = null;
        if (found && who === 'cables') remember({ ...memory.value, cables: found.moves[0]?.from.place ?? null });
        if (!found || !at || who === 'cables') return;
        line.value = await corrections.moveSlip(found, found.unit ?? at.unit);
        verdict.value = null;
        await moveTo(found.moves[0]?.from.place ?? null);
      }),
    labelFirst(on) {
      remember({ ...memory.value, first: on ? { text: null, by: 'tapped' } : null });
    },
    placeHeld: (place, words) =>
      inLine(async () => {
        const { first } = memory.value;
        if (!first || first.text === null) return;
        const { text, by } = first;
        // The jack touched becomes the jack in hand, so that what was said there before is asked about.
        await moveTo(place);
        remember({ ...memory.value, first: { text: null, by } });
        await say({ places: [{ place, words }], state: 'label', plugs: [{ labels: [{ text }] }], by });
      }),
    tell: (said) =>
      inLine(async () => {
        const at = shown();
        if (!at) return;
        // The question stays open: the next one follows at once.
        const open = sheet.value;
        await keep(toSighting(said, visitAt(memory.value, at.unit.id)));
        sheet.value = open;
      }),
    note: (place, text) => inLine(() => aside.note(place, text)),
    hazard: (hazard, note) => inLine(() => aside.hazard(hazard, note)),
    acted: ({ event, also = [], place, words, line: told }) =>
      inLine(async () => {
        remember(afterAct(memory.value, { ...actAt(memory.value, event, place), kind: 'label', words, also }));
        line.value = told;
        await refresh();
      }),
    notNow(place) {
      remember({ ...memory.value, notNow: [...(memory.value.notNow ?? []), place] });
    },
    labelAct: () => tapped(async () => void (await afterLabel(await renaming.act(memory.value.place ?? '')))),
    did: (event, place, words) =>
      void inLine(async () =>
        remember(afterAct(memory.value, { ...actAt(memory.value, event, place), kind: 'photo', words })),
      ),
    undo: () =>
      inLine(async () => {
        const act = await corrections.undo();
        if (!act) {
          line.value = 'Nothing was said on this walk that can be taken back here.';
          return;
        }
        verdict.value = null;
        slip.value = null;
        line.value = `Taken back: ${act.words}.`;
        const goBack = act.kind === 'sighting' || act.kind === 'label' || act.kind === 'slip';
        await moveTo(goBack && isJack(act.back) ? act.back : null);
      }),
    pause(paused) {
      const next = resumed(memory.value, services.now());
      remember({ ...next, paused, notNow: paused ? (next.notNow ?? []) : [] });
    },
  };
}
