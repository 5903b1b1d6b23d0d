// Columns whose titles are short, odd, of another trade, or not there. Invented; what an engineer reads stands first.
import type { Fixture } from './fixture.ts';

export const TITLES: Fixture[] = [
  {
    name: 'sig and cbl',
    who: 'a field engineer who types on a phone',
    sheets: [
      {
        name: 'Runs',
        rows: `
Cbl | Src | Src Prt | Dst | Dst Prt | Sig | Lg
2001 | AIO21 | OUT 1 | SW1 | P03 | Enet | 4 m => 2001: AIO21 @ OUT 1 > SW1 @ P03 {network, length=4 m}
2002 | AIO21 | OUT 2 | SW1 | P04 | Enet | 4 m => 2002: AIO21 @ OUT 2 > SW1 @ P04 {network, length=4 m}
2003 | MIO31 | OUT 1 | CON30 | IN 5 | AES | 12 m => 2003: MIO31 @ OUT 1 > CON30 @ IN 5 {aes3, length=12 m}
2004 | MIO31 | OUT 2 | CON30 | IN 6 | AES | 12 m => 2004: MIO31 @ OUT 2 > CON30 @ IN 6 {aes3, length=12 m}
2005 | PLY7 | OUT 1 | CON30 | IN 7 | Ana st | 6 m => 2005: PLY7 @ OUT 1 > CON30 @ IN 7 {line-audio, length=6 m}`,
      },
    ],
  },
  {
    name: 'local and remote',
    who: 'a network contractor',
    anyOrder: true,
    sheets: [
      {
        name: 'Patch schedule',
        rows: `
Local Device | Local Port | Remote Device | Remote Port | Patch ID | Media
SW1 | 1 | AIO21 | NET A | PT-101 | Cat6 => PT-101: SW1 @ 1 > AIO21 @ NET A {type=Cat6}
SW1 | 2 | AIO22 | NET A | PT-102 | Cat6 => PT-102: SW1 @ 2 > AIO22 @ NET A {type=Cat6}
SW1 | 3 | CON30 | NET A | PT-103 | Cat6 => PT-103: SW1 @ 3 > CON30 @ NET A {type=Cat6}
SW2 | 1 | AIO21 | NET B | PT-201 | Cat6 => PT-201: SW2 @ 1 > AIO21 @ NET B {type=Cat6}
SW2 | 2 | AIO22 | NET B | PT-202 | Cat6 => PT-202: SW2 @ 2 > AIO22 @ NET B {type=Cat6}`,
      },
    ],
  },
  {
    name: 'a-end and z-end',
    who: 'somebody who came from a carrier',
    anyOrder: true,
    sheets: [
      {
        name: 'Circuits',
        rows: `
Circuit Ref | A-End Equipment | A-End Port | Z-End Equipment | Z-End Port | Bearer
STL-01 | ENC1 | LINE 1 | DEC1 | LINE 1 | G.703 => STL-01: ENC1 @ LINE 1 > DEC1 @ LINE 1
STL-02 | ENC2 | LINE 1 | DEC2 | LINE 1 | G.703 => STL-02: ENC2 @ LINE 1 > DEC2 @ LINE 1
STL-03 | ENC3 | WAN | RTR2 | GE 0 | Ethernet => STL-03: ENC3 @ WAN > RTR2 @ GE 0
STL-04 | ENC4 | WAN | RTR2 | GE 1 | Ethernet => STL-04: ENC4 @ WAN > RTR2 @ GE 1`,
      },
    ],
  },
  {
    name: 'no titles at all',
    who: 'a station engineer who knows his columns by heart',
    sheets: [
      {
        name: 'Sheet1',
        rows: `
1001 | AIO21 | OUT 1 | SW1 | P01 | Enet => 1001: AIO21 @ OUT 1 > SW1 @ P01 {network}
1002 | AIO21 | OUT 2 | SW1 | P02 | Enet => 1002: AIO21 @ OUT 2 > SW1 @ P02 {network}
1003 | AIO22 | OUT 1 | SW1 | P03 | Enet => 1003: AIO22 @ OUT 1 > SW1 @ P03 {network}
1004 | PLY7 | OUT L | CON30 | IN 5 | AES => 1004: PLY7 @ OUT L > CON30 @ IN 5 {aes3}
1005 | PLY7 | OUT R | CON30 | IN 6 | AES => 1005: PLY7 @ OUT R > CON30 @ IN 6 {aes3}
1006 | HYB41 | OUT | CON30 | IN 7 | AES => 1006: HYB41 @ OUT > CON30 @ IN 7 {aes3}`,
      },
    ],
  },
  {
    name: 'a counter beside the real number',
    who: 'a contractor whose template counts rows',
    sheets: [
      {
        name: 'Cable list',
        rows: `
No | From | Output | To | Input | Wire Marker | Type
1 | AIO21 | OUT 1 | CON30 | IN 1 | A1047 | 110R => A1047: AIO21 @ OUT 1 > CON30 @ IN 1 {type=110R}
2 | AIO21 | OUT 2 | CON30 | IN 2 | A1048 | 110R => A1048: AIO21 @ OUT 2 > CON30 @ IN 2 {type=110R}
3 | AIO22 | OUT 1 | CON30 | IN 3 | A1060 | 110R => A1060: AIO22 @ OUT 1 > CON30 @ IN 3 {type=110R}
4 | AIO22 | OUT 2 | CON30 | IN 4 | A1061 | 110R => A1061: AIO22 @ OUT 2 > CON30 @ IN 4 {type=110R}
5 | HYB41 | OUT 1 | CON30 | IN 9 | A1102 | 110R => A1102: HYB41 @ OUT 1 > CON30 @ IN 9 {type=110R}`,
      },
    ],
  },
  {
    name: 'jack columns called after their direction',
    who: 'an audio installer',
    sheets: [
      {
        name: 'Audio',
        rows: `
Cable | From | Output | To | Input | Signal
A101 | MIC1 | XLR | PRE1 | 1 | Mic => A101: MIC1 @ XLR > PRE1 @ 1 {microphone}
A102 | MIC2 | XLR | PRE1 | 2 | Mic => A102: MIC2 @ XLR > PRE1 @ 2 {microphone}
A103 | PRE1 | 1 | CON30 | 11 | Line => A103: PRE1 @ 1 > CON30 @ 11 {line-audio}
A104 | PRE1 | 2 | CON30 | 12 | Line => A104: PRE1 @ 2 > CON30 @ 12 {line-audio}
A105 | CON30 | 21 | AMP2 | 1 | Line => A105: CON30 @ 21 > AMP2 @ 1 {line-audio}`,
      },
    ],
  },
  {
    name: 'the same two titles on both sides',
    who: 'an old list without from and to',
    sheets: [
      {
        name: 'List',
        rows: `
Tag | Equipment | Terminal | Equipment | Terminal | Remarks
T1 | TUNER1 | 3 | PANEL 4 | 7 | => T1: TUNER1 @ 3 > PANEL 4 @ 7
T2 | TUNER1 | 4 | PANEL 4 | 8 | => T2: TUNER1 @ 4 > PANEL 4 @ 8
T3 | TUNER2 | 3 | PANEL 4 | 9 | crackles => T3: TUNER2 @ 3 > PANEL 4 @ 9 {note=crackles}
T4 | TUNER2 | 4 | PANEL 4 | 10 | => T4: TUNER2 @ 4 > PANEL 4 @ 10`,
      },
    ],
  },
  {
    name: 'titles that name something else',
    who: 'a volunteer who took a parts list for a start',
    sheets: [
      {
        name: 'Wiring',
        rows: `
Part | Leaves | Hole | Arrives | Hole | Kind | How long
W-11 | PLY1 | OUT L | CON30 | IN 1 | Audio | 3 m => W-11: PLY1 @ OUT L > CON30 @ IN 1 {line-audio, length=3 m}
W-12 | PLY1 | OUT R | CON30 | IN 2 | Audio | 3 m => W-12: PLY1 @ OUT R > CON30 @ IN 2 {line-audio, length=3 m}
W-13 | PLY2 | OUT L | CON30 | IN 3 | Audio | 5 m => W-13: PLY2 @ OUT L > CON30 @ IN 3 {line-audio, length=5 m}
W-14 | PLY2 | OUT R | CON30 | IN 4 | Audio | 5 m => W-14: PLY2 @ OUT R > CON30 @ IN 4 {line-audio, length=5 m}
W-15 | AIO21 | NET | SW1 | P09 | Ethernet | 8 m => W-15: AIO21 @ NET > SW1 @ P09 {network, length=8 m}`,
      },
    ],
  },
  {
    name: 'unit and jack in one cell with a colon',
    who: 'an installer who writes terse',
    sheets: [
      {
        name: 'Pulls',
        rows: `
ID | From | To | Cable Type
C01 | AIO21:OUT1 | CON30:IN1 | 110R => C01: AIO21 @ OUT1 > CON30 @ IN1 {type=110R}
C02 | AIO21:OUT2 | CON30:IN2 | 110R => C02: AIO21 @ OUT2 > CON30 @ IN2 {type=110R}
C03 | AIO22:OUT1 | CON30:IN3 | 110R => C03: AIO22 @ OUT1 > CON30 @ IN3 {type=110R}
C04 | SW1:P07 | AIO22:NET | Cat6 => C04: SW1 @ P07 > AIO22 @ NET {type=Cat6}`,
      },
    ],
  },
  {
    name: 'serial numbers beside the cable',
    who: 'a store keeper',
    sheets: [
      {
        name: 'Leads',
        rows: `
Asset | From Unit | From Jack | To Unit | To Jack | Made | Lead
88120 | SRV1 | ETH0 | SW2 | P01 | 2019-04-02 | L-301 => L-301: SRV1 @ ETH0 > SW2 @ P01
88121 | SRV1 | ETH1 | SW3 | P01 | 2019-04-02 | L-302 => L-302: SRV1 @ ETH1 > SW3 @ P01
88122 | SRV2 | ETH0 | SW2 | P02 | 2019-04-03 | L-303 => L-303: SRV2 @ ETH0 > SW2 @ P02
88123 | SRV2 | ETH1 | SW3 | P02 | 2019-04-03 | L-304 => L-304: SRV2 @ ETH1 > SW3 @ P02`,
      },
    ],
  },
];
