// The demo station: Fennigmoor Community Radio, invented, with all its rooms, units and cables. Data only; addresses
// are documentation blocks (RFC 5737), hardware addresses the documentation range of RFC 9542.

interface DemoUnit {
  unit: string;
  room: string;
  rack: string;
  u: string;
  height: string;
  jacks: string;
  layout: string;
  description: string;
  address: string;
  serial: string;
  mac: string;
}

export interface DemoCable {
  number: string;
  from: [unit: string, jack: string];
  to: [unit: string, jack: string];
  signal: string;
  circuit: string;
  type: string;
  length: string;
  status: string;
  notes: string;
}

export const DEMO_NAME = 'Fennigmoor Community Radio';
const TECH = 'Technical room';
const STUDIO_A = 'Studio A';
const STUDIO_B = 'Studio B';

type UnitLine = [
  unit: string,
  rack: string,
  u: number | '',
  jacks: string,
  description: string,
  octet?: number | undefined,
  extra?: Partial<DemoUnit>,
];

const switchJacks = { layout: 'odd over even' };
const RACKED: readonly UnitLine[] = [
  ['SW1', 'R1', 40, 'P01-P24', 'network switch, PoE', 2, switchJacks],
  ['PP1', 'R1', 38, 'P01-P24', 'patch panel to the studio wall plates', undefined, { layout: 'one row, panel' }],
  ['PP2', 'R1', 36, 'P01-P24', 'audio tie panel to the studio boxes', undefined, { layout: 'odd over even, panel' }],
  ['SRV81', 'R1', 34, 'NET1, NET2', 'playout server', 81, { height: '2' }],
  ['PLY71', 'R1', 32, 'NET, AES OUT 1-2, GPIO', 'player', 71],
  ['PLY72', 'R1', 31, 'NET, AES OUT 1-2, GPIO', 'player', 72],
  ['REC82', 'R1', 28, 'NET, IN1-IN2, AES IN', 'logging recorder', 82],
  ['PRO51', 'R1', 20, 'NET, AES IN, AES OUT, WC IN', 'on-air processor', 51],
  ['ENC61', 'R1', 18, 'NET, AES IN, AES IN 2, LINK', 'transmitter link encoder', 61],
  ['ENC62', 'R1', 17, 'NET, AES IN, LINK', 'transmitter link encoder, standby', 62],
  ['SW2', 'R2', 40, 'P01-P24', 'network switch', 3, switchJacks],
  ['PB1', 'R2', 36, 'J1-J48', 'audio patch bay', undefined, { layout: 'two rows', height: '2' }],
  ['AIO21', 'R2', 30, 'I1-I4, O1-O4, NET', 'analogue in/out frame', 21],
  ['AIO22', 'R2', 29, 'I1-I4, O1-O4, NET', 'analogue in/out frame', 22],
  ['DIO23', 'R2', 28, 'I1-I4, O1-O4, NET, WC IN', 'digital in/out frame', 23],
  ['LIO24', 'R2', 27, 'L1-L8, NET', 'closure frame', 24],
  ['HYB41', 'R2', 24, 'IN, OUT, LINE, GPIO, NET', 'phone hybrid', 41],
  ['HYB42', 'R2', 23, 'IN, OUT, LINE, GPIO, NET', 'phone hybrid', 42],
  ['COD43', 'R2', 22, 'AES IN, AES OUT, WC IN, NET', 'remote codec', 43],
  ['TUN45', 'R2', 19, 'OUT L, OUT R', 'off-air receiver'],
  ['SAT44', 'R2', 18, 'OUT L, OUT R', 'satellite receiver'],
  ['CLK46', 'R2', 16, 'WC OUT 1-4, NET', 'clock generator', 46],
];

const IN_ROOMS: readonly [room: string, lines: readonly UnitLine[]][] = [
  [
    TECH,
    [
      ['MONT', '', '', 'IN L, IN R', 'monitor loudspeakers'],
      ['DEM1', '', '', 'PR1-PR6', 'telephone demarcation'],
      ['PHT', '', '', 'TEL', 'telephone'],
    ],
  ],
  [
    STUDIO_A,
    [
      ['CON30', '', '', 'NET, NET2', 'console', 30],
      ['MIO31', '', '', 'M1-M4, LINE1-LINE2, O1-O4, L1-L4, NET', 'microphone frame', 31],
      ['MIC1', '', '', 'XLR', 'microphone'],
      ['MIC2', '', '', 'XLR', 'microphone'],
      ['MIC3', '', '', 'XLR', 'ribbon microphone'],
      ['MIC4', '', '', 'XLR', 'microphone'],
      ['MONA', '', '', 'IN L, IN R', 'monitor loudspeakers'],
      ['HPA', '', '', 'IN L, IN R', 'headphone amplifier'],
      ['CUEA', '', '', 'IN', 'cue loudspeaker'],
      ['PLA1', '', '', 'OUT L, OUT R', 'guest player'],
      ['TALA', '', '', 'T1', 'on-air light'],
      ['BTNA', '', '', 'S1, S2', 'talk and cough buttons'],
      ['PCA', '', '', 'NET', 'studio computer', 91],
      ['PHA', '', '', 'TEL', 'telephone'],
      ['WPA', '', '', '1-12', 'wall plate', undefined, { layout: 'two rows, panel' }],
      ['SBA', '', '', '1-12', 'stage box panel', undefined, { layout: 'two rows' }],
    ],
  ],
  [
    STUDIO_B,
    [
      ['CON32', '', '', 'NET, NET2', 'console', 32],
      ['MIO33', '', '', 'M1-M4, LINE1-LINE2, O1-O4, L1-L4, NET', 'microphone frame', 33],
      ['MIC5', '', '', 'XLR', 'microphone'],
      ['MIC6', '', '', 'XLR', 'microphone'],
      ['MIC7', '', '', 'XLR', 'microphone'],
      ['MONB', '', '', 'IN L, IN R', 'monitor loudspeakers'],
      ['HPB', '', '', 'IN L, IN R', 'headphone amplifier'],
      ['CUEB', '', '', 'IN', 'cue loudspeaker'],
      ['PLB1', '', '', 'OUT L, OUT R', 'guest player'],
      ['TALB', '', '', 'T1', 'on-air light'],
      ['BTNB', '', '', 'S1, S2', 'talk and cough buttons'],
      ['PCB', '', '', 'NET', 'studio computer', 92],
      ['PHB', '', '', 'TEL', 'telephone'],
      ['WPB', '', '', '1-12', 'wall plate', undefined, { layout: 'two rows, panel' }],
      ['SBB', '', '', '1-12', 'stage box panel', undefined, { layout: 'two rows' }],
    ],
  ],
];

function toUnit(room: string, [unit, rack, u, jacks, description, octet, extra]: UnitLine): DemoUnit {
  return {
    unit,
    room,
    rack,
    u: String(u),
    height: rack === '' ? '' : '1',
    jacks,
    layout: '',
    description,
    // The link encoders talk to the transmitter over the carrier's net.
    address: octet === undefined ? '' : `${unit.startsWith('ENC') ? '198.51.100' : '192.0.2'}.${octet}`,
    serial: octet === undefined ? '' : `FM-${String(octet * 137).padStart(6, '0')}`,
    mac: octet === undefined ? '' : `00-00-5E-00-53-${octet.toString(16).toUpperCase().padStart(2, '0')}`,
    ...extra,
  };
}

export const DEMO_UNITS: readonly DemoUnit[] = [
  ...RACKED.map((line) => toUnit(TECH, line)),
  ...IN_ROOMS.flatMap(([room, lines]) => lines.map((line) => toUnit(room, line))),
];
