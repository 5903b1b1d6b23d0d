// The document as a small tree of typed nodes: what a screen draws and what a page is written from, once for both. It
// holds texts that were spelled out and no markup; who draws it escapes them, and shows pictures and voices its own way.
import type { Block, Cell, Entry, Item, Picture, ReportDocument, Run, Table, Target, Voice } from './document.ts';
import { spelledOut } from './document.ts';

export type Tag =
  | 'header'
  | 'section'
  | 'article'
  | 'footer'
  | 'h1'
  | 'h2'
  | 'h3'
  | 'p'
  | 'span'
  | 'strong'
  | 'div'
  | 'dl'
  | 'dt'
  | 'dd'
  | 'ul'
  | 'ol'
  | 'li'
  | 'table'
  | 'thead'
  | 'tbody'
  | 'tr'
  | 'th'
  | 'td';

export interface Element {
  type: 'element';
  tag: Tag;
  attributes: Partial<Record<'class' | 'id' | 'scope' | 'role' | 'data-head' | 'aria-label', string>>;
  children: ReportNode[];
  /** What a reader on a screen opens from here. */
  opens?: Target;
}

/** More of the same, which a screen may show piece by piece, so many at once, and a page writes whole. */
export interface Many {
  type: 'many';
  nodes: Element[];
  atOnce: number;
}

export interface ShownPicture {
  picture: Picture;
  caption: ReportNode[];
}

export type ReportNode =
  | string
  | Element
  | Many
  | { type: 'pictures'; shown: ShownPicture[] }
  | { type: 'voice'; voice: Voice; words: ReportNode[] };

/** What a node reads, without its form. */
export function textOf(node: ReportNode): string {
  if (typeof node === 'string') return node;
  switch (node.type) {
    case 'element':
      return node.children.map(textOf).join('');
    case 'many':
      return node.nodes.map(textOf).join('');
    case 'pictures':
      return node.shown.map(({ caption }) => caption.map(textOf).join('')).join('');
    case 'voice':
      return node.words.map(textOf).join('');
  }
}

/** So many at once on a screen: more are slow to draw, and what stands behind them is hard to reach. */
const ENTRIES_AT_ONCE = 60;
const NAMES_AT_ONCE = 40;

/** Longer lists of jacks, labels and rows end in the number of the rest; differences never do. */
export const LISTED_AT_MOST = 200;

type When = (at: number) => string;

function el(
  tag: Tag,
  attributes: Element['attributes'],
  children: (ReportNode | null)[],
  opens?: Target | null,
): Element {
  const kept = children.filter((child) => child !== null);
  return { type: 'element', tag, attributes, children: kept, ...(opens ? { opens } : {}) };
}

interface ReportTree {
  head: Element;
  sections: { id: string; node: Element }[];
  foot: Element;
}

/** @param top The heading of the report's name: 1 on a page of its own, 2 where the screen has its own heading. */
export function reportTree(document: ReportDocument, top: 'h1' | 'h2'): ReportTree {
  const { when } = document;
  return {
    head: el('header', {}, [
      el('p', { class: 'quiet' }, inline(document.above, when)),
      el(top, {}, [spelledOut(document.name)]),
      ...document.lead.flatMap((block) => blockNodes(block, when)),
    ]),
    sections: document.sections.map(({ id, title, count, blocks }) => ({
      id,
      node: el('section', { id: `report-${id}`, 'aria-label': title }, [
        el('div', { class: 'head' }, [
          el('h2', {}, [title]),
          count === null ? null : el('span', { class: 'quiet' }, [count]),
        ]),
        ...blocks.flatMap((block) => blockNodes(block, when)),
      ]),
    })),
    foot: el(
      'footer',
      {},
      document.closing.flatMap((block) => blockNodes(block, when)),
    ),
  };
}

function blockNodes(block: Block, when: When): ReportNode[] {
  switch (block.type) {
    case 'heading':
      return [el('h3', {}, [spelledOut(block.text)])];
    case 'paragraph':
      return [el('p', block.tone === 'plain' ? {} : { class: block.tone }, inline(block.runs, when))];
    case 'caution':
      return [el('p', {}, [el('strong', {}, inline(block.runs, when))])];
    case 'facts':
      return [
        el(
          'dl',
          {},
          block.rows.map(({ name, value }) => el('div', {}, [el('dt', {}, [name]), el('dd', {}, inline(value, when))])),
        ),
      ];
    case 'table':
      return tableNodes(block.table, when);
    case 'list':
      return [
        el(
          block.ordered ? 'ol' : 'ul',
          {},
          block.items.map((item) => itemNode(item, when)),
        ),
      ];
    case 'labels':
      return [labelsNode(block.labels, block.as)];
    case 'entries':
      return [{ type: 'many', nodes: block.entries.map((entry) => entryNode(entry, when)), atOnce: ENTRIES_AT_ONCE }];
    case 'pictures':
      return [
        {
          type: 'pictures',
          shown: block.pictures.map((picture) => ({ picture, caption: inline(picture.caption, when) })),
        },
      ];
    case 'voices':
      return block.voices.map((voice) => ({ type: 'voice', voice, words: inline(voice.words, when) }));
  }
}

function inline(runs: readonly Run[], when: When): ReportNode[] {
  return runs.map((run) => runNode(run, when));
}

function runNode(run: Run, when: When): ReportNode {
  switch (run.type) {
    case 'text':
      return spelledOut(run.text);
    case 'time':
      return when(run.at);
    case 'strong':
      return el('strong', {}, [spelledOut(run.text)]);
    case 'quiet':
      return el('span', { class: 'quiet' }, [spelledOut(run.text)]);
    case 'hazard':
      return el('span', { class: 'red' }, [spelledOut(run.text)]);
    case 'name':
      return el('span', { class: 'name' }, [spelledOut(run.text)]);
    case 'label':
      return el('span', { class: run.as === 'found' ? 'label found' : 'label' }, [spelledOut(run.text)]);
  }
}

function itemNode({ badge, lines, opens }: Item, when: When): Element {
  const nodes = lines.map((line) => el('span', { class: 'line' }, inline(line, when)));
  return el('li', badge === null ? {} : { class: badge }, nodes, opens);
}

function entryNode({ number, badge, title, blocks }: Entry, when: When): Element {
  return el('article', { class: badge }, [
    el('h3', {}, [`No. ${number}: ${spelledOut(title)}`], { type: 'differences' }),
    ...blocks.flatMap((block) => blockNodes(block, when)),
  ]);
}

/** Where the paper is narrow each row stands as a block, every cell behind the name of its column; the roles stay. */
function tableNodes({ columns, rows, sum }: Table, when: When): ReportNode[] {
  const listed = rows.slice(0, LISTED_AT_MOST);
  const isNumbers = columns.slice(1).every(({ kind }) => kind === 'count');
  const rowNode = (cells: Cell[], attributes: Element['attributes']) =>
    el(
      'tr',
      { ...attributes, role: 'row' },
      cells.map((cell, i) => cellNode(cell, columns[i]?.name ?? '', when)),
    );
  const head = columns.map(({ name, kind }) =>
    el('th', { scope: 'col', role: 'columnheader', ...(kind === 'count' ? { class: 'number' } : {}) }, [name]),
  );
  const body = [...listed.map((cells) => rowNode(cells, {})), ...(sum ? [rowNode(sum, { class: 'sum' })] : [])];
  const rest = rows.length - listed.length;
  return [
    el('table', { role: 'table', ...(isNumbers ? {} : { class: 'stacks' }) }, [
      el('thead', { role: 'rowgroup' }, [el('tr', { role: 'row' }, head)]),
      el('tbody', { role: 'rowgroup' }, body),
    ]),
    ...(rest > 0 ? [el('p', {}, [`And ${rest} more.`])] : []),
  ];
}

function cellNode(cell: Cell, head: string, when: When): Element {
  const about = { role: 'cell', 'data-head': head };
  switch (cell.type) {
    case 'count':
      return el('td', { ...about, class: 'number' }, [String(cell.n)]);
    case 'words':
      return el('td', about, inline(cell.runs, when));
    case 'names':
      return el('td', about, nameNodes(cell.names));
  }
}

/** With a comma between each two, and at the end the number of the rest. */
function nameNodes(names: readonly string[]): ReportNode[] {
  const nodes = names
    .slice(0, LISTED_AT_MOST)
    .map((text, i) => el('span', {}, [i > 0 ? ', ' : null, el('span', { class: 'name' }, [spelledOut(text)])]));
  const rest = names.length - nodes.length;
  return [{ type: 'many', nodes, atOnce: NAMES_AT_ONCE }, ...(rest > 0 ? [` and ${rest} more`] : [])];
}

function labelsNode(labels: readonly string[], as: 'found' | 'plan'): Element {
  const listed = labels.slice(0, LISTED_AT_MOST);
  const rest = labels.length - listed.length;
  const boxes = listed.flatMap((text): ReportNode[] => [
    ' ',
    el('span', { class: as === 'found' ? 'label found' : 'label' }, [spelledOut(text)]),
  ]);
  return el('p', { class: 'labels' }, [...boxes.slice(1), rest > 0 ? ` and ${rest} more` : null]);
}
