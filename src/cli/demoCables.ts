// The cables of the demo station, numbered by series: 1 network, 2 audio, 3 microphones, 4 control, 5 telephone.
import type { DemoCable } from './demoStation.ts';

type Place = `${string} ${string}`;
type Line = [from: Place, to: Place, circuit?: string, notes?: string];

function toPlace(place: Place): [string, string] {
  const blank = place.indexOf(' ');
  return [place.slice(0, blank), place.slice(blank + 1)];
}

function series(start: number, signal: string, type: string, lines: readonly Line[], status = 'in'): DemoCable[] {
  return lines.map(([from, to, circuit = '', notes = ''], i) => ({
    number: String(start + i),
    from: toPlace(from),
    to: toPlace(to),
    signal,
    circuit,
    type,
    length: String(2 + ((start + i * 7) % 23)),
    status,
    notes,
  }));
}

const two = (n: number) => String(n).padStart(2, '0');
/** The first network units in the order of their ports. */
const ON_SW1 = [
  'CON30 NET',
  'CON30 NET2',
  'MIO31 NET',
  'CON32 NET',
  'CON32 NET2',
  'MIO33 NET',
  'PLY71 NET',
  'PLY72 NET',
  'SRV81 NET1',
  'SRV81 NET2',
  'REC82 NET',
  'PRO51 NET',
  'ENC61 NET',
  'ENC62 NET',
  'PCA NET',
  'PCB NET',
] as const;
const ON_SW2 = ['AIO21 NET', 'AIO22 NET', 'DIO23 NET', 'LIO24 NET', 'HYB41 NET', 'HYB42 NET', 'COD43 NET'] as const;
const ties = (first: number, wall: string, firstJack: number, n: number, panel = 'PP1'): Line[] =>
  Array.from({ length: n }, (_, i): Line => [`${panel} P${two(first + i)}`, `${wall} ${firstJack + i}`]);

export const DEMO_CABLES: readonly DemoCable[] = [
  ...series(
    1001,
    'Enet',
    'Cat6 blue',
    ON_SW1.map((from, i): Line => [from, `SW1 P${two(i + 1)}`]),
  ),
  ...series(1024, 'uplink', 'Cat6 red', [['SW1 P24', 'SW2 P24', 'between the switches', 'ON AIR - DO NOT TOUCH']]),
  ...series(
    1031,
    'Enet',
    'Cat6 blue',
    ON_SW2.map((from, i): Line => [from, `SW2 P${two(i + 1)}`]),
  ),
  ...series(1041, 'Enet', 'Cat6 blue', [['CLK46 NET', 'SW2 P10']]),
  ...series(1101, 'Enet', 'Cat6 grey', ties(1, 'WPA', 1, 8)),
  ...series(1109, 'spare', 'Cat6 grey', ties(9, 'WPA', 9, 4), 'spare'),
  ...series(1113, 'Enet', 'Cat6 grey', ties(13, 'WPB', 1, 8)),
  ...series(1121, 'spare', 'Cat6 grey', ties(21, 'WPB', 9, 4), 'spare'),
  ...series(2001, 'Ana', '2pr', [
    ['SAT44 OUT L', 'PB1 J1'],
    ['SAT44 OUT R', 'PB1 J2'],
    ['TUN45 OUT L', 'PB1 J3'],
    ['TUN45 OUT R', 'PB1 J4'],
    ['HYB41 OUT', 'PB1 J5', 'caller 1'],
    ['HYB42 OUT', 'PB1 J6', 'caller 2'],
    ['AIO21 O1', 'PB1 J7'],
    ['AIO21 O2', 'PB1 J8'],
    ['AIO21 O3', 'PB1 J9', 'mix-minus caller 1'],
    ['AIO21 O4', 'PB1 J10', 'mix-minus caller 2'],
    ['AIO22 O1', 'PB1 J11'],
    ['AIO22 O2', 'PB1 J12'],
    ['AIO22 O3', 'PB1 J13'],
    ['AIO22 O4', 'PB1 J14'],
  ]),
  ...series(2021, 'Ana', '2pr', [
    ['PB1 J25', 'AIO21 I1'],
    ['PB1 J26', 'AIO21 I2'],
    ['PB1 J27', 'AIO21 I3'],
    ['PB1 J28', 'AIO21 I4'],
    ['PB1 J29', 'AIO22 I1'],
    ['PB1 J30', 'AIO22 I2'],
    ['PB1 J31', 'AIO22 I3'],
    ['PB1 J33', 'HYB41 IN', 'mix-minus caller 1'],
    ['PB1 J34', 'HYB42 IN', 'mix-minus caller 2'],
    ['PB1 J35', 'REC82 IN1', 'logging left'],
    ['PB1 J36', 'REC82 IN2', 'logging right'],
    ['PB1 J37', 'MONA IN L', 'monitor A', 'mute follows mic A'],
    ['PB1 J38', 'MONA IN R', 'monitor A', 'mute follows mic A'],
    ['PB1 J39', 'MONB IN L', 'monitor B'],
    ['PB1 J40', 'MONB IN R', 'monitor B'],
    ['PB1 J41', 'MONT IN L'],
    ['PB1 J42', 'MONT IN R'],
  ]),
  ...series(2041, 'Ana', '2pr', [
    ['MIO31 O1', 'HPA IN L'],
    ['MIO31 O2', 'HPA IN R'],
    ['MIO31 O3', 'CUEA IN'],
    ['MIO33 O1', 'HPB IN L'],
    ['MIO33 O2', 'HPB IN R'],
    ['MIO33 O3', 'CUEB IN'],
    ['PLA1 OUT L', 'MIO31 LINE1', 'guest player A'],
    ['PLA1 OUT R', 'MIO31 LINE2', 'guest player A'],
    ['PLB1 OUT L', 'MIO33 LINE1', 'guest player B'],
    ['PLB1 OUT R', 'MIO33 LINE2', 'guest player B'],
  ]),
  ...series(2301, 'line', '24pr grey', ties(1, 'SBA', 1, 8, 'PP2')),
  ...series(2309, 'spare', '24pr grey', ties(9, 'SBA', 9, 4, 'PP2'), 'spare'),
  ...series(2313, 'line', '24pr grey', ties(13, 'SBB', 1, 8, 'PP2')),
  ...series(2321, 'spare', '24pr grey', ties(21, 'SBB', 9, 4, 'PP2'), 'spare'),
  ...series(2101, 'AES', '110R', [
    ['COD43 AES OUT', 'DIO23 I1', 'remote return'],
    ['DIO23 O1', 'COD43 AES IN', 'remote send'],
    ['PLY71 AES OUT 1', 'DIO23 I2', 'player 1'],
    ['PLY71 AES OUT 2', 'DIO23 I3', 'player 2'],
    ['PLY72 AES OUT 1', 'DIO23 I4', 'player 3'],
    ['DIO23 O2', 'REC82 AES IN', 'logging'],
    ['DIO23 O3', 'ENC62 AES IN', 'standby programme'],
  ]),
  ...series(2111, 'AES', '110R red', [
    ['DIO23 O4', 'PRO51 AES IN', 'programme', 'ON AIR'],
    ['PRO51 AES OUT', 'ENC61 AES IN', 'programme', 'ON AIR'],
  ]),
  ...series(2201, 'WC', '75R', [
    ['CLK46 WC OUT 1', 'DIO23 WC IN'],
    ['CLK46 WC OUT 2', 'PRO51 WC IN'],
    ['CLK46 WC OUT 3', 'COD43 WC IN'],
  ]),
  ...series(3001, 'mic dyn', 'quad', [
    ['MIC1 XLR', 'MIO31 M1', 'host A', '+48 OFF G52'],
    ['MIC2 XLR', 'MIO31 M2', 'guest A1', '+48 OFF G50'],
  ]),
  ...series(3003, 'mic ribbon', 'quad', [['MIC3 XLR', 'MIO31 M3', 'guest A2', '+48 OFF G58']]),
  ...series(3004, 'mic cond', 'quad', [['MIC4 XLR', 'MIO31 M4', 'guest A3', '+48 ON G38']]),
  ...series(3005, 'mic dyn', 'quad', [
    ['MIC5 XLR', 'MIO33 M1', 'host B', '+48 OFF G52'],
    ['MIC6 XLR', 'MIO33 M2', 'guest B1', '+48 OFF G50'],
    ['MIC7 XLR', 'MIO33 M3', 'guest B2', '+48 OFF G50'],
  ]),
  ...series(4001, 'tally', '4pr grey', [
    ['LIO24 L1', 'TALA T1', 'on-air light A'],
    ['LIO24 L2', 'TALB T1', 'on-air light B'],
  ]),
  ...series(4003, 'start/stop', '15-way', [
    ['LIO24 L3', 'PLY71 GPIO', 'player 1 start'],
    ['LIO24 L4', 'PLY72 GPIO', 'player 3 start'],
  ]),
  ...series(4005, 'GPIO', '15-way', [
    ['LIO24 L5', 'HYB41 GPIO', 'caller 1 on/off'],
    ['LIO24 L6', 'HYB42 GPIO', 'caller 2 on/off'],
    ['BTNA S1', 'MIO31 L1', 'talk A'],
    ['BTNA S2', 'MIO31 L2', 'cough A'],
    ['BTNB S1', 'MIO33 L1', 'talk B'],
    ['BTNB S2', 'MIO33 L2', 'cough B'],
  ]),
  ...series(5001, 'POTS', 'tel', [
    ['DEM1 PR1', 'HYB41 LINE', 'studio line 1', 'RINGING VOLTS'],
    ['DEM1 PR2', 'HYB42 LINE', 'studio line 2', 'RINGING VOLTS'],
    ['DEM1 PR3', 'PHA TEL', 'desk A'],
    ['DEM1 PR4', 'PHB TEL', 'desk B'],
    ['DEM1 PR5', 'PHT TEL', 'technical room'],
  ]),
];
