// The report's files made from a real fold, and from texts that a sheet, a scanner or another phone may bring. Which
// characters end a text or an attribute: WHATWG HTML, tokenisation. Which first characters a spreadsheet takes for a
// formula: OWASP, "CSV Injection", from memory. Texts are invented.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { LISTED_AT_MOST } from '../../src/core/report/document/tree.ts';
import type { Reconciliation } from '../../src/core/report/reconciliation.ts';
import { readCsv } from '../../src/files/csv.ts';
import { REPORT_COLUMNS, reportToCsv } from '../../src/files/reportCsv.ts';
import { escapeHtml } from '../../src/files/reportHtml.ts';
import { reportToHtml } from './reportFixture.ts';
import { sampleLine, sampleReport } from './reportSample.ts';

const about = { madeAt: Date.UTC(2026, 2, 2, 10), version: '0.0.0 (test)' };
const html = (over: Partial<Reconciliation> = {}) => reportToHtml({ ...sampleReport(), ...over }, about);

describe('the page of a fold', () => {
  it('says the whole in one sentence whose numbers are those of the fold', () => {
    const { coverage } = sampleReport();
    expect(coverage).toMatchObject({ cables: 4, bothEnds: 1, differ: 2, places: 8, seen: 4, notVerified: 1 });
    expect(html()).toContain('Of 4 cables, <strong>1 is where the plan says, at both ends.</strong> 2 differ.');
  });

  it('keeps the order of the screen', () => {
    const page = html({ remarks: [{ place: null, text: 'Dust', at: 0, author: 'I. Halloran' }] });
    const marks = ['<h1>', 'worst</h2>', '>Differences by', '>Rack by', 'and why</h2>', 'on purpose</h2>', '>Remarks<'];
    const at = [...marks, '>Walked<', '>State<', 'Local codes', 'Made '].map((mark) => page.indexOf(mark));
    expect(at.every((n) => n > 0)).toBe(true);
    expect(at).toEqual([...at].sort((a, b) => a - b));
  });

  it('boxes labels, solid as found and dashed as planned', () => {
    const page = html({ lines: [sampleLine()] });
    expect(page).toContain('<dt>Found</dt><dd><span class="label found">1003</span></dd>');
    expect(page).toContain('<dt>Plan</dt><dd><span class="label">1002</span></dd>');
  });

  it('writes times in the zone it is told', () => {
    // From memory of the zone: 13 hours ahead of UTC in the southern summer.
    const page = reportToHtml({ ...sampleReport(), lines: [sampleLine()] }, { ...about, timeZone: 'Pacific/Auckland' });
    expect(page).toContain('by eye, 2 Mar 2026, 22:02');
  });

  it('groups what was not looked at by reason, longest list first', () => {
    const page = html();
    const [most, other] = [page.indexOf('<td>not looked at</td>'), page.indexOf('behind the lacing bar')];
    expect(most).toBeGreaterThan(0);
    expect(other).toBeGreaterThan(most);
  });

  it('folds a long list and says how many more there are', () => {
    const notLooked = Array.from({ length: LISTED_AT_MOST + 7 }, (_, i) => ({ place: `X-${i}`, reason: 'no key' }));
    const page = html({ notLooked });
    expect(page).toContain(`X-${LISTED_AT_MOST - 1}</span></span> and 7 more<`);
    expect(page).not.toContain(`X-${LISTED_AT_MOST}<`);
  });

  it('lists what jackets and marks leave to prove, escaped, and nothing where there is none', () => {
    const one = { ends: 'SW1 P03 and SW1 P07', certainty: 'probable' as const, words: '3 ends bear “<b>”. Probable.' };
    expect(html({ toProve: [one] })).toMatch(
      /Still to prove.*<td>SW1 P03 and SW1 P07<\/td><td>3 ends bear “&lt;b&gt;”/,
    );
    const many = Array.from({ length: LISTED_AT_MOST + 2 }, () => one);
    expect(html({ toProve: many })).toContain('<p>And 2 more.</p>');
    expect(html()).not.toContain('Still to prove');
  });

  it('lists what waits for a window with why, and how many more there are', () => {
    expect(html()).toMatch(/For the maintenance window<\/h2>.*<td>A check<\/td><td>behind the lacing bar<\/td>/);
    const [item] = sampleReport().forWindow;
    expect(html({ forWindow: Array.from({ length: LISTED_AT_MOST + 3 }, () => item!) })).toContain('And 3 more.');
    expect(html({ forWindow: [] })).not.toContain('For the maintenance window');
  });

  it('sets what was left beside what was found, with who and when', () => {
    const said = (words: string, at: number) => ({ words, isLabel: true, by: 'I. Halloran', at });
    const one: Reconciliation['left'][number] = {
      place: 'SW1/P03',
      words: 'SW1 P03',
      plan: '1003',
      found: said('1004', Date.UTC(2026, 10, 25, 10)),
      left: said('1003', Date.UTC(2026, 10, 26, 11)),
      outcome: 'as-planned',
    };
    const page = html({ left: [one] });
    expect(page).toContain(
      '<td><span class="name">SW1 P03</span></td><td>1003</td><td><span class="label found">1004</span> (I. Halloran, 25 Nov 2026, 10:00)</td><td><span class="label found">1003</span> (I. Halloran, 26 Nov 2026, 11:00)</td><td>as planned</td>',
    );
    expect(html({ left: Array.from({ length: LISTED_AT_MOST + 1 }, () => one) })).toContain('And 1 more.');
    expect(html({ left: [] })).not.toContain('As found and as left');
  });

  it('never calls anything safe', () => {
    expect(html()).not.toMatch(/\bsafe(ly|ty)?\b/i);
    expect(html()).toContain('Local codes, permits and licensed trades come first.');
  });
});

describe('texts that try to be more than text', () => {
  /** The text at every place of the report that a person, a sheet or another phone fills. */
  function filled(text: string): Reconciliation {
    const line = sampleLine({
      title: text,
      line: text,
      order: text,
      places: [text],
      labels: [text],
      found: text,
      plan: text,
      notes: [text],
      evidence: [{ at: 0, author: text, basis: 'seen' }],
    });
    return {
      ...sampleReport(),
      station: text,
      name: text,
      plan: { name: text, revision: text, source: text, moves: [{ author: text, at: 0, name: text }] },
      people: [text],
      permission: 'look',
      lines: [line, { ...line, severity: 'people' }],
      byRack: [{ label: text, places: 1, seen: 1, differ: 0 }],
      confirmed: [text],
      oneEnd: [{ label: text, missing: text }],
      notSeen: [text],
      notLooked: [{ place: text, reason: text }],
      exclusions: [{ label: text, reason: text }],
      left: [
        {
          place: text,
          words: text,
          plan: text,
          found: { words: text, isLabel: true, by: text, at: 0 },
          left: { words: text, isLabel: true, by: text, at: 0 },
          outcome: 'differs',
        },
      ],
      forWindow: [{ place: text, words: text, owed: text, why: text, author: text, at: 0 }],
      changes: [{ place: text, label: text, reason: text, until: text, author: text, at: 0 }],
      added: [{ event: 'x', parts: [{ type: 'room', id: 'r', label: text }], author: text, at: 0 }],
      pairs: [{ label: text, words: text }],
      tests: [{ label: text, end: text, place: text, result: 'fail', words: text, author: text, at: 0, again: false }],
      renaming: {
        counts: { all: 1, done: 0, half: 1, untouched: 0 },
        half: [{ old: text, new: text, todo: [text], handedOver: text, place: null }],
      },
      remarks: [{ place: text, text, at: 0, author: text }],
    };
  }
  const tags = (page: string) => [...page.matchAll(/<[^\s>]+/g)].map(([tag]) => tag);
  const known = tags(reportToHtml(filled('plain'), about));

  it.each([
    '<script>alert(1)</script>',
    '"><img src=x onerror=alert(1)>',
    "' onmouseover='alert(1)",
    '</title><svg/onload=alert(1)>',
    '</style><script>alert(1)</script>',
    '<!--',
    '&lt;b&gt;',
    '``',
  ])('%j stays text everywhere', (text) => {
    const page = reportToHtml(filled(text), about);
    expect(tags(page)).toEqual(known);
    expect(page.split(escapeHtml(text)).length).toBeGreaterThan(20);
    expect(page.replaceAll(escapeHtml(text), '')).not.toContain(text);
  });

  it('keeps a label of 10,000 characters whole', () => {
    const long = '1'.repeat(10_000);
    expect(reportToHtml(filled(long), about)).toContain(`<span class="label found">${long}</span>`);
  });

  it.each(['=HYPERLINK("x")', '+48V', '-1', '@SUM(A1)', '\t=1', '"quoted"', "'=1", 'a\r\nb', '1,5;2'])(
    '%j comes back from the sheet as it was, and no cell begins like a formula',
    (text) => {
      const csv = reportToCsv({ lines: [sampleLine({ found: text, labels: [text], notes: [text] })] });
      expect(csv.slice(1)).not.toMatch(/(^|[,\n])"?[=+\-@\t]/);
      expect(readBack(csv)[1]?.[REPORT_COLUMNS.indexOf('found')]).toBe(text);
    },
  );

  it('gives every text of the sheet back', () => {
    const text = fc.string({ unit: 'grapheme' }).map((one) => one.replaceAll('\0', ''));
    fc.assert(
      fc.property(text, text, (found, title) => {
        const [, row] = readBack(reportToCsv({ lines: [sampleLine({ found, title })] }));
        expect(row?.[REPORT_COLUMNS.indexOf('found')]).toBe(found);
        expect(row?.[REPORT_COLUMNS.indexOf('what')]).toBe(title);
      }),
      { numRuns: 200 },
    );
  });
});

function readBack(csv: string): string[][] {
  const read = readCsv(new TextEncoder().encode(csv), { delimiter: ',' });
  if (read.type !== 'rows') throw new Error(read.error.what);
  return read.rows;
}
