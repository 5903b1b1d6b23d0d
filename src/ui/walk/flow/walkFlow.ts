// The walk as it runs, joined from its parts: what is said goes to the judge (walkSaying), what follows is shown
// (walkShown), what was wrong is put right (walkCorrections). It owns no markup and no rule.

import { batch } from '@preact/signals';
import type { AuditId, PlaceId } from '../../../core/plan/identity.ts';
import { isJack } from '../../../core/plan/identity.ts';
import { MAX_LABEL, type Sighting } from '../../../core/record/events.ts';
import { withLabel } from '../../../core/walk/decide.ts';
import { resolveEarlier } from '../../../core/walk/earlier.ts';
import { plugsOf, resumed, type Said, saidToSighting } from '../../../core/walk/memory.ts';
import type { By } from '../../../core/walk/question.ts';
import { WALK } from '../../drafts/walkDrafts.ts';
import type { Services } from '../../services.ts';
import { tellWay } from '../sheets/walkWay.tsx';
import { readMemory, takeFirst, walkDraft } from '../walkDraft.ts';
import type { WalkFlow } from '../walkFlowType.ts';
import { LINES, movedToWords } from '../walkWords.ts';
import { createAside } from './walkAside.ts';
import { createCorrections } from './walkCorrections.ts';
import { createParts, type WalkParts } from './walkParts.ts';
import { keepAsked, placeToResume, withCutOff } from './walkResume.ts';
import { createSaying, type WalkSaying } from './walkSaying.ts';
import { createShown, type WalkShown } from './walkShown.ts';

export function createFlow(services: Services, audit: AuditId, onPlace: (place: PlaceId) => void): WalkFlow {
  const parts = createParts(services, audit, onPlace);
  const shown = createShown(parts);
  const saying = createSaying(parts, shown);
  keepAsked(parts);
  const { memory, view, verdict, said, line, sheet, mode, slip, lastRead, failed } = parts;
  return {
    ...{ audit, memory, view, verdict, said, line, sheet, mode, slip, lastRead, failed },
    begin: (place) => begin(parts, shown, place),
    refresh: shown.refresh,
    recordChanged() {
      // What is in hand shows the record anew when it is done; once more in between would only keep the eye waiting.
      if (!parts.isBusy()) void shown.refresh();
    },
    moveTo: shown.moveTo,
    pause(paused) {
      const next = resumed(memory.value, services.now());
      parts.remember({ ...next, paused, notNow: paused ? (next.notNow ?? []) : [] });
    },
    ...sayingActs(parts, shown, saying),
    ...answers(parts, shown, saying),
    ...besideActs(parts, shown),
  };
}

/** Comes back to the walk: to its jack, its open question and its undo. */
async function begin(parts: WalkParts, { refresh }: WalkShown, place: PlaceId | null): Promise<void> {
  const { services, audit, memory } = parts;
  const kept = resumed(await readMemory(services, audit), services.now());
  const before = await withCutOff(services, audit, kept);
  memory.value = { ...before, place: placeToResume(before, place) };
  if (memory.value.place !== before.place) void services.saveDraft(walkDraft(audit), memory.value, WALK);
  await tellWay(services, audit);
  await refresh();
  // A question on which something waits comes first.
  const first = takeFirst();
  parts.sheet.value = before.asked ?? first;
  const slip = await services.ask('slipLeft', { audit, memory: before });
  if (memory.value.acts === before.acts) parts.slip.value = slip;
}

type SayingActs =
  | 'read'
  | 'readText'
  | 'sayLabel'
  | 'answerLabel'
  | 'sayState'
  | 'say'
  | 'state'
  | 'tell'
  | 'labelAct'
  | 'labelFirst'
  | 'placeHeld';

function sayingActs(parts: WalkParts, shown: WalkShown, saying: WalkSaying): Pick<WalkFlow, SayingActs> {
  const { services, memory, sheet, remember, inLine, shown: viewed } = parts;

  async function hear(text: string, by: By, length: number): Promise<void> {
    const log = (await services.log()) ?? '';
    const justSaid = by === 'typed' ? undefined : shown.justSaid();
    await saying.say({ type: 'reading', text, by, length, justSaid, log });
  }
  const say = (said: Said) => saying.say({ type: 'statement', sighting: saidToSighting(said) });
  const here = (): Said['places'] => {
    const at = viewed();
    return at ? [{ place: at.current.place, words: `${at.unit.label} ${at.current.jack}` }] : [];
  };
  const sayLabel: WalkFlow['sayLabel'] = (text, by, more = {}) =>
    parts.tapped(() => say({ places: here(), state: 'label', plugs: [{ labels: [{ text, ...more }] }], by }));
  /** What a helper tells leaves the sheet that asked open: the next question follows at once. */
  const sayTold = (sighting: Sighting) =>
    inLine(async () => {
      const open = sheet.value;
      if (await saying.say({ type: 'statement', sighting })) sheet.value = open;
    });
  return {
    read(reading) {
      // While a question is open the scanner is paused; what slips through then is not an answer to it.
      if (sheet.value !== null || parts.mode.value !== 'walk') return;
      parts.lastRead.value = reading.show;
      void inLine(async () => {
        if (sheet.value === null) await hear(reading.text, reading.by, reading.cut?.length ?? reading.text.length);
      });
    },
    readText: (text, by) => inLine(() => hear(text.slice(0, MAX_LABEL), by, text.length)),
    sayLabel,
    answerLabel: ({ by, of }, { text, ...more }) =>
      of ? sayTold(withLabel(of, { text, ...more })) : sayLabel(text, by, more),
    sayState: (state, more) =>
      parts.tapped(() => say({ places: here(), state, plugs: plugsOf(state), by: 'tapped', ...more })),
    say: (said) => inLine(() => say(said)),
    state: (sighting) => inLine(() => saying.say({ type: 'statement', sighting })),
    tell: (said) => sayTold(saidToSighting(said)),
    labelAct: () => parts.tapped(() => saying.say({ type: 'label-act' })),
    labelFirst(on) {
      remember({ ...memory.value, first: on ? { text: null, by: 'tapped' } : null });
    },
    placeHeld: (place, words) =>
      inLine(async () => {
        const { first } = memory.value;
        if (!first || first.text === null) return;
        const { text, by } = first;
        // The jack touched becomes the jack in hand, so that its verdict is the one shown.
        await shown.moveTo(place);
        remember({ ...memory.value, first: { text: null, by } });
        await say({ places: [{ place, words }], state: 'label', plugs: [{ labels: [{ text }] }], by });
      }),
  };
}

/** What a person answers to an open question, and undo. */
function answers(
  parts: WalkParts,
  { moveTo }: WalkShown,
  saying: WalkSaying,
): Pick<WalkFlow, 'answerEarlier' | 'answerSlip' | 'undo'> {
  const { memory, verdict, line, slip, sheet, remember, inLine } = parts;
  const corrections = createCorrections(parts);
  return {
    answerEarlier: (answer) =>
      inLine(async () => {
        const open = sheet.value;
        if (open?.type !== 'earlier') return;
        await saying.keep({ kind: 'sighting', payload: resolveEarlier(open.sighting, open.earlier, answer) });
      }),
    answerSlip: (who) =>
      inLine(async () => {
        const [found, at] = [slip.value, parts.shown()];
        slip.value = null;
        const missed = found?.moves[0]?.from;
        if (!found || !missed) return;
        if (who === 'cables') return remember({ ...memory.value, cables: missed.place });
        if (!at) return;
        const moved = await corrections.moveSlip(found, found.unit ?? at.unit);
        line.value = moved ? movedToWords(found, missed.label) : LINES.nothingMoved;
        verdict.value = null;
        await moveTo(missed.place);
      }),
    undo: () =>
      inLine(async () => {
        const act = await corrections.undo();
        if (!act) {
          line.value = LINES.nothingToUndo;
          return;
        }
        batch(() => {
          verdict.value = null;
          slip.value = null;
          line.value = LINES.undone(act.words);
        });
        const goBack = act.kind === 'sighting' || act.kind === 'label' || act.kind === 'slip';
        await moveTo(goBack && isJack(act.back) ? act.back : null);
      }),
  };
}

/** What is said beside the statements. */
function besideActs(
  parts: WalkParts,
  { refresh }: WalkShown,
): Pick<WalkFlow, 'note' | 'hazard' | 'acted' | 'notNow' | 'did'> {
  const { memory, line, remember, inLine } = parts;
  const aside = createAside(parts);
  return {
    note: (place, text) => inLine(() => aside.note(place, text)),
    hazard: (hazard, note) => inLine(() => aside.hazard(hazard, note)),
    acted: ({ event, also = [], place, words, line: told }) =>
      inLine(async () => {
        aside.did(event, place, 'label', words, also);
        line.value = told;
        await refresh();
      }),
    notNow(place) {
      remember({ ...memory.value, notNow: [...(memory.value.notNow ?? []), place] });
    },
    did: (event, place, words) => void inLine(async () => aside.did(event, place, 'photo', words)),
  };
}
