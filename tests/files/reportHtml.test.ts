// One page of a report: counts, order, and texts that try to be more than text. Hostile texts are invented.
import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { escapeHtml } from '../../src/files/reportHtml.ts';
import { AT, line, report, reportToHtml, undecided } from './reportFixture.ts';

const ABOUT = { madeAt: AT, version: '1.0.0' };

/** Names of all tags in the page, in order. */
const tagsOf = (html: string) => [...html.matchAll(/<\/?([a-z!][a-z0-9]*)/gi)].map(([, name]) => name!.toLowerCase());

const ALLOWED = new Set(
  '!doctype html head meta title style body header footer section article h1 h2 h3 p dl div dt dd table thead tbody tr th td span strong ul li'.split(
    ' ',
  ),
);

test('The page says the counts of the reconciliation and nothing else', () => {
  const html = reportToHtml(report(), ABOUT);
  expect(html).toContain('Of 6 cables, <strong>2 are where the plan says, at both ends.</strong>');
  expect(html).toContain('Looked at 7 of 10 jacks. Nothing is known about the other 3.');
  expect(html).toContain('<td>All in scope</td><td class="number">6</td>');
  expect(html).toContain('5001');
  expect(html).toContain('belongs to the telephone carrier');
  expect(html).toContain('by eye, 25 Nov 2026, 10:43, I. Halloran');
});

test('The six counts of cables add up to the cables in scope', () => {
  const html = reportToHtml(report(), ABOUT);
  const cables = html.slice(html.indexOf('<h2>Cables</h2>'), html.indexOf('<h2>Differences by severity</h2>'));
  const numbers = [...cables.matchAll(/class="number">(\d+)</g)].map(([, n]) => Number(n));
  expect(numbers.slice(0, -1).reduce((a, b) => a + b, 0)).toBe(numbers.at(-1));
});

test('Hazards stand before other differences, with the word and the order', () => {
  const hazard = line({
    number: 2,
    severity: 'equipment',
    severityWords: 'Hazard to equipment',
    title: 'PoE and microphone on one plug',
    order: 'Leave it as it is; tell the chief engineer.',
  });
  const html = reportToHtml(report({ lines: [line(), hazard] }), ABOUT);
  expect(html.indexOf('PoE and microphone')).toBeLessThan(html.indexOf('Label not in its planned'));
  expect(html).toContain('<span class="red">Hazard.</span>');
  expect(html).toContain('<strong>Leave it as it is; tell the chief engineer.</strong>');
});

test('Every place that was not looked at is in the page with its reason', () => {
  const html = reportToHtml(report(), ABOUT);
  expect(html).toContain(
    '<td>not looked at</td><td class="number">2</td><td><span><span class="name">MIO31 NET</span></span><span>, <span class="name">WP2 J2</span></span></td>',
  );
  expect(html).toContain('could not be seen: behind furniture');
});

test('An audit without differences does not claim that all is well', () => {
  const html = reportToHtml(report({ lines: [], counts: [] }), ABOUT);
  expect(html).toContain('Nothing is known about what was not looked at');
});

test('The page holds no script, loads nothing and links nowhere', () => {
  const html = reportToHtml(report(), ABOUT);
  expect(html).not.toMatch(/<script|javascript:|<link|<img|<iframe|href=|src=|url\(|@import/i);
  expect(html).toContain("default-src 'none'");
});

test('Whatever labels, notes and names hold, the page has only its own tags', () => {
  const hostile = fc.oneof(
    fc.string({ unit: 'grapheme', maxLength: 40 }),
    fc.constantFrom(
      '<script>alert(1)</script>',
      '"><img src=x onerror=alert(1)>',
      "' onmouseover='x",
      '</style><b>',
      '&lt;',
    ),
  );
  fc.assert(
    fc.property(hostile, hostile, hostile, (a, b, c) => {
      const html = reportToHtml(
        report({
          name: a,
          station: b,
          people: [c],
          lines: [line({ title: a, line: b, found: c, plan: a, places: [b], notes: [c], order: a })],
          exclusions: [{ label: a, reason: b }],
          remarks: [{ place: a, text: b, at: AT, author: c }],
          notLooked: [{ place: a, reason: b }],
          oneEnd: [{ label: c, missing: a }],
        }),
        ABOUT,
      );
      expect(tagsOf(html).filter((tag) => !ALLOWED.has(tag))).toEqual([]);
      expect(html).not.toMatch(/<[^>]*\son\w+=/i);
    }),
    { numRuns: 200 },
  );
});

test('Marks that hide or reorder text are written out', () => {
  // U+202E right-to-left override and U+200B zero width space, from the Unicode Character Database.
  expect(escapeHtml('10\u202E01\u200B')).toBe('10[U+202E]01[U+200B]');
  expect(escapeHtml('two\nlines')).toBe('two lines');
});

test('The same report and the same clock give the same bytes', () => {
  expect(reportToHtml(report(), ABOUT)).toBe(reportToHtml(report(), ABOUT));
});

test('tells the causes with the numbers they cover, hostile labels in them as text', () => {
  const first = line({ id: 'a', number: 1 });
  const cause = {
    id: 'c',
    kind: 'row-shifted' as const,
    severity: 'service' as const,
    severityWords: 'Service',
    certainty: 'Probable',
    title: 'Row shifted',
    line: '3 cables are 1 jack further on: <b>1035</b>.',
    explains: ['b', 'a'],
    explainsWords: 'explains 2 of 2',
    leftover: [],
    against: [],
    predicts: [],
    rivals: [],
    look: null,
    tried: [],
    drawing: null,
    judging: {
      key: 'c',
      about: 'Row shifted',
      takes: [{ as: null, words: 'Row shifted' }],
      evidence: { facts: [], known: [], places: [], looks: [], certainty: 'probable' as const },
      said: [{ event: 'e', words: 'Accepted: row shifted', by: '<i>M. Okafor</i>', at: AT, reason: null }],
      disputed: false,
    },
    reopened: [],
    decision: undecided({ type: 'cause', id: 'c' }),
  };
  const lines = [first, line({ id: 'b', number: 2 })];
  const page = reportToHtml(
    report({
      lines,
      explained: { causes: [cause], nextLook: null, alone: [], exact: true, refused: [], reopened: [] },
    }),
    ABOUT,
  );
  expect(page).toContain('Row shifted.</strong> Probable. 3 cables are 1 jack further on: &lt;b&gt;1035&lt;/b&gt;.');
  expect(page).toContain('No. 1, 2');
  expect(page).toContain('Accepted: row shifted. &lt;i&gt;M. Okafor&lt;/i&gt;');
});

test('Lash-ups stand with their reason and their day, cables of many pairs with what is known of them', () => {
  const html = reportToHtml(
    report({
      changes: [
        {
          place: 'SW1 P09',
          label: '1003',
          reason: 'P03 is <worn>',
          until: '1 December',
          author: 'I. Halloran',
          at: AT,
        },
      ],
      pairs: [{ label: '6001', words: '25 pairs. 25 landed by colour, not proven.' }],
    }),
    ABOUT,
  );
  expect(html).toContain('Against the plan on purpose, and lash-ups');
  expect(html).toContain('P03 is &lt;worn&gt;');
  expect(html).toContain('1 December');
  expect(html).toContain('25 landed by colour, not proven.');
  expect(reportToHtml(report(), ABOUT)).not.toContain('lash-ups');
});

test('Decisions stand with name and reason, once for all that a cause covers, and what has none is counted', () => {
  const said = { event: 'e', words: 'Leave it', by: 'M. Okafor', at: AT, reason: 'until the <new> desk comes' };
  const decision = { ...undecided({ type: 'cause', id: 'c' }), choice: 'leave' as const, said: [said] };
  const lines = [line({ id: 'a', number: 1, decision }), line({ id: 'b', number: 2, decision }), line({ number: 3 })];
  const amendments = {
    ends: [
      {
        isCable: true,
        label: '1003',
        end: 'to end',
        from: 'SW1 P03',
        to: 'SW1 P08',
        by: 'L. Brandt',
        reason: 'moved for good',
      },
    ],
    byHand: [{ difference: 'b', why: 'the labels are wrong, not the plan', by: 'L. Brandt', reason: '' }],
  };
  const past = [{ ...said, event: 'f', about: 'SW1 P09: 1009 is here.' }];
  const html = reportToHtml(report({ lines, undecided: 1, amendments, past }), ABOUT);
  expect(html).toContain('2 of 3 differences are decided. 1 has no decision yet.');
  expect(html).toContain('<td>No. 1, 2</td><td>Leave it</td>');
  expect(html).toContain('until the &lt;new&gt; desk comes');
  expect(html).toContain(
    '<td><span class="label">1003</span> to end</td><td>SW1 P03</td><td>SW1 P08</td><td>L. Brandt</td>',
  );
  expect(html).toContain('the labels are wrong, not the plan');
  expect(html).toContain('SW1 P09: 1009 is here.');
});

test('Two people that do not agree are both named', () => {
  const said = (by: string, words: string) => ({ event: by, words, by, at: AT, reason: null });
  const both = [said('M. Okafor', 'Fix the wiring'), said('L. Brandt', 'Leave it')];
  const decision = { ...undecided({ type: 'discrepancy', id: 'a' }), disputed: true, said: both };
  const html = reportToHtml(report({ lines: [line({ decision })] }), ABOUT);
  expect(html).toContain('No decision yet on 1 difference, 1 of them because two people do not agree.');
  expect(html).toContain('Fix the wiring (not agreed)');
  expect(html).toContain('L. Brandt');
});
