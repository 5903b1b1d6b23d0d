// The looks of a workbook's cells with those of amended cells behind them: each is the cell's own with a red tint, and
// struck through where the row is gone. What was there keeps its number and its bytes (ECMA-376 part 1, 18.8).
import { attributeOf, type Splice, scanXml, spliced, withAttribute } from '../xml.ts';

export type Mark = 'changed' | 'removed';

/** A tint stands in the cell's own look, which a spreadsheet moves with the cell when rows are sorted. */
export const TINT = 'FFF9D9D4';

interface Element {
  at: number;
  /** Where its content begins. */
  inside: number;
  end: number;
}

interface Group extends Element {
  /** Where it closes; its own parts stand before. */
  closeAt: number;
  parts: Element[];
}

export interface Marks {
  /** @param base Number of the cell's own look; null for none. @returns null where the file has no looks at all. */
  marked(base: number | null, mark: Mark): number | null;
  /** The part with all that was asked for. */
  xml(): string;
}

export function createMarks(xml: string): Marks {
  const groups = findGroups(xml);
  const [fonts, fills, looks] = ['fonts', 'fills', 'cellXfs'].map((name) => groups.get(name));
  const made = new Map<string, number>();
  const added = { fonts: [] as string[], fills: [] as string[], cellXfs: [] as string[] };
  const struck = new Map<string, number>();
  const prefix = /<(\w+:)?styleSheet\b/.exec(xml)?.[1] ?? '';

  function tint(): number {
    if (added.fills.length === 0) {
      const solid = `<${prefix}patternFill patternType="solid"><${prefix}fgColor rgb="${TINT}"/><${prefix}bgColor indexed="64"/>`;
      added.fills.push(`<${prefix}fill>${solid}</${prefix}patternFill></${prefix}fill>`);
    }
    return fills!.parts.length;
  }

  function struckFont(id: string): number {
    const known = struck.get(id);
    if (known !== undefined) return known;
    const font = fonts!.parts[Number(id)] ?? fonts!.parts[0]!;
    const text = xml.slice(font.at, font.end);
    const number = fonts!.parts.length + added.fonts.length;
    added.fonts.push(withStrike(text, prefix));
    struck.set(id, number);
    return number;
  }

  function marked(base: number | null, mark: Mark): number | null {
    const look = looks?.parts[base ?? 0];
    if (!look || !fonts?.parts[0] || !fills) return null;
    const key = `${base ?? 0} ${mark}`;
    const known = made.get(key);
    if (known !== undefined) return known;
    let open = xml.slice(look.at, look.inside);
    open = withAttribute(withAttribute(open, 'fillId', String(tint())), 'applyFill', '1');
    if (mark === 'removed') {
      const font = struckFont(attributeOf(open, 'fontId') ?? '0');
      open = withAttribute(withAttribute(open, 'fontId', String(font)), 'applyFont', '1');
    }
    const number = looks!.parts.length + added.cellXfs.length;
    added.cellXfs.push(open + xml.slice(look.inside, look.end));
    made.set(key, number);
    return number;
  }

  return {
    marked,
    xml() {
      const splices = (['fonts', 'fills', 'cellXfs'] as const).flatMap((name) =>
        appended(xml, groups.get(name), added[name]),
      );
      return spliced(xml, splices);
    },
  };
}

function appended(xml: string, group: Group | undefined, parts: readonly string[]): Splice[] {
  if (!group || parts.length === 0) return [];
  const open = xml.slice(group.at, group.inside);
  const count = / count=/.test(open) ? withAttribute(open, 'count', String(group.parts.length + parts.length)) : open;
  return [
    { at: group.at, end: group.inside, text: count },
    { at: group.closeAt, end: group.closeAt, text: parts.join('') },
  ];
}

/** Bold and italic stand before it, all else behind it. */
function withStrike(font: string, prefix: string): string {
  const plain = font.replace(/<(?:\w+:)?strike\b[^>]*\/>/, '');
  const open = /^<[^>]*>(?:<(?:\w+:)?[bi](?:\s[^>]*)?\/>)*/.exec(plain)?.[0] ?? '';
  if (open.endsWith('/>') && open.length === plain.length)
    return `${open.slice(0, -2)}><${prefix}strike/></${prefix}font>`;
  return `${open}<${prefix}strike/>${plain.slice(open.length)}`;
}

/** The lists of fonts, fills and looks, with where each of their parts stands. */
function findGroups(xml: string): Map<string, Group> {
  const groups = new Map<string, Group>();
  let group: Group | null = null;
  let part: Element | null = null;
  let depth = 0;
  scanXml(xml, {
    open(name, _, at, end) {
      depth += 1;
      if (depth === 2 && /^(fonts|fills|cellXfs)$/.test(name)) {
        group = { at, inside: end, end, closeAt: end, parts: [] };
        groups.set(name, group);
      } else if (depth === 3 && group) part = { at, inside: end, end };
    },
    text: () => undefined,
    close(_, at, end) {
      if (depth === 3 && group && part) {
        group.parts.push({ ...part, end });
        part = null;
      } else if (depth === 2 && group) {
        group.closeAt = at;
        group.end = end;
        group = null;
      }
      depth -= 1;
    },
  });
  return groups;
}
