// The report as a page. Which characters must be escaped: WHATWG HTML, "Serialising HTML fragments" and the attribute
// states of its tokeniser. Hostile texts are invented.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Reconciliation } from '../../src/core/report/reconciliation.ts';
import { escapeHtml, LISTED_AT_MOST, type ReportAbout, reportToHtml } from '../../src/files/reportHtml.ts';
import { sampleLine, sampleReport } from './reportSample.ts';

const about: ReportAbout = {
  madeAt: '2 Mar 2026, 10:00',
  version: '0.0.0 (test)',
  timeToText: (at) => new Date(at).toISOString().slice(0, 16).replace('T', ' '),
};
const html = (over: Partial<Reconciliation> = {}) => reportToHtml({ ...sampleReport(), ...over }, about);
/** Names of all elements that a page opens, by the tokeniser's rule: "<" and a letter begins a tag. */
const elements = (page: string) => new Set([...page.matchAll(/<([a-z][a-z0-9]*)/gi)].map((m) => m[1]!.toLowerCase()));

describe('the page of a report', () => {
  it('stands alone: language, title, policy, own style, no script and no address', () => {
    const page = html();
    expect(page.startsWith('<!doctype html>\n<html lang="en-GB">')).toBe(true);
    expect(page).toContain('<title>Quillmere Community Radio: ');
    expect(page).toContain(`content="default-src 'none'; style-src 'unsafe-inline'"`);
    expect(elements(page).has('script')).toBe(false);
    expect(page).not.toMatch(/https?:|url\(|@import|\bsrc=|\bhref=|\son[a-z]+=/i);
  });

  it('says the whole in one sentence whose numbers are those of the fold', () => {
    const { coverage } = sampleReport();
    expect(coverage).toMatchObject({ cables: 4, bothEnds: 1, places: 8, seen: 4, notVerified: 1 });
    expect(html()).toContain(
      `Of 4 cables, <b>1 is where the plan says, at both ends.</b> ${coverage.differ} ${coverage.differ === 1 ? 'differs' : 'differ'}.`,
    );
  });

  it('keeps the order of the screen', () => {
    const page = html({ remarks: [{ place: null, text: 'Dust everywhere', at: 0, author: 'I. Halloran' }] });
    const at = [
      '<h1>',
      'worst</h2>',
      'worst first</h2>',
      'What was looked at</h2>',
      'and why</h2>',
      'Remarks</h2>',
    ].map((mark) => page.indexOf(mark));
    const then = ['<dl class="facts">', 'class="closing"', 'class="made"'].map((mark) => page.indexOf(mark));
    expect([...at, ...then].every((n) => n > 0)).toBe(true);
    expect([...at, ...then]).toEqual([...at, ...then].sort((a, b) => a - b));
  });

  it('tells each difference with what was found, what was planned, on what it rests and how old that is', () => {
    const page = html({ lines: [sampleLine({ order: 'Plug nothing.', notes: ['Tight'], photos: ['a', 'b'] })] });
    expect(page).toContain('<bdi class="ident label-found">1003</bdi>');
    expect(page).toContain('<bdi class="ident label-plan">1002</bdi>');
    expect(page).toContain('by eye, 2026-03-02 09:02, <bdi>I. Halloran</bdi>');
    for (const text of ['<b>Plug nothing.</b>', 'Note: <bdi>Tight</bdi>', '2 photos in the record.'])
      expect(page).toContain(text);
  });

  it('frames every hazard among the three worst and gives it the word', () => {
    const people = sampleLine({ severity: 'people', severityWords: 'Hazard to people', title: 'Earth off' });
    const page = html({
      lines: [people, sampleLine({ number: 2 }), sampleLine({ number: 3 }), sampleLine({ number: 4 })],
    });
    expect(page.match(/<div class="hazard">/g)).toHaveLength(1);
    expect(page.match(/<div class="worst">/g)).toHaveLength(2);
    expect(page).toContain('<span class="red">Hazard.</span> <bdi>Earth off</bdi>');
    expect(page).toContain('The three worst</h2>');
  });

  it('groups what was not looked at by reason, longest list first', () => {
    const page = html();
    const [most, other] = [page.indexOf('not looked at</bdi>: 3'), page.indexOf('behind the lacing bar')];
    expect(most).toBeGreaterThan(0);
    expect(other).toBeGreaterThan(most);
  });

  it('folds a long list and says how many more there are', () => {
    const notLooked = Array.from({ length: LISTED_AT_MOST + 7 }, (_, i) => ({
      place: `X-${i}`,
      reason: 'not looked at',
    }));
    const page = html({ notLooked });
    expect(page).toContain(`X-${LISTED_AT_MOST - 1}</bdi> and 7 more`);
    expect(page).not.toContain(`X-${LISTED_AT_MOST}<`);
  });

  it('says nothing differs so far, and that of the rest nothing can be said', () => {
    const page = html({ lines: [], counts: [] });
    expect(page).toContain('Nothing differs so far.');
    expect(page).toContain('Of the other 4 nothing can be said.');
  });

  it('never calls anything safe', () => {
    expect(html()).not.toMatch(/\bsafe(ly|ty)?\b/i);
    expect(html()).toContain('Local codes, permits and licensed trades come first.');
  });
});

describe('hostile texts', () => {
  const known = elements(reportToHtml(filled('plain'), about));
  /** The text at every place of the report that a person, a sheet or another phone fills. */
  function filled(text: string): Reconciliation {
    const line = sampleLine({
      title: text,
      line: text,
      order: text,
      severityWords: text,
      places: [text],
      labels: [text],
      found: text,
      plan: text,
      notes: [text],
      evidence: [{ at: 0, author: text, basis: text }],
    });
    return {
      ...sampleReport(),
      station: text,
      name: text,
      plan: { name: text, revision: text, source: text },
      people: [text],
      permission: text,
      lines: [line, { ...line, severity: 'people' }],
      byRack: [{ label: text, places: 1, seen: 1, differ: 0 }],
      oneEnd: [{ label: text, missing: text }],
      notSeen: [text],
      notLooked: [{ place: text, reason: text }],
      exclusions: [{ label: text, reason: text }],
      remarks: [{ place: text, text, at: 0, author: text }],
    };
  }

  it.each([
    '<script>alert(1)</script>',
    '"><img src=x onerror=alert(1)>',
    "' onmouseover='alert(1)",
    '</title><svg/onload=alert(1)>',
    '</style><script>alert(1)</script>',
    '<!--',
    ']]>',
    '&lt;b&gt;',
  ])('%j stays text everywhere', (text) => {
    const page = reportToHtml(filled(text), about);
    expect(elements(page)).toEqual(known);
    expect(page).toContain(escapeHtml(text));
    if (/["'<&]/.test(text)) expect(page.replaceAll(escapeHtml(text), '')).not.toContain(text);
    expect(page.match(/<!--/g)).toBe(null);
  });

  it('opens no element for any text', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (text) => {
        expect(elements(reportToHtml(filled(`<${text}>`), about))).toEqual(known);
      }),
      { numRuns: 60 },
    );
  });

  it('keeps a label of 10,000 characters whole', () => {
    const long = '1'.repeat(10_000);
    expect(reportToHtml(filled(long), about)).toContain(`label-found">${long}</bdi>`);
  });

  it('replaces characters that no page may hold', () => {
    expect(escapeHtml('a\0b\u0007c\u009fd\te\nf')).toBe('a\ufffdb\ufffdc\ufffdd\te\nf');
  });

  it('can be read back: undoing the escape gives the text', () => {
    const undo = (text: string) =>
      text.replace(
        /&(amp|lt|gt|quot|#39|#96);/g,
        (all) => ({ '&amp;': '&', '&lt;': '<', '&gt;': '>', '&quot;': '"', '&#39;': "'", '&#96;': '`' })[all] ?? all,
      );
    fc.assert(
      fc.property(fc.string({ unit: fc.constantFrom(...'&<>"\'`;#39ampltg aé') }), (text) => {
        expect(undo(escapeHtml(text))).toBe(text);
      }),
    );
  });
});
