// An invented plan in which every name is as long as a sheet would let it be: one long word without a place to break,
// many words, writing from right to left, letters that carry their accents as marks of their own.
const WORD = 'Donaudampfschifffahrtsgesellschaftskapitaenskajuete';
const MANY = 'Main control apparatus room behind the second studio on the left';
/** Hebrew letters for “studio, transmission, left”, as plain words; from right to left by Unicode's own rules. */
const RIGHT_TO_LEFT = 'אולפן שידור שמאל אולפן שידור שמאל';
/** Each letter with a combining ring and a combining acute beneath one another (Unicode block 0300). */
const MARKED = [...'Senderegelstelle'].map((letter) => `${letter}\u030a\u0301`).join('');

const row = (...cells: string[]) => cells.map((cell) => `"${cell}"`).join(',');

export const LONG_RACK = 'RACKWITHAVERYLONGNAMEWITHOUTABREAK';

/** Read off plugs: one that the plan has not, one from right to left, one that belongs elsewhere. */
export const LONG_LABELS = [
  'AWRITTENLABELTHATHASNOPLACETOBREAKATALL',
  RIGHT_TO_LEFT,
  'STUDIO-A/PROGRAMME/LEFT/TO/TRANSMITTER/FEED/1000',
];

/** A schedule of 30 cables whose units, rooms, racks, jacks and labels are all too long for a phone. */
export const LONG_NAMES: string = [
  'Cable No,From Room,From Rack,From U,From Unit,From Jack,To Room,To Rack,To U,To Unit,To Jack,Signal,Circuit Name,Cable Type,Length,Status,Notes',
  row(
    'ANUNBROKENCABLELABELOFMORETHANFORTYLETTERS0001',
    MANY,
    'RACKWITHAVERYLONGNAMEWITHOUTABREAK',
    '40',
    WORD,
    'NETWORKPORTNUMBERONE',
    RIGHT_TO_LEFT,
    'R2',
    '3',
    RIGHT_TO_LEFT,
    'IN 1',
    'Enet',
    MANY,
    'Cat6 blue',
    '14',
    'in',
    MANY,
  ),
  row(
    RIGHT_TO_LEFT,
    MANY,
    'RACKWITHAVERYLONGNAMEWITHOUTABREAK',
    '40',
    WORD,
    'NETWORKPORTNUMBERTWO',
    MANY,
    'R2',
    '5',
    MARKED,
    'IN 1',
    'Enet',
    WORD,
    'Cat6 blue',
    '14',
    'in',
    WORD,
  ),
  row(
    MARKED,
    MANY,
    'RACKWITHAVERYLONGNAMEWITHOUTABREAK',
    '40',
    WORD,
    'NETWORKPORTNUMBERTHREE',
    MANY,
    'R2',
    '5',
    MARKED,
    'IN 2',
    'Enet',
    '',
    'Cat6 blue',
    '14',
    'in',
    '',
  ),
  row(
    'Studio A main programme left to transmitter feed 0004',
    MANY,
    'RACKWITHAVERYLONGNAMEWITHOUTABREAK',
    '40',
    WORD,
    'NETWORKPORTNUMBERFOUR',
    WORD,
    'R2',
    '8',
    MANY,
    MANY,
    'Enet',
    '',
    'Cat6 blue',
    '14',
    'in',
    '',
  ),
  ...Array.from({ length: 26 }, (_, i) =>
    row(
      `STUDIO-A/PROGRAMME/LEFT/TO/TRANSMITTER/FEED/${1000 + i}`,
      MANY,
      'RACKWITHAVERYLONGNAMEWITHOUTABREAK',
      '40',
      WORD,
      `NETWORKPORT${10 + i}`,
      WORD,
      'R2',
      '8',
      MANY,
      `OUTPUT NUMBER ${i + 1}`,
      'Enet',
      '',
      'Cat6 blue',
      '14',
      'in',
      '',
    ),
  ),
].join('\n');
