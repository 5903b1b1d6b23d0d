// Geometry of the drawings and contrast of the palette, checked against published figures where there are any.
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pooledStrokes, strokePositions } from '../../../src/ui/parts/cable-strokes.tsx';
import {
  cloudPath,
  contrastRatio,
  followWindow,
  HOLES_MM,
  outlineLoops,
  PANEL_MM,
  seriesOf,
  spreadRows,
  UNIT_MM,
  unitSpanMm,
} from '../../../src/ui/parts/geometry.ts';
import { type JackMark, jackName, rangePlaces, visibleMark } from '../../../src/ui/parts/marks.ts';
import { socketKind } from '../../../src/ui/parts/socket.tsx';

describe('the rack to scale', () => {
  it('uses the heights, width and hole distances of IEC 60297-3-100', () => {
    expect(UNIT_MM).toBe(44.45);
    expect(PANEL_MM).toBe(482.6);
    const [a, b, c] = HOLES_MM;
    expect(b - a).toBeCloseTo(15.875, 6);
    expect(c - b).toBeCloseTo(15.875, 6);
    expect(a + UNIT_MM - c).toBeCloseTo(12.7, 6);
  });

  it('puts U1 at the floor when numbered from the bottom and at the top when numbered from the top', () => {
    // Common practice, no source for the direction; heights from IEC 60297-3-100.
    expect(unitSpanMm({ u: 1, heightU: 1 }, 42, 'bottom-up').top).toBeCloseTo(41 * 44.45, 6);
    expect(unitSpanMm({ u: 34, heightU: 2 }, 42, 'bottom-up').top).toBeCloseTo(7 * 44.45, 6);
    expect(unitSpanMm({ u: 1, heightU: 3 }, 42, 'top-down')).toEqual({ top: 0, height: 3 * 44.45 });
  });

  it('never lets two leaders cross, however the units are crowded', () => {
    const places = fc.array(fc.double({ min: 0, max: 600, noNaN: true }), { minLength: 1, maxLength: 45 });
    fc.assert(
      fc.property(places, (some) => {
        const wanted = [...some].sort((x, y) => x - y);
        const rows = spreadRows(wanted, 56, 0, 600);
        expect(rows).toHaveLength(wanted.length);
        expect(rows[0]).toBeGreaterThanOrEqual(28 - 1e-6);
        for (let i = 1; i < rows.length; i++) {
          // Both ends in the same order and the same run between them: straight lines cannot cross.
          expect(rows[i]! - rows[i - 1]!).toBeGreaterThanOrEqual(56 - 1e-6);
          expect(wanted[i]!).toBeGreaterThanOrEqual(wanted[i - 1]!);
        }
        if (wanted.length * 56 <= 600) expect(rows.at(-1)).toBeLessThanOrEqual(600 - 28 + 1e-6);
      }),
    );
  });

  it('leaves rows where they are wanted when there is room', () => {
    expect(spreadRows([100, 200, 400], 56, 0, 600)).toEqual([100, 200, 400]);
  });
});

describe('the window that follows', () => {
  it('always shows the current jack, stays on the face and keeps its size', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 96 }), fc.integer({ min: 1, max: 12 }), fc.nat(), (count, size, n) => {
        const current = n % count;
        const view = followWindow(count, size, current);
        expect(view.size).toBe(Math.min(size, count));
        expect(view.start).toBeGreaterThanOrEqual(0);
        expect(view.start + view.size).toBeLessThanOrEqual(count);
        expect(current).toBeGreaterThanOrEqual(view.start);
        expect(current).toBeLessThan(view.start + view.size);
      }),
    );
  });

  it('shows a neighbour on both sides of a jack in the middle of 48', () => {
    expect(followWindow(48, 3, 30)).toEqual({ start: 29, size: 3 });
    expect(followWindow(48, 3, 0).start).toBe(0);
    expect(followWindow(48, 3, 47).start).toBe(45);
  });
});

const jack = (n: number, more: Partial<JackMark> = {}): JackMark => {
  const label = `P${String(n).padStart(2, '0')}`;
  return { place: `SW1/${label}`, label, state: 'unseen', ...more };
};
const oddOverEven = [
  Array.from({ length: 12 }, (_, i) => jack(2 * i + 1)),
  Array.from({ length: 12 }, (_, i) => jack(2 * i + 2)),
];

describe('a row sweep', () => {
  it('runs in the order of the numbers across both rows, whichever end was touched first', () => {
    const range = { first: 'SW1/P08', last: 'SW1/P23' };
    const places = rangePlaces(oddOverEven, range);
    expect(places).toHaveLength(16);
    expect(places[1]).toBe('SW1/P09');
    expect(rangePlaces(oddOverEven, { first: range.last, last: range.first })).toEqual(places);
    expect(rangePlaces(oddOverEven, { ...range, without: ['SW1/P14'] })).toHaveLength(15);
  });

  it('is closed in by one line, ragged where odd over even makes it so', () => {
    const inside = new Set(rangePlaces(oddOverEven, { first: 'SW1/P08', last: 'SW1/P23' }));
    const loops = outlineLoops((c, r) => inside.has(oddOverEven[r]![c]!.place), 12, 2);
    expect(loops).toEqual([
      [
        [4, 0],
        [12, 0],
        [12, 1],
        [11, 1],
        [11, 2],
        [3, 2],
        [3, 1],
        [4, 1],
      ],
    ]);
  });

  it('encloses exactly the chosen cells', () => {
    const grids = fc.array(fc.array(fc.boolean(), { minLength: 6, maxLength: 6 }), { minLength: 1, maxLength: 3 });
    fc.assert(
      fc.property(grids, (grid) => {
        const loops = outlineLoops((c, r) => grid[r]![c]!, 6, grid.length);
        const area = loops.reduce((sum, loop) => sum + signedArea(loop), 0);
        expect(area).toBe(grid.flat().filter(Boolean).length);
      }),
    );
  });
});

function signedArea(loop: readonly (readonly [number, number])[]): number {
  return loop.reduce((sum, [x, y], i) => {
    const [nx, ny] = loop[(i + 1) % loop.length]!;
    return sum + (x * ny - nx * y) / 2;
  }, 0);
}

describe('names and words', () => {
  it('names a jack by what is printed, planned and seen', () => {
    expect(jackName(jack(3, { plan: '1003' }))).toBe('P03, plan 1003, not looked at yet');
    expect(jackName(jack(3, { plan: '1003', found: '1004', state: 'label', mark: 'differs' }))).toBe(
      'P03, plan 1003, found 1004, differs',
    );
  });

  it('says and shows nothing of the plan in a blind audit, but keeps a hazard', () => {
    const seen = jack(3, { plan: '1003', predicted: '1004', found: '1009', state: 'label', mark: 'differs' });
    expect(jackName(seen, true)).toBe('P03, found 1009');
    expect(visibleMark(seen, true)).toMatchObject({ plan: undefined, predicted: undefined, mark: undefined });
    expect(jackName(jack(3, { state: 'plugged', mark: 'hazard' }), true)).toContain('hazard');
  });

  it('draws the outline that the connector calls for and a plain box for a word it does not know', () => {
    const drawn = ['RJ45', 'XLR-3F', '6.35 mm jack', 'BNC', 'DB-25', 'screw terminal', 'fibre LC', 'tail T07'];
    expect(drawn.map(socketKind)).toEqual(['network', 'xlr', 'plug', 'bnc', 'dsub', 'block', 'fibre', 'plain']);
    expect(socketKind(undefined)).toBe('plain');
  });
});

describe('strokes', () => {
  it('leaves a gap where the number series changes and stays on the sheet', () => {
    const labels = ['1001', '1002', '2001', '2002'];
    expect(seriesOf('1001')).not.toBe(seriesOf('2001'));
    const { xs, starts } = strokePositions(labels, 358);
    expect(starts).toEqual([0, 2]);
    expect(xs[2]! - xs[1]!).toBeGreaterThan(xs[1]! - xs[0]!);
    const many = Array.from({ length: 60 }, (_, i) => String(1001 + i * 137));
    for (const x of strokePositions(many, 358).xs) expect(x).toBeLessThanOrEqual(358);
  });

  it('lets the worst of pooled jacks decide, so that no difference is lost', () => {
    const jacks = Array.from({ length: 1000 }, (_, i) => ({
      place: `p${i}`,
      state: i === 777 ? ('differs' as const) : ('as-planned' as const),
    }));
    const { strokes, each } = pooledStrokes(jacks, 100);
    expect(each).toBe(10);
    expect(strokes).toHaveLength(100);
    expect(strokes.filter((s) => s === 'differs')).toHaveLength(1);
    expect(strokes[77]).toBe('differs');
    const state = (...states: ('differs' | 'undecided' | 'not-seen' | 'as-planned')[]) =>
      pooledStrokes(
        states.map((one, i) => ({ place: `p${i}`, state: one })),
        1,
      ).strokes[0];
    expect(state('as-planned', 'not-seen', 'undecided')).toBe('undecided');
    expect(state('undecided', 'differs')).toBe('differs');
    expect(state('as-planned', 'not-seen')).toBe('not-seen');
  });

  it('closes a cloud in one path that ends where it began', () => {
    const path = cloudPath(10, 20, 110, 44, 11);
    expect(path.startsWith('M10 20A')).toBe(true);
    expect(path.endsWith('10 20Z')).toBe(true);
    expect(path.match(/M/g)).toHaveLength(1);
  });
});

describe('the palette', () => {
  const css = readFileSync(new URL('../../../src/ui/look/tokens.css', import.meta.url), 'utf8');
  const themeOf = (block: string) =>
    Object.fromEntries([...block.matchAll(/--([a-z-]+): (#[0-9a-f]{6})/g)].map((m) => [m[1]!, m[2]!]));
  const blocks = css.split(/\}\s/);
  const day = themeOf(blocks[0]!);
  const bySystem = themeOf(blocks.find((b) => b.includes('prefers-color-scheme'))!);
  const named = (theme: string) =>
    themeOf(blocks.find((b) => b.includes(`[data-theme="${theme}"]`) && b.includes('#'))!);
  const byHand = named('night');
  const themes = {
    day,
    night: { ...day, ...byHand },
    sunlight: { ...day, ...named('sunlight') },
    black: { ...day, ...named('black') },
  };

  it('measures contrast as WCAG 2 does: black on white is 21 to 1', () => {
    // WCAG 2.2, definition of contrast ratio: the range is 1 to 21.
    expect(contrastRatio('#000000', '#ffffff')).toBeCloseTo(21, 6);
    expect(contrastRatio('#777777', '#777777')).toBe(1);
  });

  it('has one night, by the system and by hand', () => {
    expect(byHand).toEqual(bySystem);
  });

  it.each([
    // Least ratios after WCAG 2.2, success criteria 1.4.3 (text 4.5) and 1.4.11 (lines 3).
    ['ink', 'ground', 4.5],
    ['ink', 'red-wash', 4.5],
    ['ink', 'recess', 4.5],
    ['graphite', 'ground', 4.5],
    ['graphite', 'recess', 4.5],
    ['red', 'ground', 4.5],
    ['red', 'red-wash', 4.5],
    ['red', 'recess', 4.5],
    ['blue', 'ground', 4.5],
    ['blue', 'recess', 4.5],
    ['primary-ink', 'primary-ground', 4.5],
    ['line', 'ground', 3],
    ['line', 'recess', 3],
    ['sign-yellow', 'sign-black', 3],
    ['finder-ink', 'finder-ground', 4.5],
    ['primary-edge', 'ground', 3],
  ])('keeps %s on %s at %d to 1 or better in every theme', (front, back, least) => {
    for (const [name, theme] of Object.entries(themes))
      expect(contrastRatio(theme[front]!, theme[back]!), name).toBeGreaterThanOrEqual(least);
  });

  it('knows every colour of the day in each of the other themes, so that none shines through', () => {
    for (const theme of ['sunlight', 'black'])
      expect(Object.keys(named(theme)).sort()).toEqual(Object.keys(day).sort());
    // The viewfinder's words are light by day already.
    expect(Object.keys(byHand).sort()).toEqual(
      Object.keys(day)
        .filter((name) => name !== 'finder-ink')
        .sort(),
    );
  });

  it('has in sunlight words and lines of 7 to 1 at least, and nothing lighter than the ground in the black', () => {
    // WCAG 2.2, success criterion 1.4.6 (enhanced): 7 to 1.
    const { sunlight, black } = themes;
    for (const front of ['ink', 'graphite', 'line', 'rule', 'red', 'blue'])
      for (const back of ['ground', 'recess', 'red-wash'])
        expect(contrastRatio(sunlight[front]!, sunlight[back]!), `${front} on ${back}`).toBeGreaterThanOrEqual(7);
    expect(black.ground).toBe('#000000');
    // Dim: less light than the night's ink. Invented bound.
    expect(contrastRatio(black.ink!, '#000000')).toBeLessThan(9);
  });

  it('has the measured ratios that the design page names', () => {
    // Figures of the project's own look page, computed there by the WCAG 2 formula.
    const ratio = (theme: Record<string, string>, front: string) =>
      Number(contrastRatio(theme[front]!, theme.ground!).toFixed(1));
    expect(['ink', 'graphite', 'line', 'red', 'blue'].map((c) => ratio(day, c))).toEqual([15.9, 6.4, 3.8, 6.0, 7.7]);
    expect(['ink', 'graphite', 'line', 'red', 'blue'].map((c) => ratio(byHand, c))).toEqual([13.3, 7.7, 4.7, 7.9, 9.1]);
  });
});
