// The rows of lists of jacks: panels and strips, punch blocks, sources and destinations with their channels. What a list
// says beside a jack's own properties becomes a setting or a note of it; nothing is left out unsaid.
//
// Limits: A list of jacks asks about a cable that the cable list has elsewhere, and moves nothing.
import { textToPhantom } from '../../trade/phantom.ts';
import { textToSignal } from '../../trade/signals.ts';
import type { Columns } from '../columns.ts';
import { type ListRow, orAside, orBlank, splitNote, textToLabels } from '../readCells.ts';
import {
  isNothing,
  isUnknown,
  saysYes,
  textToDirection,
  textToLeg,
  toMicrophone,
  toOnOff,
  toPhantom,
} from '../words.ts';
import { type ListResult, readList, readWord } from './readListRows.ts';
import type { GuessKind, Notebook, RawJack, Table } from './readTypes.ts';

/** Columns whose cells are what the unit's page or knobs should show, and what each is called in a plan. */
const SETTINGS: readonly [string, string, (text: string) => string][] = [
  ['phantom', 'phantom', toPhantom],
  ['gain', 'gain', (text) => text],
  ['microphone', 'microphone', toMicrophone],
  ['name', 'name', (text) => text],
  ['channel', 'channel', (text) => text],
  ['input', 'input', (text) => text],
  ['longName', 'long name', (text) => text],
  ['multicast', 'multicast', (text) => text],
  ['format', 'format', (text) => text],
  ['pad', 'pad', toOnOff],
  ['mode', 'mode', (text) => text],
  ['logic', 'logic port', (text) => text],
  ['studios', 'studios', (text) => text],
  ['share', 'share', toOnOff],
  ['fader', 'fader', (text) => text],
  ['backfeed', 'backfeed', (text) => text],
  ['subscribed', 'subscribed', (text) => text],
];

export function readJackRows(table: Table, columns: Columns, notebook: Notebook): ListResult<RawJack> {
  const toldSignals = new Set<string>();
  return readList(table, columns, notebook, (row) => {
    const title = (meaning: string) => row.title(meaning);
    const guess = (kind: GuessKind, meaning: string, said: string, readAs: string) =>
      notebook.guess(kind, table.name, row.row, title(meaning), said, readAs);
    const split = row.literal('jack') ? { label: row.get('jack'), note: '' } : splitNote(row.get('jack'));
    const label = row.literal('jack') ? split.label : orAside(split.label);
    let unit = orBlank(row.get('unit'));
    if (unit === '' && label !== '' && !row.literal('unit')) {
      unit = row.above('unit');
      if (unit !== '') guess('from-above', 'unit', '', `${unit}, as in the row above`);
    }
    if (unit === '' || label === '') return 'a heading or remark, not a jack';
    if (split.note !== '') guess('note', 'jack', row.get('jack'), `${label}, with the note ${split.note}`);
    for (const [meaning] of SETTINGS) {
      if (isUnknown(row.get(meaning)))
        notebook.ask('word', table.name, row.row, title(meaning), row.get(meaning), 'What belongs here?');
    }
    const signalText = row.get('signal');
    const signal = row.literal('signal') ? undefined : (textToSignal(signalText, notebook.signalWords) ?? undefined);
    if (signalText !== '' && !row.literal('signal') && !toldSignals.has(signalText)) {
      toldSignals.add(signalText);
      if (signal) guess('signal', 'signal', signalText, `signal ${signal}`);
      else notebook.ask('signal', table.name, row.row, title('signal'), signalText, 'Which signal is this?');
    }
    // A pair of a punch block stands in a row of the block, and its number counts within that row.
    const isLanding = columns.at.has('tip') || columns.at.has('ring') || /^(pr|pair)\b/i.test(title('jack') ?? '');
    const before = isLanding ? orBlank(row.get('row')) : '';
    const labels = (row.literal('jack') ? [label] : textToLabels(label)).map((one) =>
      before === '' ? one : `${before} ${one}`,
    );
    if (labels.length > 1)
      guess('several-jacks', 'jack', label, `${labels.length} jacks: ${labels[0]} to ${labels.at(-1)}`);
    const [tip, ring] = [orBlank(row.get('tip')), orBlank(row.get('ring'))];
    const base: Omit<RawJack, 'jack'> = {
      room: orBlank(row.get('room')),
      unit,
      connector: orBlank(row.get('connector')),
      direction: readWord(table, row, 'direction', notebook, textToDirection),
      signal,
      leg: readWord(table, row, 'leg', notebook, textToLeg),
      // Several wires may land on one terminal of a block.
      mult: saysYes(row.get('mult')) || isLanding,
      spare: saysYes(row.get('spare')) || /\bspare\b/i.test(`${split.note} ${signalText}`),
      wires: tip === '' && ring === '' ? null : { tip, ring },
      normalled: saysNoNormal(row) ? '' : orAside(row.get('normalled')),
      cable: orAside(row.get('cable')),
      notes: notesOf(row, split.note, isLanding),
      address: orBlank(row.get('address')),
      settings: SETTINGS.flatMap(([meaning, name, toValue]) => {
        const text = row.get(meaning);
        // A dash in a column of phantom says that there is none, not that nobody said.
        const isBlank = isNothing(text) && !(name === 'phantom' && textToPhantom(text) !== null);
        return text === '' || isUnknown(text) || isBlank ? [] : [{ name, value: toValue(text) }];
      }),
      sheet: table.name,
      row: row.row,
    };
    return labels.map((jack) => ({ ...base, jack }));
  });
}

const saysNoNormal = (row: ListRow) => /^(no|none|non|open)$/i.test(row.get('normal').trim());

/** What a list says of a jack that has no place of its own in a plan, in the list's words. */
function notesOf(row: ListRow, note: string, isLanding: boolean): string {
  const pair = row.get('cablePair');
  const cable = orAside(row.get('cable'));
  const parts = [
    !isLanding && row.get('row') && `row ${row.get('row')}`,
    row.get('legend') && `printed ${row.get('legend')}`,
    row.get('strip') && `strip ${row.get('strip')}`,
    cable && `cable ${cable}${pair && `, pair ${pair}`}`,
    row.get('normal') && `normal ${row.get('normal')}`,
    note,
    row.get('notes'),
    row.sign?.note,
  ];
  return parts.filter((part) => part !== '' && part !== false && part !== undefined).join('; ');
}
