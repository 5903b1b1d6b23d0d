// A schedule as radio stations keep it, 220 rows without a fault: panels used from both sides, stereo leads under one
// number, a multicore, loudspeakers, fibre, half-rack units, addresses that are none. Invented; common practice, no source.
import type { Table } from '../../../../src/core/schedule/rows/readTypes.ts';

const count = (n: number) => Array.from({ length: n }, (_, i) => i + 1);
const pad = (n: number) => String(n).padStart(2, '0');

const CABLE_TITLES =
  'Cable;Pair;From Rack;From Equip;From Jack;From Plug;To Rack;To Equip;To Jack;To Plug;Signal;Circuit;Type;Length;Status;Notes';

/** Without their number, which counts up; the pair is the first cell. */
const CABLES: string[] = [
  ...count(20).map((i) => `;R1;SW1;P${pad(i)};RJ45;R2;AIO${i};NET;RJ45;Enet;;Cat6;${5 + i};in;`),
  ...count(24).map((i) => `;R1;PP1;P${pad(i)};RJ45;STA;WP1;${i};RJ45;Enet;;Cat6;88;in;horizontal`),
  ...count(24).map((i) => `;R1;SW2;P${pad(i)};RJ45;R1;PP1;P${pad(i)};RJ45;Enet;;Cat6 patch;2;in;front cord`),
  ';R1;SW1;SFP1;LC;TX;SW9;SFP1;LC;Ethernet uplink;;OM4 duplex;180;in;',
  ';R1;SW1;SFP2;LC;TX;SW9;SFP2;LC;Enet;;OS2 duplex;4200;in;',
  ...count(10).map(
    (i) =>
      `;R2;AIO${i};OUT ${2 * i - 1}/OUT ${2 * i};XLR-F;R2;PB1;J${2 * i - 1}/J${2 * i};TT;Analog stereo;PGM ${i};2pr;3;in;`,
  ),
  ';R2;CDP1;OUT L/OUT R;;R2;MIX1;IN 9/IN 10;;Analog stereo;CD 1;2pr;3;in;',
  ';R2;CDP2;OUT 1/OUT 2;;R2;MIX1;IN 11/IN 12;;Analog stereo;CD 2;2pr;3;in;',
  ';STA;AMP1;OUT L;;STA;SPKL;IN;;Speaker;MON L;2.5;4;in;',
  ';STA;AMP1;OUT R;;STA;SPKR;IN;;Speaker;MON R;2.5;4;in;',
  ';STB;AMP2;OUT L;;STB;Speaker left;IN;;Speaker;;2.5;4;in;',
  ';STB;AMP2;OUT R;;STB;Speaker right;IN;;Speaker;;2.5;4;in;',
  ...count(8).map((i) => `;STA;MIC${i};XLR;XLR-F;STA;SB1;IN ${i};XLR-M;mic dyn;;quad;5;in;`),
  ...count(16).map((i) => `;R2;RTR1;AES OUT ${i};XLR-F;R2;DAB1;AES IN ${i};XLR-M;AES3;;110R;6;in;`),
  ...count(8).map((i) => `;R2;DA1;OUT ${i};;R2;REC1;LINE ${i};;Analog line;;1pr;6;in;`),
  ';R2;CLK1;WC OUT 1;BNC;R2;AIO1;WC IN;BNC;word clock;;75R coax;3;in;',
  ';R2;AIO1;WC OUT;BNC;R2;AIO2;WC IN;BNC;word clock;;75R coax;1;in;',
  ...count(6).map((i) => `;R2;LIO1;L${i};;STA;BTN${i};1-2;;GPIO;Door ${i % 2 ? 'left' : 'right'} ${i};4pr;30;in;`),
  ';R2;LIO1;L7;;STA;LAMP;1-2;;on-air light;Lamp left;4pr;30;in;',
  ';R2;DA2;OUT 1;;R2;MULT1;1;;analog;;1pr;2;in;',
  ';R2;MULT1;2;;R2;REC2;IN 1;;analog;;1pr;2;in;',
  ';R2;MULT1;3;;R2;REC3;IN 1;;analog;;1pr;2;in;',
  ...count(20).map((i) => `;R2;PDU1;${i};C13;R2;AIO${i};AC;C14;mains;;IEC;1;in;`),
  ...count(20).map((i) => `;R2;PDU2;${i};C13;R2;AIO${i};PSU B;C14;mains;;IEC;1;in;`),
  ';DEMARC;DMK;pr 1;;R2;HYB1;LINE;RJ11;POTS;;tel;40;in;',
  ';R2;HYB1;OUT;XLR-F;R2;AIO3;I1;XLR-M;analog;HYB SEND;1pr;3;in;L leg only',
  ';R2;AIO3;O1;XLR-F;R2;HYB1;IN;XLR-M;analog;HYB RTN;1pr;3;in;',
  ';R2;MIX1;INS 1;TRS;R2;PB2;1;TT;analog;;2pr;3;in;',
  ';R2;MIX1;TAPE OUT 1-8;DB25;R2;PB3;1-8;DB25;analog;;8pr;3;in;',
  ...count(24).map((i) => `;R1;PP2;P${i};;STB;WP2;${i};;spare;;Cat6;30;spare;`),
  ';ROOF;ANT1;N;N;R3;TUN1;ANT;F;RF;;RG6;30;in;',
  ';R3;STL1;RS232;DB9;R3;RC1;COM1;DB9;RS-232;;;3;in;',
];
/** Several rows of one number: the pairs of a multicore, the legs of a stereo lead. */
const PARTS: string[] = [
  ...count(8).map((i) => `M7;${i};STA;SB1;IN ${i};XLR-M;R2;MIX1;MIC ${i};XLR-M;mic;;8pr;25;in;`),
  'T1;L;R3;TUN1;OUT;XLR-F;R2;MIX1;IN 21;XLR-M;analog;OFF AIR;2pr;5;in;',
  'T1;R;R3;TUN1;OUT 2;XLR-F;R2;MIX1;IN 22;XLR-M;analog;OFF AIR;2pr;5;in;',
];

const UNITS: string[] = [
  'R1;40;1;SW1;switch 24 port;A1;192.0.2.2;255.255.255.0;192.0.2.1',
  'R1;39;1;SW2;switch 24;A2;192.0.2.3/24;;192.0.2.1',
  'R1;37;1;PP1;24-way patch panel;;;;',
  'R1;36;1;PP2;24-way patch panel;;;;',
  ...count(20).map((i) => `R2;${i};1;AIO${i};analogue I/O frame;B${i};192.0.2.${20 + i};255.255.255.0;192.0.2.1`),
  ...count(3).map((i) => `R2;${21 + i};1;PB${i};TT patchbay half-normal;;;;`),
  'R2;25;2;MIX1;analogue mixer;;http://192.0.2.59/;;',
  'R2;27;1;CDP1;player;n/a;;;',
  'R2;28;1;CDP2;player;n/a;;;',
  'R3;9;1;TUN1;tuner;;DHCP;;',
  'R2;30;1;RTR1;AES router;C1;192.0.2.60 (control);;',
  'R2;31;1;DAB1;encoder;C2;2001:db8::5;;',
  'R2;32;1;DA1;distribution amp;;;;',
  'R2;36;1;DA2;distribution amp;;;;',
  'R2;33;1;REC1;recorder;;192.0.2.61, 192.0.2.62;;',
  'R2;34;1;REC2;recorder half rack;;;;',
  'R2;34;1;REC3;recorder half rack;;;;',
  'R2;35;1;CLK1;clock;;;;',
  'R2;37;1;LIO1;logic frame;;;;',
  'R2;38;1;HYB1;hybrid;;;;',
  'R2;39;1;MULT1;mult;;;;',
  'R2;;0;PDU1;power strip;;;;',
  'R2;;0;PDU2;power strip;;;;',
  'R3;10;1;STL1;link;;;;',
  'R3;11;1;RC1;remote control;;;;',
];
const IN_ROOMS: readonly [string, string, string][] = [
  ['STA', 'AMP1', 'amplifier'],
  ['STA', 'SPKL', 'speaker'],
  ['STA', 'SPKR', 'speaker'],
  ['STB', 'AMP2', 'amplifier'],
  ['STB', 'Speaker left', 'speaker'],
  ['STB', 'Speaker right', 'speaker'],
  ['STA', 'SB1', 'stage box 8 in'],
  ['STA', 'WP1', 'wall plate'],
  ['STB', 'WP2', 'wall plate'],
  ['STA', 'LAMP', 'lamp'],
  ['DEMARC', 'DMK', 'terminal block'],
  ['TX', 'SW9', 'switch'],
  ['ROOF', 'ANT1', 'aerial'],
  ...count(8).map((i): [string, string, string] => ['STA', `MIC${i}`, 'microphone']),
  ...count(6).map((i): [string, string, string] => ['STA', `BTN${i}`, 'button']),
];

const JACKS: string[] = [
  ...count(8).map((i) => `MIX1;MIC ${i};XLR/TRS combo;in;mic;;`),
  ...count(8).map((i) => `SB1;IN ${i};XLR-F;;mic;;`),
  'HYB1;LINE;RJ11;both;POTS;;',
  'MIX1;INS 1;TRS;both;line;;',
  ...count(14).map((i) => `MIX1;IN ${8 + i};${i > 12 ? 'XLR-F' : ''};in;line;;`),
];
const SOURCES: string[] = [
  ...count(4).map((i) => `AIO${i};I1;SRC${i};${20 + i}01`),
  // Left and right of one stereo source share its channel.
  'AIO5;I1 L;ST L;2501',
  'AIO5;I1 R;ST R;2501',
];

const toTable = (name: string, lines: readonly string[]): Table => ({
  name,
  rows: lines.map((line) => line.split(';')),
});

export const CLEAN: readonly Table[] = [
  toTable('Run list', [CABLE_TITLES, ...CABLES.map((line, i) => `${1001 + i};${line}`), ...PARTS]),
  toTable('Equipment', [
    'Rack;U;Height;Unit;Description;Serial;IP;Mask;Gateway',
    ...UNITS,
    ...IN_ROOMS.map(([room, unit, description]) => `;;1;${unit};${description} in ${room};;;;`),
  ]),
  toTable('Jacks', ['Unit;Jack;Connector;Direction;Signal', ...JACKS]),
  toTable('Sources', ['Unit;Input;Source Name;Channel', ...SOURCES]),
];
