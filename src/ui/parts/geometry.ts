// Pure geometry of the drawings: rack scale, the window that follows the current jack, leaders that never cross,
// clouds, range outlines, contrast. Numbers in, numbers and paths out; no DOM, no colours of its own.
import { PANEL_WIDTH_MM, RACK_UNIT_MM } from '../../core/trade/rack.ts';

/** Height of one rack unit and width of a front panel in mm (IEC 60297-3-100, EIA-310). */
export const UNIT_MM = RACK_UNIT_MM;
export const PANEL_MM = PANEL_WIDTH_MM;
/** Distances of the holes within one U, from its lower edge up: half of 12.7, then 15.875 twice (IEC 60297-3-100). */
export const HOLES_MM = [6.35, 22.225, 38.1] as const;

/** Top edge, in mm from the top of the rack, and height of a unit whose lowest number is `u`. */
export function unitSpanMm(
  unit: { u: number; heightU: number },
  rackU: number,
  numbering: 'bottom-up' | 'top-down',
): { top: number; height: number } {
  const above = numbering === 'bottom-up' ? rackU - (unit.u + unit.heightU - 1) : unit.u - 1;
  return { top: above * UNIT_MM, height: unit.heightU * UNIT_MM };
}

/** Middle of U number `u`, in mm from the top of the rack. */
export function uMiddleMm(u: number, rackU: number, numbering: 'bottom-up' | 'top-down'): number {
  return unitSpanMm({ u, heightU: 1 }, rackU, numbering).top + UNIT_MM / 2;
}

/**
 * First column of a window `size` wide over `count` columns so that `current` is never covered and has its
 * neighbours beside it where there are any. Columns before the first or after the last are never shown.
 */
export function followWindow(count: number, size: number, current: number): { start: number; size: number } {
  const width = Math.max(1, Math.min(size, count));
  const before = Math.floor((width - 1) / 2);
  const start = Math.max(0, Math.min(current - before, count - width));
  return { start, size: width };
}

/**
 * Centres for rows of height `row` beside points at `wanted` (ascending), each as near to its point as the others
 * allow: neighbours that would overlap are pooled and share their mean. The order of the rows is the order of the
 * points, so straight leaders between the two columns cannot cross.
 */
export function spreadRows(wanted: readonly number[], row: number, top: number, bottom: number): number[] {
  const pools: { sum: number; count: number; first: number }[] = [];
  wanted.forEach((y, i) => {
    pools.push({ sum: y - i * row, count: 1, first: i });
    for (let last = pools.at(-1)!, prev = pools.at(-2); prev && prev.sum / prev.count > last.sum / last.count; ) {
      pools.splice(-2, 2, { sum: prev.sum + last.sum, count: prev.count + last.count, first: prev.first });
      last = pools.at(-1)!;
      prev = pools.at(-2);
    }
  });
  const lowest = top + row / 2;
  const highest = Math.max(lowest, bottom - row / 2 - (wanted.length - 1) * row);
  return pools.flatMap((pool) => {
    const base = Math.min(Math.max(pool.sum / pool.count, lowest), highest);
    return Array.from({ length: pool.count }, (_, k) => base + (pool.first + k) * row);
  });
}

export type Point = readonly [x: number, y: number];

/** A leader: level out of the unit, straight to the row's height, level into the row. */
export function leaderPoints(fromY: number, toY: number, width: number, stub: number): Point[] {
  return [
    [0, fromY],
    [stub, fromY],
    [width - stub, toY],
    [width, toY],
  ];
}

export function pathOf(points: readonly Point[], closed = false): string {
  const text = points.map(([x, y], i) => `${i === 0 ? 'M' : 'L'}${round(x)} ${round(y)}`).join('');
  return closed ? `${text}Z` : text;
}

function round(n: number): number {
  return Math.round(n * 100) / 100;
}

/** A revision cloud: one closed path of outward bows, clockwise, with bows of about `bow` along each side. */
export function cloudPath(x: number, y: number, width: number, height: number, bow: number): string {
  const nx = Math.max(2, Math.round(width / bow));
  const ny = Math.max(2, Math.round(height / bow));
  const dx = width / nx;
  const dy = height / ny;
  const arcs: string[] = [`M${round(x)} ${round(y)}`];
  const arc = (toX: number, toY: number, step: number) => {
    const r = round(step * 0.56);
    arcs.push(`A${r} ${r} 0 0 1 ${round(toX)} ${round(toY)}`);
  };
  for (let i = 1; i <= nx; i++) arc(x + i * dx, y, dx);
  for (let i = 1; i <= ny; i++) arc(x + width, y + i * dy, dy);
  for (let i = nx - 1; i >= 0; i--) arc(x + i * dx, y + height, dx);
  for (let i = ny - 1; i >= 0; i--) arc(x, y + i * dy, dy);
  return `${arcs.join('')}Z`;
}

/** Where a column stands on a face: in groups of `group` with `gap` between them, as a face is punched. */
export function columnX(index: number, pitch: number, group: number, gap: number): number {
  return index * pitch + Math.floor(index / group) * gap;
}

/**
 * The outline of cells chosen in a grid of columns and rows: closed loops along the edges between chosen and not
 * chosen, clockwise. Ragged where the choice is ragged, one loop for one connected choice.
 */
export function outlineLoops(
  chosen: (column: number, row: number) => boolean,
  columns: number,
  rows: number,
): Point[][] {
  const next = new Map<string, Point[]>();
  const add = (from: Point, to: Point) => next.set(`${from}`, [...(next.get(`${from}`) ?? []), to]);
  const inside = (c: number, r: number) => c >= 0 && r >= 0 && c < columns && r < rows && chosen(c, r);
  for (let r = 0; r < rows; r++)
    for (let c = 0; c < columns; c++) {
      if (!inside(c, r)) continue;
      if (!inside(c, r - 1)) add([c, r], [c + 1, r]);
      if (!inside(c + 1, r)) add([c + 1, r], [c + 1, r + 1]);
      if (!inside(c, r + 1)) add([c + 1, r + 1], [c, r + 1]);
      if (!inside(c - 1, r)) add([c, r + 1], [c, r]);
    }
  const loops: Point[][] = [];
  for (;;) {
    const start = [...next.keys()].find((key) => next.get(key)!.length > 0);
    if (start === undefined) return loops;
    const loop: Point[] = [];
    let at = start;
    do {
      const to = next.get(at)!.shift()!;
      const [x, y] = at.split(',').map(Number) as [number, number];
      loop.push([x, y]);
      at = `${to}`;
    } while (at !== start);
    loops.push(loop.filter((p, i) => !straight(loop.at(i - 1)!, p, loop[(i + 1) % loop.length]!)));
  }
}

function straight(a: Point, b: Point, c: Point): boolean {
  return (a[0] === b[0] && b[0] === c[0]) || (a[1] === b[1] && b[1] === c[1]);
}

/** Numbers of one series follow each other; a gap is left in the strokes where the series changes. */
export function seriesOf(label: string): string {
  const digits = /(\d+)\D*$/.exec(label)?.[1];
  if (digits === undefined) return label;
  const head = label.slice(0, label.lastIndexOf(digits));
  return digits.length > 3 ? `${head}${digits.slice(0, -3)}` : head;
}

/** Relative luminance and contrast ratio after WCAG 2. */
export function contrastRatio(a: string, b: string): number {
  const [la, lb] = [luminance(a), luminance(b)];
  return (Math.max(la, lb) + 0.05) / (Math.min(la, lb) + 0.05);
}

function luminance(hex: string): number {
  const [r, g, b] = [1, 3, 5].map((at) => {
    const c = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
  }) as [number, number, number];
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}
