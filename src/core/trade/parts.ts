// Small things between a plug and a jack as the trade meets them: their own plug, their sockets and tails. Shapes to begin
// a description with; a person may change every one. Which pin goes where is not told here.
import type { Direction, Form, Leg, Signal } from './kinds.ts';

export interface PartSocket {
  label: string;
  connector: string;
  leg?: Leg;
  direction?: Direction;
  signal?: Signal;
}

export interface PartShape {
  id: string;
  form: Form;
  /** In the trade's words, the plug in this jack first. */
  name: string;
  /** Connector of the plug that sits in the jack. */
  plug: string;
  sockets: readonly PartSocket[];
  tails: readonly PartSocket[];
  source: string;
}

const COMMON = 'common practice, no source';
const legs = (connector: string): PartSocket[] => [
  { label: 'L', connector, leg: 'left' },
  { label: 'R', connector, leg: 'right' },
];
const numbered = (count: number, connector: string): PartSocket[] =>
  Array.from({ length: count }, (_, i) => ({ label: String(i + 1), connector }));

/** The commonest first. Eight channels on a 25-way D-sub: AES59-2012. */
export const PART_SHAPES: readonly PartShape[] = [
  shape('rj-2xlr', 'breakout', 'RJ45 to 2 XLR, left and right', 'RJ45', legs('XLR'), []),
  shape('rj-2xlr-tails', 'breakout', 'RJ45 to 2 XLR plugs on tails', 'RJ45', [], legs('XLR')),
  shape(
    'rj-minijack',
    'adapter',
    'RJ45 to mini-jack',
    'RJ45',
    [{ label: 'ST', connector: 'mini-jack', leg: 'both' }],
    [],
  ),
  shape('rj-xlr', 'adapter', 'RJ45 to XLR', 'RJ45', [{ label: 'X', connector: 'XLR', leg: 'mono' }], []),
  shape('xlr-trs', 'adapter', 'XLR to jack', 'XLR', [{ label: 'J', connector: 'TRS', leg: 'mono' }], []),
  shape('xlr-y', 'split', 'XLR split in two', 'XLR', numbered(2, 'XLR'), []),
  shape('xlr-pad', 'pad', 'Pad in an XLR barrel', 'XLR', [{ label: 'IN', connector: 'XLR', leg: 'mono' }], []),
  shape('minijack-2rca', 'pigtail', 'Mini-jack to 2 RCA', 'mini-jack', legs('RCA'), []),
  shape(
    'minijack-sum',
    'keyed-adapter',
    'Mini-jack, summing, to XLR',
    'XLR',
    [{ label: 'ST', connector: 'mini-jack', leg: 'both' }],
    [],
  ),
  shape(
    'db25-8xlr',
    'breakout',
    'D-sub 25 to 8 XLR',
    'D-sub 25',
    numbered(8, 'XLR'),
    [],
    'AES59-2012, eight channels on a 25-way D-sub',
  ),
  shape('rj-y', 'split', 'RJ45 split in two', 'RJ45', numbered(2, 'RJ45'), []),
  shape('bnc-t', 'mult', 'BNC tee', 'BNC', numbered(2, 'BNC'), []),
];

function shape(
  id: string,
  form: Form,
  name: string,
  plug: string,
  sockets: PartSocket[],
  tails: PartSocket[],
  source = COMMON,
): PartShape {
  return { id, form, name, plug, sockets, tails, source };
}

/** Forms that hang between a plug and a jack, in the words of the trade. */
export const PART_FORMS: readonly { form: Form; words: string }[] = [
  { form: 'adapter', words: 'Adapter' },
  { form: 'keyed-adapter', words: 'Keyed adapter' },
  { form: 'pigtail', words: 'Pigtail' },
  { form: 'breakout', words: 'Breakout' },
  { form: 'pad', words: 'Pad' },
  { form: 'split', words: 'Split' },
  { form: 'patch-lead', words: 'Patch lead' },
  { form: 'mult', words: 'Mult' },
];

const SHORT: Partial<Record<Form, string>> = {
  adapter: 'adapter',
  'keyed-adapter': 'adapter',
  pigtail: 'tail',
  breakout: 'tail',
  pad: 'pad',
  split: 'split',
  'patch-lead': 'lead',
  mult: 'mult',
};

/**
 * The name of one that bears no label: place and form, so that two phones that never met give the same.
 * @param at Its jack in words: `SW1 P03`.
 */
export function partToName(at: string, form: Form): string {
  return `${at} ${SHORT[form] ?? form}`;
}
