// The report's sections on the walk itself: how much of it was looked at, what was left out, what was changed meanwhile,
// what is still owed, and who walked by which plan. Counts nothing anew.
import { OUTCOME_WORDS } from '../leftView.ts';
import type { Reconciliation } from '../reconciliation.ts';
import { PERMISSION_WORDS } from '../words/recordWords.ts';
import { movesToWords, notLookedByReason, partToWords } from '../words/reportSentences.ts';
import { COLUMN_WORDS, FACT_WORDS, OCCASION_WORDS, REPORT_WORDS, ROW_WORDS, TEST_WORDS } from '../words/reportWords.ts';
import type { Block, Cell, Run } from './document.ts';
import {
  caution,
  count,
  facts,
  found,
  heading,
  labels,
  name,
  names,
  paragraph,
  planned,
  runs,
  table,
  time,
  words,
} from './make.ts';

type When = (at: number) => string;

export function cables({ coverage: c }: Reconciliation): Block[] {
  const row = (said: string, n: number): Cell[] => [words(said), count(n)];
  return [
    table(
      [COLUMN_WORDS.as, COLUMN_WORDS.cables],
      [
        row(ROW_WORDS.bothEnds, c.bothEnds),
        row(ROW_WORDS.differ, c.differ),
        row(ROW_WORDS.oneEnd, c.oneEnd),
        row(ROW_WORDS.notSeen, c.notSeen),
        row(ROW_WORDS.notVerified, c.cablesNotVerified),
      ],
      row(ROW_WORDS.cables, c.cables),
    ),
  ];
}

export function racks({ byRack, coverage: c }: Reconciliation): Block[] {
  const { where, inScope, seen, differ } = COLUMN_WORDS;
  const rows = byRack.map((row): Cell[] => [words(row.label), count(row.places), count(row.seen), count(row.differ)]);
  const all = byRack.reduce((sum, row) => sum + row.differ, 0);
  return [
    table([where, inScope, seen, differ], rows, [words(ROW_WORDS.all), count(c.places), count(c.seen), count(all)]),
  ];
}

export function notLooked(report: Reconciliation): Block[] {
  const { reason, jacks, which, cable, missing } = COLUMN_WORDS;
  const rows = notLookedByReason(report.notLooked).map((one): Cell[] => [
    words(one.reason),
    count(one.places.length),
    names(one.places),
  ]);
  const oneEnd = report.oneEnd.map((one): Cell[] => [words(planned(one.label)), words(one.missing)]);
  return [
    rows.length === 0
      ? paragraph(REPORT_WORDS.allLookedAt)
      : table([reason, jacks, which], rows, [words(ROW_WORDS.all), count(report.notLooked.length), words()]),
    ...(oneEnd.length > 0 ? [heading(REPORT_WORDS.oneEndOnly), table([cable, missing], oneEnd)] : []),
    ...(report.notSeen.length > 0 ? [heading(REPORT_WORDS.cablesNotSeen), labels(report.notSeen, 'plan')] : []),
  ];
}

export function leftOut({ exclusions }: Reconciliation): Block[] {
  if (exclusions.length === 0) return [paragraph(REPORT_WORDS.nothingLeftOut)];
  const rows = exclusions.map((one): Cell[] => [words(one.label), words(one.reason || REPORT_WORDS.noReason)]);
  return [table([COLUMN_WORDS.what, COLUMN_WORDS.reason], rows)];
}

export function added({ added: all }: Reconciliation): Block[] {
  if (all.length === 0) return [];
  const rows = all.map((one): Cell[] => [
    words(one.parts.map(partToWords).join(', ')),
    words(one.author),
    words(time(one.at)),
  ]);
  return [table([COLUMN_WORDS.what, COLUMN_WORDS.by, COLUMN_WORDS.when], rows)];
}

/** Both stand for good: what was found is not overwritten by what was left. */
export function asLeft({ left }: Reconciliation): Block[] {
  if (left.length === 0) return [];
  const said = (one: { words: string; isLabel: boolean; by: string; at: number }): Cell =>
    words(one.isLabel ? found(one.words) : one.words, ` (${one.by}, `, time(one.at), ')');
  const { where, plan, found: asFound, left: as, now } = COLUMN_WORDS;
  return [
    table(
      [where, plan, asFound, as, now],
      left.map((one): Cell[] => [
        words(name(one.words)),
        words(one.plan ?? ''),
        said(one.found),
        said(one.left),
        words(OUTCOME_WORDS[one.outcome]),
      ]),
    ),
  ];
}

/** What somebody with a hand, a key or another time still owes. */
export function window({ forWindow }: Reconciliation): Block[] {
  if (forWindow.length === 0) return [];
  const { where, owed, why, by, when } = COLUMN_WORDS;
  const rows = forWindow.map((one): Cell[] => [
    words(name(one.words)),
    words(one.owed),
    words(one.why),
    words(one.author),
    words(time(one.at)),
  ]);
  return [caution(REPORT_WORDS.agreeWindow), table([where, owed, why, by, when], rows)];
}

export function onPurpose({ changes }: Reconciliation): Block[] {
  if (changes.length === 0) return [];
  const { where, label, reason, until, by, when } = COLUMN_WORDS;
  const rows = changes.map((one): Cell[] => [
    words(name(one.place)),
    one.label === '' ? words() : words(found(one.label)),
    words(one.reason),
    words(one.until ?? ''),
    words(one.author),
    words(time(one.at)),
  ]);
  return [table([where, label, reason, until, by, when], rows)];
}

export function pairs({ pairs: all }: Reconciliation): Block[] {
  if (all.length === 0) return [];
  const rows = all.map((one): Cell[] => [words(planned(one.label)), words(one.words)]);
  return [table([COLUMN_WORDS.cable, COLUMN_WORDS.pairs], rows)];
}

/** An estimate: nothing in the report counts it as found. */
export function toProve({ toProve: all }: Reconciliation): Block[] {
  if (all.length === 0) return [];
  const rows = all.map((one): Cell[] => [words(one.ends), words(one.words)]);
  return [paragraph(REPORT_WORDS.estimate), table([COLUMN_WORDS.ends, COLUMN_WORDS.evidence], rows)];
}

/** Every test; what counts is the last one of an end. */
export function tests({ tests: all }: Reconciliation): Block[] {
  if (all.length === 0) return [];
  const { cable, end, where, when, by, result, tester } = COLUMN_WORDS;
  const rows = all.map((one): Cell[] => [
    words(planned(one.label)),
    words(one.end),
    words(name(one.place)),
    words(time(one.at)),
    words(one.author),
    words(TEST_WORDS[one.again ? (`${one.result} again` as const) : one.result]),
    words(one.words ?? ''),
  ]);
  return [table([cable, end, where, when, by, result, tester], rows)];
}

export function renaming({ renaming: view }: Reconciliation): Block[] {
  if (!view) return [];
  const { half, untouched } = view.counts;
  const rows = view.half.map((one): Cell[] => [
    words(found(one.old), ' to ', planned(one.new)),
    words(one.todo.join(' ')),
    words(one.handedOver ?? REPORT_WORDS.nobodyTold),
  ]);
  return [
    paragraph(`${half} half done, ${untouched} not begun. ${REPORT_WORDS.bothEndsFirst}`),
    ...(rows.length > 0 ? [table([COLUMN_WORDS.label, COLUMN_WORDS.todo, COLUMN_WORDS.handedOver], rows)] : []),
  ];
}

export function remarks({ remarks: all }: Reconciliation): Block[] {
  if (all.length === 0) return [];
  const { where, remark, by, when } = COLUMN_WORDS;
  const rows = all.map((one): Cell[] => [
    words(one.place ?? ''),
    words(one.text),
    words(one.author),
    words(time(one.at)),
  ]);
  return [table([where, remark, by, when], rows)];
}

export function media({ media: { photos, voices } }: Reconciliation, when: When): Block[] {
  const pictures = photos.map(({ document, width, height, marks, pins, whole, words: said, at, author }) => ({
    document,
    width,
    height,
    marks,
    pins: pins.map((pin) => ({ at: pin.at, jack: pin.jack })),
    caption: runs(whole ? said : name(said), ', ', time(at), `, ${author}`),
    isPlace: !whole,
  }));
  const spoken = voices.map((voice) => ({
    event: voice.event,
    words: runs(
      `Voice note of ${Math.round(voice.lasts / 1000)} s at ${voice.words}, ${voice.author}, ${when(voice.at)}: kept with the record.`,
    ),
  }));
  return [
    ...(pictures.length > 0 ? [{ type: 'pictures' as const, pictures }] : []),
    ...(spoken.length > 0 ? [{ type: 'voices' as const, voices: spoken }] : []),
  ];
}

export function confirmed({ confirmed: all }: Reconciliation): Block[] {
  return [all.length === 0 ? paragraph(REPORT_WORDS.noneConfirmed) : labels(all, 'found')];
}

export function walk(report: Reconciliation, when: When): Block[] {
  const { plan, startedAt, lastAt, closedAt } = report;
  const rows: (readonly [string, Run[]])[] = [
    [FACT_WORDS.walked, runs(report.people.join(', ') || REPORT_WORDS.nobodyNamed)],
    [FACT_WORDS.occasion, runs(report.occasion === null ? REPORT_WORDS.notKnown : OCCASION_WORDS[report.occasion])],
    [FACT_WORDS.allowed, runs(PERMISSION_WORDS[report.permission].all)],
    [FACT_WORDS.plan, runs(plan.name || REPORT_WORDS.none)],
    [FACT_WORDS.revision, plan.revision ? [name(plan.revision)] : runs(REPORT_WORDS.none)],
    [FACT_WORDS.source, runs(plan.source ?? REPORT_WORDS.notKnown)],
    ...(plan.moves.length > 0 ? [[FACT_WORDS.moved, runs(movesToWords(plan, when))] as const] : []),
    [FACT_WORDS.asFound, startedAt ? runs(time(startedAt), ' to ', time(lastAt)) : runs(REPORT_WORDS.notBegun)],
    [FACT_WORDS.photos, runs(`${report.photoCount}, kept with the record`)],
    [FACT_WORDS.state, closedAt === null ? runs(REPORT_WORDS.isOpen) : runs('closed ', time(closedAt))],
  ];
  return [facts(...rows)];
}
