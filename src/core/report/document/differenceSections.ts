// The report's sections on what differs: the worst, the counts, hazards, causes, the differences one by one and what was
// decided about them. Counts nothing anew.

import { isHazard } from '../../trade/kinds.ts';
import { type DecidedRow, decidedRows, decidedToWords, type SaidLine, saidToWords } from '../decisionsView.ts';
import type { DifferenceLine, Reconciliation } from '../reconciliation.ts';
import { counted } from '../words/plain.ts';
import { evidenceToWords } from '../words/reportSentences.ts';
import { COLUMN_WORDS, FACT_WORDS, REPORT_WORDS, ROW_WORDS } from '../words/reportWords.ts';
import type { Badge, Block, Cell, Entry, Item, Run } from './document.ts';
import {
  caution,
  count,
  entries,
  facts,
  found,
  heading,
  item,
  list,
  paragraph,
  planned,
  quiet,
  runs,
  strong,
  table,
  time,
  words,
} from './make.ts';

type When = (at: number) => string;

/** Of the worst so many stand before all the others. */
const WORST = 3;

function badgeOf(line: Pick<DifferenceLine, 'severity'>): Badge {
  return isHazard(line) ? 'hazard' : line.severity === 'undecided' ? 'undecided' : 'differs';
}

const hazardWord: Run = { type: 'hazard', text: REPORT_WORDS.hazard };
const numberOf = (n: number): Run => quiet(`No. ${n}`);

/** Hazards before all others, whatever else is worse. */
export function worst({ lines }: Reconciliation): Block[] {
  if (lines.length === 0) return [paragraph(REPORT_WORDS.nothingDiffers)];
  const sorted = [...lines.filter(isHazard), ...lines.filter((line) => !isHazard(line))].slice(0, WORST);
  return [list(sorted.map(shortly))];
}

function shortly(line: DifferenceLine): Item {
  const badge = badgeOf(line);
  const first = [strong(`${line.title}.`), ' ', `${line.severityWords}.`, ' ', line.line];
  const order = line.order ? [' ', strong(line.order)] : [];
  const before = badge === 'hazard' ? [hazardWord, ' '] : [];
  return item([runs(...before, ...first, ...order, ' ', numberOf(line.number))], badge, { type: 'differences' });
}

export function severities({ counts, lines }: Reconciliation): Block[] {
  if (counts.length === 0) return [];
  const rows = counts.map(({ words: said, count: n }): Cell[] => [words(said), count(n)]);
  return [table([COLUMN_WORDS.severity, COLUMN_WORDS.differences], rows, [words(ROW_WORDS.all), count(lines.length)])];
}

export function differences(lines: readonly DifferenceLine[]): Block[] {
  return lines.length === 0 ? [] : [entries(lines.map(entry))];
}

function entry(line: DifferenceLine): Entry {
  const badge = badgeOf(line);
  const seen = line.evidence.flatMap((one, i): (string | Run)[] => [
    `${i > 0 ? '; ' : ''}${evidenceToWords(one)}, `,
    time(one.at),
    `, ${one.author}`,
  ]);
  const said = [strong(`${line.severityWords}.`), ' ', line.line];
  const before = badge === 'hazard' ? [hazardWord, ' '] : [];
  return {
    id: line.id,
    number: line.number,
    badge,
    title: line.title,
    blocks: [
      paragraph(...before, ...said),
      ...(line.order ? [caution(line.order)] : []),
      facts(
        ...labelled(line, FACT_WORDS.found, line.found, found),
        ...labelled(line, FACT_WORDS.plan, line.plan, planned),
        ...given(FACT_WORDS.where, line.places.join(', ')),
        ...(line.conflict
          ? []
          : [[FACT_WORDS.evidence, runs(...(seen.length > 0 ? seen : [REPORT_WORDS.planItself]))] as const]),
        ...given(FACT_WORDS.notes, line.notes.join(' / ')),
        ...given(FACT_WORDS.photos, line.photos.length === 0 ? '' : `${line.photos.length}, see Photos`),
      ),
      ...sides(line),
    ],
  };
}

/** Entries that contradict each other, side by side. */
function sides({ conflict }: DifferenceLine): Block[] {
  if (!conflict) return [];
  const rows = conflict.map((one): Cell[] => [
    words(one.isLabel ? found(one.words) : one.words),
    words(evidenceToWords(one)),
    words(one.by),
    words(time(one.at)),
  ]);
  return [table([COLUMN_WORDS.entry, COLUMN_WORDS.how, COLUMN_WORDS.by, COLUMN_WORDS.when], rows)];
}

const given = (name: string, text: string): (readonly [string, Run[]])[] => (text === '' ? [] : [[name, runs(text)]]);

/** A box is a cable's label and nothing else. */
function labelled(
  line: DifferenceLine,
  name: string,
  text: string | null,
  box: (text: string) => Run,
): (readonly [string, Run[]])[] {
  return text ? [[name, runs(line.labels.includes(text) ? box(text) : text)]] : [];
}

/** Each with how sure it is, the numbers of the differences it covers, and the look that would settle it. */
export function causes({ explained, lines }: Reconciliation, when: When): Block[] {
  const { causes: all, refused } = explained;
  if (all.length + refused.length === 0) return [];
  const numbers = new Map(lines.map(({ id, number: n }) => [id, n]));
  const items = all.map((cause) => {
    const covers = cause.explains.flatMap((id) => numbers.get(id) ?? []).sort((a, b) => a - b);
    const parts = [strong(`${cause.title}.`), ` ${cause.certainty}. ${cause.line} `, quiet(`No. ${covers.join(', ')}`)];
    return item(
      [
        runs(...parts),
        ...(cause.look ? [runs(cause.look.line)] : []),
        ...cause.judging.said.map((one) =>
          runs(saidToWords(one, when(one.at)), cause.judging.disputed ? ` ${REPORT_WORDS.notAgreed}` : ''),
        ),
        ...cause.reopened.map((one) => runs(`${one.why}. ${saidToWords(one, when(one.at))}`)),
      ],
      null,
      { type: 'differences' },
    );
  });
  const no = refused.map((one) => item([runs(saidToWords(one, when(one.at)))]));
  return [
    ...(items.length > 0 ? [list(items, true)] : []),
    ...(no.length > 0 ? [paragraph(REPORT_WORDS.saidNoTo), list(no)] : []),
  ];
}

/** What was decided by whom and why, what has no decision yet, and what is to be amended in the record. */
export function decisions(report: Reconciliation, when: When): Block[] {
  const { lines, undecided, past } = report;
  if (lines.length + past.length === 0) return [];
  const told = new Set(report.explained.causes.flatMap(({ reopened }) => reopened.map(({ event }) => event)));
  const reopened = report.explained.reopened.filter(({ event }) => !told.has(event));
  const { what, decision, signed, when: at, reason } = COLUMN_WORDS;
  const names = [what, decision, signed, at, reason];
  const row = (about: string, one: SaidLine, disputed = false): Cell[] => [
    words(about),
    words(`${one.words}${disputed ? ` ${REPORT_WORDS.notAgreed}` : ''}`),
    words(one.by),
    words(time(one.at)),
    words(one.reason ?? ''),
  ];
  const signedRows = decidedRows(lines).map((one: DecidedRow) =>
    row(`No. ${one.numbers.join(', ')}`, one, one.disputed),
  );
  return [
    paragraph(`${decidedToWords(lines, undecided)} ${REPORT_WORDS.namesTyped}`),
    ...(signedRows.length > 0 ? [table(names, signedRows)] : []),
    ...(reopened.length > 0
      ? [
          heading(REPORT_WORDS.reopened),
          list(reopened.map((one) => item([runs(`${one.why}. ${saidToWords(one, when(one.at))}`)]))),
        ]
      : []),
    ...(past.length > 0
      ? [
          heading(REPORT_WORDS.past),
          table(
            names,
            past.map((one) => row(one.about, one)),
          ),
        ]
      : []),
    ...amendments(report),
  ];
}

function amendments({ amendments: { ends, byHand }, lines }: Reconciliation): Block[] {
  if (ends.length + byHand.length === 0) return [];
  const numbers = new Map(lines.map(({ id, number: n }) => [id, n]));
  const rows = [
    ...ends.map((one): Cell[] => [
      one.isCable ? words(planned(one.label), ` ${one.end}`) : words(`${one.label}, ${one.end}`),
      words(one.from ?? REPORT_WORDS.notInPlan),
      words(one.to),
      words(one.by),
      words(one.reason),
    ]),
    ...byHand.map((one): Cell[] => [
      words(`No. ${numbers.get(one.difference) ?? ''}`),
      words(REPORT_WORDS.byHand),
      words(one.why),
      words(one.by),
      words(one.reason),
    ]),
  ];
  const { what, from, to, signed, reason } = COLUMN_WORDS;
  return [heading(REPORT_WORDS.amend), table([what, from, to, signed, reason], rows)];
}

export const differenceCount = ({ lines }: Reconciliation): string => counted(lines.length, 'difference');
