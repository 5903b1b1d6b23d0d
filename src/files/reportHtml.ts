// One reconciliation as a page of its own: no script, nothing loaded from anywhere, every text escaped, printable.
// It repeats the report's data and counts nothing anew.
import type { DifferenceLine, Reconciliation } from '../core/report/reconciliation.ts';
import { reportStyle } from './reportStyle.ts';

export interface ReportAbout {
  madeAt: number;
  version: string;
  /** Zone in which times are written, such as `Europe/London`; UTC when left out. */
  timeZone?: string;
}

export function reportToHtml(report: Reconciliation, about: ReportAbout): string {
  const when = timeWriter(about.timeZone ?? 'UTC');
  const { coverage: c } = report;
  const hazards = report.lines.filter(isHazard);
  const others = report.lines.filter((line) => !isHazard(line));
  const title = `${report.station}: ${report.name}`;
  const state = report.closedAt === null ? 'Audit open' : `Audit closed ${when(report.closedAt)}`;
  const parts = [
    `<header><p class="quiet">${escapeHtml(report.station)}. ${state}.</p><h1>${escapeHtml(report.name)}</h1>${lead(report)}</header>`,
    facts([
      ['Walked', report.people.join(', ') || 'nobody named'],
      ['Allowed', PERMISSIONS[report.permission] ?? report.permission],
      ['Plan', report.plan.name || 'none'],
      ['Revision', report.plan.revision ?? 'none'],
      ['Read from', report.plan.source ?? 'not known'],
      ['As found', `${when(report.startedAt)} to ${when(report.lastAt)}`],
      ['Photos', `${report.photoCount}, kept with the record`],
    ]),
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
    others.length > 0 ? section('Differences, worst first', others.map((line) => difference(line, when)).join('')) : '',
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
    report.remarks.length > 0
      ? section(
          'Remarks',
          table(
            ['Where', 'Remark', 'By'],
            report.remarks.map((one): Row => [one.place ?? '', one.text, `${one.author}, ${when(one.at)}`]),
          ),
        )
      : '',
    section('As planned, at both ends', report.confirmed.length === 0 ? '<p>None yet.</p>' : labels(report.confirmed)),
    `<footer><p>Names are typed and not proven. Times are of the phones’ clocks, in ${escapeHtml(about.timeZone ?? 'UTC')}. A label is a claim; only a followed cable is a trace. This sheet says what was seen; local codes, permits and licensed trades decide what may be done.</p><p>Made ${when(about.madeAt)} by version ${escapeHtml(about.version)}.</p></footer>`,
  ];
  return `<!doctype html>
<html lang="en-GB">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<title>${escapeHtml(title)}</title>
<style>${reportStyle}</style>
</head>
<body>
${parts.filter(Boolean).join('\n')}
</body>
</html>
`;
}

type Row = (string | number)[];

const PERMISSIONS: Record<string, string> = {
  look: 'look only',
  touch: 'look and touch',
  disconnect: 'look, touch and unplug',
};

const BASIS: Record<string, string> = {
  seen: 'by eye',
  followed: 'followed',
  page: 'off the page',
  told: 'told',
  inferred: 'inferred',
};

function isHazard(line: DifferenceLine): boolean {
  return line.severity === 'people' || line.severity === 'equipment';
}

function lead(report: Reconciliation): string {
  const { coverage: c } = report;
  const open = c.places - c.seen;
  const rest = report.complete
    ? 'Every jack in scope has a statement.'
    : `The audit is not complete: ${open} ${open === 1 ? 'jack was' : 'jacks were'} not looked at.`;
  return `<p class="lead">Of ${c.cables} ${c.cables === 1 ? 'cable' : 'cables'}, <strong>${c.bothEnds} ${c.bothEnds === 1 ? 'is' : 'are'} where the plan says, at both ends</strong>. Looked at: ${c.seen} of ${c.places} jacks. ${rest}</p>`;
}

function difference(line: DifferenceLine, when: (at: number) => string): string {
  const hazard = isHazard(line);
  const rows: [string, string][] = [];
  if (line.found) rows.push(['Found', line.found]);
  if (line.plan) rows.push(['Plan', line.plan]);
  if (line.places.length > 0) rows.push(['Where', line.places.join(', ')]);
  const seen = line.evidence.map((one) => `${BASIS[one.basis] ?? one.basis} ${when(one.at)}, ${one.author}`);
  rows.push(['Evidence', seen.join('; ') || 'the plan itself']);
  if (line.notes.length > 0) rows.push(['Notes', line.notes.join(' / ')]);
  if (line.photos.length > 0) rows.push(['Photos', String(line.photos.length)]);
  const order = line.order ? ` <strong>${escapeHtml(line.order)}</strong>` : '';
  return `<article class="${hazard ? 'hazard' : line.severity === 'undecided' ? 'undecided' : 'differs'}"><h3>${line.number}. ${hazard ? '<span class="red">Hazard.</span> ' : ''}${escapeHtml(line.title)}</h3><p><strong>${escapeHtml(line.severityWords)}.</strong> ${escapeHtml(line.line)}${order}</p>${facts(rows)}</article>`;
}

function notLooked(report: Reconciliation): string {
  const groups = new Map<string, string[]>();
  for (const { place, reason } of report.notLooked) {
    const known = groups.get(reason);
    if (known) known.push(place);
    else groups.set(reason, [place]);
  }
  const rows = [...groups].map(([reason, places]): Row => [reason, places.length, places.join(', ')]);
  const oneEnd = report.oneEnd.map(({ label, missing }): Row => [label, missing]);
  return [
    rows.length === 0
      ? '<p>Every jack in scope was looked at.</p>'
      : table(['Reason', 'Jacks', 'Which'], [...rows, ['All', report.notLooked.length, '']], true),
    oneEnd.length > 0 ? `<h3>Cables seen at one end only</h3>${table(['Cable', 'Not seen at'], oneEnd)}` : '',
    report.notSeen.length > 0 ? `<h3>Cables not seen</h3>${labels(report.notSeen)}` : '',
  ].join('');
}

function section(title: string, inside: string): string {
  return `<section><h2>${escapeHtml(title)}</h2>${inside}</section>`;
}

function facts(rows: readonly (readonly [string, string])[]): string {
  return `<dl>${rows.map(([name, value]) => `<div><dt>${escapeHtml(name)}</dt><dd>${escapeHtml(value)}</dd></div>`).join('')}</dl>`;
}

function table(head: readonly string[], rows: readonly Row[], sum = false): string {
  const cells = (row: Row) =>
    row
      .map((cell) => (typeof cell === 'number' ? `<td class="number">${cell}</td>` : `<td>${escapeHtml(cell)}</td>`))
      .join('');
  const body = rows
    .map((row, i) => `<tr${sum && i === rows.length - 1 ? ' class="sum"' : ''}>${cells(row)}</tr>`)
    .join('');
  return `<table><thead><tr>${head.map((cell) => `<th scope="col">${escapeHtml(cell)}</th>`).join('')}</tr></thead><tbody>${body}</tbody></table>`;
}

function labels(list: readonly string[]): string {
  return `<p class="labels">${list.map((label) => `<span class="label">${escapeHtml(label)}</span>`).join(' ')}</p>`;
}

const ENTITIES: Record<string, string> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;', "'": '&#39;' };

/**
 * Text of labels and notes comes from sheets and scanners and may be hostile. Marks that reorder or hide text are
 * written out by number, so that what is printed is what is there.
 */
export function escapeHtml(text: string): string {
  return text.replace(/[&<>"'`\ufffe\uffff]|(?![\t\n\r])\p{Cc}/gu, (c) => {
    const code = sign.codePointAt(0) ?? 0;
    return code === 10 || code === 9 ? ' ' : `[U+${code.toString(16).toUpperCase().padStart(4, '0')}]`;
  });
}

/** Control characters, zero-width marks and direction overrides (Unicode general categories Cc and Cf). */
const HIDDEN = /[\p{Cc}\p{Cf}]/gu;

function timeWriter(timeZone: string): (at: number) => string {
  const format = new Intl.DateTimeFormat('en-GB', { dateStyle: 'medium', timeStyle: 'short', timeZone });
  return (at) => (at > 0 ? format.format(at) : 'not known');
}
