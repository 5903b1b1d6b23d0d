// What a column may mean, in words, for each kind of list: the choices of whoever sets a column by hand. The reader's own
// words for headers stand in columns.ts.
import type { ListKind } from './readTypes.ts';

const SIDE: readonly [part: string, words: string][] = [
  ['', 'end: place, unit and jack in one'],
  ['Location', 'location'],
  ['Room', 'room'],
  ['Rack', 'rack'],
  ['U', 'U'],
  ['Unit', 'unit'],
  ['Jack', 'jack'],
  ['Connector', 'connector'],
];
const side = (key: string, words: string) =>
  SIDE.map(([part, name]): [string, string] => [key + part, part === '' ? `${words} ${name}` : `${words} ${name}`]);

/** Meanings in the order in which they are offered. */
export const MEANINGS: Record<ListKind, readonly [meaning: string, words: string][]> = {
  cables: [
    ['number', 'Cable number'],
    ...side('from', 'From'),
    ...side('to', 'To'),
    ['signal', 'Signal'],
    ['circuit', 'Circuit'],
    ['cableType', 'Cable type'],
    ['colour', 'Colour'],
    ['length', 'Length'],
    ['leg', 'Left or right'],
    ['status', 'Status'],
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
    ['height', 'Height in U'],
    ['mounted', 'Mounted front or rear'],
    ['jacks', 'Jacks'],
    ['layout', 'Arrangement of the jacks'],
    ['jackFace', 'Face with the jacks'],
    ['description', 'Description'],
    ['address', 'Address'],
    ['serial', 'Serial number'],
    ['mac', 'Hardware address'],
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
  ],
  racks: [
    ['rack', 'Rack'],
    ['room', 'Room'],
    ['height', 'Height in U'],
    ['numbering', 'Numbered from'],
  ],
};

export function meaningToWords(kind: ListKind, meaning: string): string {
  return MEANINGS[kind].find(([one]) => one === meaning)?.[1] ?? meaning;
}
