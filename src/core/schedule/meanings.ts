// What a column may mean, in words, for each kind of list: the choices of whoever sets a column by hand. The reader's own
// words for headers stand in columns.ts.

export type ListKind = 'cables' | 'units' | 'jacks' | 'racks' | 'circuits';

const SIDE: readonly [part: string, words: string][] = [
  ['', 'end: place, unit and jack in one'],
  ['Location', 'location'],
  ['Room', 'room'],
  ['Rack', 'rack'],
  ['U', 'U'],
  ['Unit', 'unit'],
  ['Jack', 'jack'],
  ['Row', 'row of the block'],
  ['Pair', 'pair of the block'],
  ['Connector', 'connector'],
];
const side = (key: string, words: string) =>
  SIDE.map(([part, name]): [string, string] => [key + part, part === '' ? `${words} ${name}` : `${words} ${name}`]);

/** Panels between the ends of a row, and its further ends. */
const stations = (key: string, words: string, numbers: readonly number[]) =>
  numbers.flatMap((n): [string, string][] => [
    [`${key}${n}`, `${words} ${n}: unit and jack in one`],
    [`${key}${n}Unit`, `${words} ${n} unit`],
    [`${key}${n}Jack`, `${words} ${n} jack`],
  ]);

/** Meanings in the order in which they are offered. */
export const MEANINGS: Record<ListKind, readonly [meaning: string, words: string][]> = {
  cables: [
    ['number', 'Cable number'],
    ...side('from', 'From'),
    ...side('to', 'To'),
    ...stations('panel', 'Panel', [1, 2, 3, 4]),
    ...stations('to', 'To', [2, 3, 4]),
    ['endMark', 'Which end this row is'],
    ['fromSlot', 'From card slot'],
    ['toSlot', 'To card slot'],
    ['signal', 'Signal'],
    ['circuit', 'Circuit'],
    ['cableType', 'Cable type'],
    ['colour', 'Colour'],
    ['length', 'Length'],
    ['leg', 'Left or right'],
    ['status', 'Status'],
    ['onAir', 'On air'],
    ['via', 'Via'],
    ['notes', 'Notes'],
    ['phantom', 'Phantom'],
    ['gain', 'Gain'],
    ['microphone', 'Microphone'],
    ['name', 'Source name'],
    ['channel', 'Channel number'],
  ],
  units: [
    ['unit', 'Unit'],
    ['room', 'Room'],
    ['rack', 'Rack'],
    ['u', 'U'],
    ['uTop', 'Top U'],
    ['height', 'Height in U'],
    ['mounted', 'Mounted front or rear'],
    ['jacks', 'Jacks'],
    ['layout', 'Arrangement of the jacks'],
    ['jackFace', 'Face with the jacks'],
    ['description', 'Description'],
    ['address', 'Address'],
    ['serial', 'Serial number'],
    ['mac', 'MAC address'],
    ['mask', 'Subnet mask'],
    ['gateway', 'Gateway'],
    ['host', 'Host name'],
    ['firmware', 'Firmware'],
    ['maker', 'Maker'],
    ['model', 'Model'],
    ['notes', 'Notes'],
  ],
  jacks: [
    ['unit', 'Unit'],
    ['room', 'Room'],
    ['jack', 'Jack'],
    ['connector', 'Connector'],
    ['direction', 'Direction'],
    ['signal', 'Signal'],
    ['leg', 'Left or right'],
    ['spare', 'Spare'],
    ['mult', 'Mult'],
    ['phantom', 'Phantom'],
    ['gain', 'Gain'],
    ['microphone', 'Microphone'],
    ['name', 'Source name'],
    ['channel', 'Channel number'],
    ['input', 'Number of the input or output'],
    ['legend', 'Printed legend'],
    ['strip', 'Strip text'],
    ['row', 'Row'],
    ['pair', 'Pair'],
    ['tip', 'Tip colour'],
    ['ring', 'Ring colour'],
    ['cable', 'Cable behind it'],
    ['cablePair', 'Pair of the cable'],
    ['normalled', 'Normalled to'],
    ['normal', 'Kind of normal'],
    ['address', 'Address of the unit'],
    ['longName', 'Long name'],
    ['multicast', 'Multicast address'],
    ['format', 'Format'],
    ['pad', 'Pad'],
    ['mode', 'Mode'],
    ['logic', 'Logic port'],
    ['studios', 'Studios allowed'],
    ['share', 'Share'],
    ['fader', 'Fader default'],
    ['backfeed', 'Backfeed or mix-minus'],
    ['subscribed', 'Subscribed channel'],
    ['notes', 'Notes'],
  ],
  racks: [
    ['rack', 'Rack'],
    ['room', 'Room'],
    ['height', 'Height in U'],
    ['numbering', 'Numbered from'],
  ],
  circuits: [
    ['circuit', 'Circuit'],
    ['role', 'Main or standby'],
    ['carrier', "Carrier's number"],
    ['hops', 'Cables it runs over'],
    ['notes', 'Notes'],
  ],
};

export function meaningToWords(kind: ListKind, meaning: string): string {
  return MEANINGS[kind].find(([one]) => one === meaning)?.[1] ?? meaning;
}
