// One reconciliation as a page of its own: no script, nothing loaded from anywhere, every text escaped, printable.
// It repeats the report's data and counts nothing anew.

import { saidToWords } from '../core/report/decisionsView.ts';
import { OUTCOME_WORDS } from '../core/report/leftView.ts';
import type { DifferenceLine, Reconciliation } from '../core/report/reconciliation.ts';
import { PERMISSION_WORDS } from '../core/report/words/recordWords.ts';
import {
  CLOSING_WORDS,
  coverageToWords,
  evidenceToWords,
  movesToWords,
  notLookedByReason,
  partToWords,
  wholeToWords,
} from '../core/report/words/reportSentences.ts';
import { isHazard } from '../core/trade/kinds.ts';
import { decisionsToHtml } from './reportDecisions.ts';
import { type Pictures, photoStyle, photosToHtml } from './reportPhotos.ts';
import { reportStyle } from './reportStyle.ts';

/** Longer lists are folded. */
export const LISTED_AT_MOST = 200;

export interface ReportAbout {
  madeAt: number;
  version: string;
  /** Zone in which times are written, such as `Europe/London`; UTC when left out. */
  timeZone?: string;
  /** Photos that the file carries along, by document. */
  pictures?: Pictures;
}

export function reportToHtml(report: Reconciliation, about: ReportAbout): string {
  const when = timeWriter(about.timeZone ?? 'UTC');
  const { coverage: c } = report;
  const hazards = report.lines.filter(isHazard);
  const others = report.lines.filter((line) => !isHazard(line));
  const media = photosToHtml(report, about.pictures ?? new Map(), { text: escapeHtml, when });
  const title = `${report.station}: ${report.name}`;
  const state = report.closedAt === null ? 'Audit open' : `Audit closed ${when(report.closedAt)}`;
  const parts = [
    `<header><p class="quiet">${escapeHtml(report.station)}. ${state}.</p><h1>${escapeHtml(report.name)}</h1>${lead(report)}</header>`,
    section(
      'Cables',
      table(
        ['', 'Cables'],
        [
          ['Where the plan says, at both ends', c.bothEnds],
          ['Differ', c.differ],
          ['Seen at one end only', c.oneEnd],
          ['Not seen', c.notSeen],
          ['Could not be seen', c.cablesNotVerified],
          ['All in scope', c.cables],
        ],
        true,
      ),
    ),
    worst([...hazards, ...others]),
    section(
      'Differences by severity',
      report.counts.length === 0
        ? '<p>Nothing differs so far; of what was not looked at nothing can be said.</p>'
        : table(
            ['', 'Differences'],
            [...report.counts.map(({ words, count }): Row => [words, count]), ['All', report.lines.length]],
            true,
          ),
    ),
    hazards.length > 0 ? section('Hazards', hazards.map((line) => difference(line, when)).join('')) : '',
    report.explained.causes.length > 0 ? section('Causes: what explains several of them', causes(report, when)) : '',
    others.length > 0 ? section('Differences, worst first', others.map((line) => difference(line, when)).join('')) : '',
    report.lines.length > 0 || report.past.length > 0 ? section('Decisions', decisionsToHtml(report, when, table)) : '',
    section(
      'Rack by rack',
      table(
        ['', 'Jacks in scope', 'Looked at', 'Differ'],
        [
          ...report.byRack.map((row): Row => [row.label, row.places, row.seen, row.differ]),
          ['All', c.places, c.seen, report.byRack.reduce((sum, row) => sum + row.differ, 0)],
        ],
        true,
      ),
    ),
    section('Not looked at, and why', notLooked(report)),
    section(
      'Left out on purpose',
      report.exclusions.length === 0
        ? '<p>Nothing.</p>'
        : table(
            ['What', 'Reason'],
            report.exclusions.map(({ label, reason }): Row => [label, reason || 'no reason given']),
          ),
    ),
    report.added.length > 0
      ? section(
          'Added during the audit',
          table(
            ['What', 'By'],
            report.added.map((one): Row => [one.parts.map(partToWords).join(', '), `${one.author}, ${when(one.at)}`]),
          ),
        )
      : '',
    report.left.length > 0 ? section('As found and as left', left(report, when)) : '',
    report.forWindow.length > 0 ? section('For the window', forWindow(report, when)) : '',
    report.changes.length > 0
      ? section(
          'Against the plan on purpose, and lash-ups',
          table(
            ['Where', 'Label', 'Reason', 'Until', 'By'],
            report.changes.map(
              (one): Row => [one.place, one.label, one.reason, one.until ?? '', `${one.author}, ${when(one.at)}`],
            ),
          ),
        )
      : '',
    report.pairs.length > 0
      ? section(
          'Cables of many pairs',
          table(
            ['Cable', 'Pairs'],
            report.pairs.map(({ label, words }): Row => [label, words]),
          ),
        )
      : '',
    report.toProve.length > 0 ? section('Left to prove: one cable by jacket and marks', toProve(report)) : '',
    report.remarks.length > 0
      ? section(
          'Remarks',
          table(
            ['Where', 'Remark', 'By'],
            report.remarks.map((one): Row => [one.place ?? '', one.text, `${one.author}, ${when(one.at)}`]),
          ),
        )
      : '',
    media ? section('Photos and voice notes', media) : '',
    section(
      'As planned, at both ends',
      report.confirmed.length === 0 ? '<p>None yet.</p>' : labels(report.confirmed, 'label found'),
    ),
    facts([
      ['Walked', report.people.join(', ') || 'nobody named'],
      ['Allowed', PERMISSION_WORDS[report.permission].all],
      ['Plan', report.plan.name || 'none'],
      ['Revision', report.plan.revision ?? 'none'],
      ['Read from', report.plan.source ?? 'not known'],
      ...(report.plan.moves.length > 0 ? [['Plan moved', movesToWords(report.plan, when)] as [string, string]] : []),
      ['As found', `${when(report.startedAt)} to ${when(report.lastAt)}`],
      ['Photos', `${report.photoCount}, kept with the record`],
      ['State', report.closedAt === null ? 'open' : `closed ${when(report.closedAt)}`],
    ]),
    `<footer><p>${CLOSING_WORDS}</p><p>Names are typed and not proven. Times are of the phones’ clocks, in ${escapeHtml(about.timeZone ?? 'UTC')}. A label is a claim; only a followed cable is a trace.</p><p>Made ${when(about.madeAt)} by version ${escapeHtml(about.version)}.</p></footer>`,
  ];
  return `<!doctype html>
<html lang="en-GB">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; img-src data:">
<title>${escapeHtml(title)}</title>
<style>${reportStyle}${media ? photoStyle : ''}</style>
</head>
<body>
${parts.filter(Boolean).join('\n')}
</body>
</html>
`;
}

type Row = (string | number)[];

function lead(report: Reconciliation): string {
  const { before, main, after } = wholeToWords(report);
  return `<p class="lead">${before} <strong>${main}</strong> ${after}</p><p>${coverageToWords(report.coverage)}</p>`;
}

/** Each with how sure it is, the numbers of the differences it covers, and the look that would settle it. */
function causes({ explained, lines }: Reconciliation, when: (at: number) => string): string {
  const numbers = new Map(lines.map(({ id, number }) => [id, number]));
  const rows = explained.causes.map((cause) => {
    const covers = cause.explains.flatMap((id) => numbers.get(id) ?? []).sort((a, b) => a - b);
    const look = cause.look ? `<br>${escapeHtml(cause.look.line)}` : '';
    const said = cause.judging.said.map((one) => `<br>${escapeHtml(saidToWords(one, when(one.at)))}`).join('');
    const open = cause.reopened.map(
      (one) => `<br>${escapeHtml(one.why)}. ${escapeHtml(saidToWords(one, when(one.at)))}`,
    );
    return `<li><strong>${escapeHtml(cause.title)}.</strong> ${escapeHtml(cause.certainty)}. ${escapeHtml(cause.line)} <span class="quiet">No. ${covers.join(', ')}</span>${look}${said}${open.join('')}</li>`;
  });
  const refused = explained.refused.map((one) => `<li>${escapeHtml(saidToWords(one, when(one.at)))}</li>`).join('');
  return `<ol>${rows.join('')}</ol>${refused ? `<p>Said no to:</p><ul>${refused}</ul>` : ''}`;
}

function worst(lines: readonly DifferenceLine[]): string {
  if (lines.length === 0) return '';
  const rows = lines.slice(0, 3).map((line) => {
    const hazard = isHazard(line) ? '<span class="red">Hazard.</span> ' : '';
    return `<li>${hazard}<strong>${escapeHtml(line.title)}.</strong> ${escapeHtml(line.line)} <span class="quiet">No. ${line.number}</span></li>`;
  });
  return section(lines.length < 3 ? 'The worst' : 'The three worst', `<ul>${rows.join('')}</ul>`);
}

function difference(line: DifferenceLine, when: (at: number) => string): string {
  const hazard = isHazard(line);
  const rows: [string, string][] = [];
  if (line.places.length > 0) rows.push(['Where', line.places.join(', ')]);
  const seen = line.evidence.map(
    (one) => `${evidenceToWords(one)}${one.photo ? ',' : ''} ${when(one.at)}, ${one.author}`,
  );
  for (const side of line.conflict ?? [])
    rows.push([side.words, `${evidenceToWords(side)}, ${when(side.at)}, ${side.by}`]);
  if (line.conflict === null) rows.push(['Evidence', seen.join('; ') || 'the plan itself']);
  if (line.notes.length > 0) rows.push(['Notes', line.notes.join(' / ')]);
  if (line.photos.length > 0) rows.push(['Photos', `${line.photos.length}, see Photos`]);
  const order = line.order ? ` <strong>${escapeHtml(line.order)}</strong>` : '';
  return `<article class="${hazard ? 'hazard' : line.severity === 'undecided' ? 'undecided' : 'differs'}"><h3>No. ${line.number}: ${hazard ? '<span class="red">Hazard.</span> ' : ''}${escapeHtml(line.title)}</h3><p><strong>${escapeHtml(line.severityWords)}.</strong> ${escapeHtml(line.line)}${order}</p>${facts(rows, boxes(line))}</article>`;
}

/** A box is a cable's label and nothing else: solid as found, dashed as planned. */
function boxes(line: DifferenceLine): string {
  const one = (name: string, text: string | null, cls: string) => {
    if (!text) return '';
    const inside = line.labels.includes(text) ? `<span class="${cls}">${escapeHtml(text)}</span>` : escapeHtml(text);
    return `<div><dt>${name}</dt><dd>${inside}</dd></div>`;
  };
  return one('Found', line.found, 'label found') + one('Plan', line.plan, 'label');
}

function notLooked(report: Reconciliation): string {
  const rows = notLookedByReason(report.notLooked).map(
    ({ reason, places }): Row => [reason, places.length, folded(places)],
  );
  const oneEnd = report.oneEnd.map(({ label, missing }): Row => [label, missing]);
  return [
    rows.length === 0
      ? '<p>Every jack in scope was looked at.</p>'
      : table(['Reason', 'Jacks', 'Which'], [...rows, ['All', report.notLooked.length, '']], true),
    oneEnd.length > 0 ? `<h3>Cables seen at one end only</h3>${table(['Cable', 'Not seen at'], oneEnd)}` : '',
    report.notSeen.length > 0 ? `<h3>Cables not seen</h3>${labels(report.notSeen, 'label')}` : '',
  ].join('');
}

/** What somebody with a hand, a key or another time still owes. */
function forWindow({ forWindow: items }: Reconciliation, when: (at: number) => string): string {
  const rest = items.length - LISTED_AT_MOST;
  const rows = items
    .slice(0, LISTED_AT_MOST)
    .map((one): Row => [one.words, one.owed, one.why, `${one.author}, ${when(one.at)}`]);
  const more = rest > 0 ? `<p>And ${rest} more.</p>` : '';
  return `<p>Agree the window with whoever answers for the air.</p>${table(['Where', 'Owed', 'Why', 'By'], rows)}${more}`;
}

/** Both stand for good: what was found is not overwritten by what was left. */
function left({ left: items }: Reconciliation, when: (at: number) => string): string {
  const rest = items.length - LISTED_AT_MOST;
  const said = (one: { words: string; by: string; at: number }) => `${one.words} (${one.by}, ${when(one.at)})`;
  const rows = items
    .slice(0, LISTED_AT_MOST)
    .map((one): Row => [one.words, one.plan ?? '', said(one.found), said(one.left), OUTCOME_WORDS[one.outcome]]);
  const more = rest > 0 ? `<p>And ${rest} more.</p>` : '';
  return `${table(['Where', 'Plan', 'As found', 'As left', 'Now'], rows)}${more}`;
}

/** An estimate: nothing in this report counts it as found. */
function toProve({ toProve: items }: Reconciliation): string {
  const rest = items.length - LISTED_AT_MOST;
  const rows = items.slice(0, LISTED_AT_MOST).map(({ ends, words }): Row => [ends, words]);
  const more = rest > 0 ? `<p>And ${rest} more.</p>` : '';
  return `<p>An estimate, counted nowhere as found. A twin at both ends or a trace settles it.</p>${table(['Ends', 'What speaks for it'], rows)}${more}`;
}

/** Long lists end in the number of the rest, which a reader must not have to count. */
function folded(texts: readonly string[]): string {
  const rest = texts.length - LISTED_AT_MOST;
  return `${texts.slice(0, LISTED_AT_MOST).join(', ')}${rest > 0 ? ` and ${rest} more` : ''}`;
}

function section(title: string, inside: string): string {
  return `<section><h2>${escapeHtml(title)}</h2>${inside}</section>`;
}

function facts(rows: readonly (readonly [string, string])[], first = ''): string {
  return `<dl>${first}${rows.map(([name, value]) => `<div><dt>${escapeHtml(name)}</dt><dd>${escapeHtml(value)}</dd></div>`).join('')}</dl>`;
}

function table(head: readonly string[], rows: readonly Row[], sum = false): string {
  const cells = (row: Row) =>
    row
      .map((cell) => (typeof cell === 'number' ? `<td class="number">${cell}</td>` : `<td>${escapeHtml(cell)}</td>`))
      .join('');
  const body = rows
    .map((row, i) => `<tr${sum && i === rows.length - 1 ? ' class="sum"' : ''}>${cells(row)}</tr>`)
    .join('');
  return `<table><thead><tr>${head.map((cell, i) => `<th scope="col"${typeof rows[0]?.[i] === 'number' ? ' class="number"' : ''}>${escapeHtml(cell)}</th>`).join('')}</tr></thead><tbody>${body}</tbody></table>`;
}

function labels(list: readonly string[], cls: 'label' | 'label found'): string {
  const boxes = list.slice(0, LISTED_AT_MOST).map((label) => `<span class="${cls}">${escapeHtml(label)}</span>`);
  const rest = list.length - LISTED_AT_MOST;
  return `<p class="labels">${boxes.join(' ')}${rest > 0 ? ` and ${rest} more` : ''}</p>`;
}

const ENTITIES: Record<string, string> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
  '`': '&#96;',
};

/** Control characters, zero-width marks and direction overrides (Unicode general categories Cc and Cf). */
const HIDDEN = /[\p{Cc}\p{Cf}]/gu;

/**
 * Text of labels and notes comes from sheets and scanners and may be hostile. Marks that reorder or hide text are
 * written out by number, so that what is printed is what is there.
 */
export function escapeHtml(text: string): string {
  return text
    .replace(HIDDEN, (sign) => {
      const code = sign.codePointAt(0) ?? 0;
      return code === 9 || code === 10 || code === 13 ? ' ' : `[U+${code.toString(16).toUpperCase().padStart(4, '0')}]`;
    })
    .replace(/[&<>"'`]/g, (sign) => ENTITIES[sign] ?? sign);
}

function timeWriter(timeZone: string): (at: number) => string {
  const format = new Intl.DateTimeFormat('en-GB', { dateStyle: 'medium', timeStyle: 'short', timeZone });
  return (at) => (at > 0 ? format.format(at) : 'not known');
}
