// What one row stands for: an end, a conductor, a chain of panels, several far ends, a stereo pair, a core of a multicore,
// one of two lists side by side. Invented; what an engineer reads stands first.
import type { Fixture } from './fixture.ts';

export const SHAPES: Fixture[] = [
  {
    name: 'one row per end',
    who: 'a label printer list',
    anyOrder: true,
    sheets: [
      {
        name: 'Ends',
        rows: `
Cable | End | Unit | Jack | Rack
3001 | A | AIO21 | OUT 1 | R2 => 3001: AIO21 @ OUT 1 > CON30 @ IN 1
3001 | B | CON30 | IN 1 | R5
3002 | A | AIO21 | OUT 2 | R2 => 3002: AIO21 @ OUT 2 > CON30 @ IN 2
3002 | B | CON30 | IN 2 | R5
3003 | A | AIO22 | OUT 1 | R2 => 3003: AIO22 @ OUT 1 > CON30 @ IN 3
3003 | B | CON30 | IN 3 | R5`,
      },
    ],
  },
  {
    name: 'one row per end with the end in the label',
    who: 'another label printer list',
    anyOrder: true,
    sheets: [
      {
        name: 'Labels',
        rows: `
Label | Equipment | Port
3101-A | SW1 | P01 => 3101: SW1 @ P01 > AIO21 @ NET
3101-B | AIO21 | NET
3102-A | SW1 | P02 => 3102: SW1 @ P02 > AIO22 @ NET
3102-B | AIO22 | NET
3103-A | SW1 | P03 => 3103: SW1 @ P03 > CON30 @ NET
3103-B | CON30 | NET`,
      },
    ],
  },
  {
    name: 'one row per conductor',
    who: 'a control wiring technician',
    sheets: [
      {
        name: 'Control',
        rows: `
Cable | Core | From | Terminal | To | Terminal
K1 | 1 | GPIO1 | 1 | CON30 | 11 => K1~K1-1: GPIO1 @ 1 > CON30 @ 11
K1 | 2 | GPIO1 | 2 | CON30 | 12 => K1~K1-2: GPIO1 @ 2 > CON30 @ 12
K1 | 3 | GPIO1 | 3 | CON30 | 13 => K1~K1-3: GPIO1 @ 3 > CON30 @ 13
K2 | 1 | GPIO1 | 7 | LAMP1 | + => K2~K2-1: GPIO1 @ 7 > LAMP1 @ +
K2 | 2 | GPIO1 | 8 | LAMP1 | - => K2~K2-2: GPIO1 @ 8 > LAMP1 @ -`,
      },
    ],
  },
  {
    name: 'panels between two units in one row',
    who: 'an integrator with tie panels',
    sheets: [
      {
        name: 'Runs',
        rows: `
Cable | Source | Port | Panel | Port | Panel | Port | Destination | Port
3201 | SRV1 | ETH0 | PNL A | 1 | PNL B | 1 | SW1 | P01 => 3201~3201-1: SRV1 @ ETH0 > PNL A @ 1~1 rear~1 front ;; 3201~3201-2: PNL A @ 1~1 rear~1 front > PNL B @ 1~1 rear~1 front ;; 3201~3201-3: PNL B @ 1~1 rear~1 front > SW1 @ P01
3202 | SRV2 | ETH0 | PNL A | 2 | PNL B | 2 | SW1 | P02 => 3202~3202-1: SRV2 @ ETH0 > PNL A @ 2~2 rear~2 front ;; 3202~3202-2: PNL A @ 2~2 rear~2 front > PNL B @ 2~2 rear~2 front ;; 3202~3202-3: PNL B @ 2~2 rear~2 front > SW1 @ P02`,
      },
    ],
  },
  {
    name: 'three far ends in columns',
    who: 'a distribution amplifier list',
    sheets: [
      {
        name: 'Splits',
        rows: `
Cable | From | Jack | To 1 | Jack | To 2 | Jack | To 3 | Jack
3301 | DA1 | OUT 1 | CON30 | REF | AIO21 | REF | AIO22 | REF => 3301: DA1 @ OUT 1 > CON30 @ REF > AIO21 @ REF > AIO22 @ REF
3302 | DA1 | OUT 2 | CON31 | REF | AIO23 | REF | | => 3302: DA1 @ OUT 2 > CON31 @ REF > AIO23 @ REF
3303 | DA1 | OUT 3 | CON32 | REF | | | | => 3303: DA1 @ OUT 3 > CON32 @ REF`,
      },
    ],
  },
  {
    name: 'stereo pairs in one row',
    who: 'a studio engineer who thinks in stereo',
    sheets: [
      {
        name: 'Stereo',
        rows: `
Cable | From | From Jack | To | To Jack
S101-L/R | PLY1 | OUT L/R | CON30 | IN 1 L/R => S101-L: PLY1 @ OUT L > CON30 @ IN 1 L ;; S101-R: PLY1 @ OUT R > CON30 @ IN 1 R
S102-L/R | PLY2 | OUT L/R | CON30 | IN 2 L/R => S102-L: PLY2 @ OUT L > CON30 @ IN 2 L ;; S102-R: PLY2 @ OUT R > CON30 @ IN 2 R
S103-L/R | PLY3 | OUT L/R | CON30 | IN 3 L/R => S103-L: PLY3 @ OUT L > CON30 @ IN 3 L ;; S103-R: PLY3 @ OUT R > CON30 @ IN 3 R`,
      },
    ],
  },
  {
    name: 'a multicore and its pairs',
    who: 'a stage box list',
    sheets: [
      {
        name: 'Multicores',
        rows: `
Cable | Pair | From | From Jack | To | To Jack
M12 | | STAGE BOX | | CON30 | | => maybe M12: STAGE BOX @ ? > CON30 @ ?
 | 1 | | 1 | | MIC 1 => M12-1: STAGE BOX @ 1 > CON30 @ MIC 1
 | 2 | | 2 | | MIC 2 => M12-2: STAGE BOX @ 2 > CON30 @ MIC 2
 | 3 | | 3 | | MIC 3 => M12-3: STAGE BOX @ 3 > CON30 @ MIC 3
 | 4 | | 4 | | MIC 4 => M12-4: STAGE BOX @ 4 > CON30 @ MIC 4`,
      },
    ],
  },
  {
    name: 'a fan-out numbered under its mother',
    who: 'a contractor with loom numbers',
    sheets: [
      {
        name: 'Looms',
        rows: `
Cable | From | From Jack | To | To Jack
L7 | FRM1 | D-SUB A | | => maybe L7: FRM1 @ D-SUB A~? > -
.1 | FRM1 | D-SUB A-1 | CON30 | IN 1 => L7.1: FRM1 @ D-SUB A-1 > CON30 @ IN 1
.2 | FRM1 | D-SUB A-2 | CON30 | IN 2 => L7.2: FRM1 @ D-SUB A-2 > CON30 @ IN 2
.3 | FRM1 | D-SUB A-3 | CON30 | IN 3 => L7.3: FRM1 @ D-SUB A-3 > CON30 @ IN 3
L8 | FRM1 | D-SUB B | | => maybe L8: FRM1 @ D-SUB B~? > -
.1 | FRM1 | D-SUB B-1 | CON30 | IN 4 => L8.1: FRM1 @ D-SUB B-1 > CON30 @ IN 4`,
      },
    ],
  },
  {
    name: 'two lists side by side',
    who: 'somebody who saves paper',
    sheets: [
      {
        name: 'Studio A and B',
        rows: `
STUDIO A | | | | | | STUDIO B | | | |
Cable | From | Jack | To | Jack | | Cable | From | Jack | To | Jack
A1 | MIC1 | XLR | PRE1 | 1 | | B1 | MIC5 | XLR | PRE2 | 1 => A1: MIC1 @ XLR > PRE1 @ 1 ;; B1: MIC5 @ XLR > PRE2 @ 1
A2 | MIC2 | XLR | PRE1 | 2 | | B2 | MIC6 | XLR | PRE2 | 2 => A2: MIC2 @ XLR > PRE1 @ 2 ;; B2: MIC6 @ XLR > PRE2 @ 2
A3 | MIC3 | XLR | PRE1 | 3 | | B3 | MIC7 | XLR | PRE2 | 3 => A3: MIC3 @ XLR > PRE1 @ 3 ;; B3: MIC7 @ XLR > PRE2 @ 3`,
      },
    ],
  },
  {
    name: 'a list for each type of wire',
    who: 'a store that buys by the drum',
    file: 'workbook',
    sheets: [
      {
        name: '110R AES',
        rows: `
Cable | From | From Jack | To | To Jack
D1 | AIO21 | OUT 1 | CON30 | IN 1 => D1: AIO21 @ OUT 1 > CON30 @ IN 1
D2 | AIO21 | OUT 2 | CON30 | IN 2 => D2: AIO21 @ OUT 2 > CON30 @ IN 2`,
      },
      {
        name: 'Cat6',
        rows: `
Cable | From | From Jack | To | To Jack
N1 | SW1 | P01 | AIO21 | NET => N1: SW1 @ P01 > AIO21 @ NET
N2 | SW1 | P02 | CON30 | NET => N2: SW1 @ P02 > CON30 @ NET`,
      },
    ],
  },
  {
    name: 'the unit in the title of its list',
    who: 'an engineer with a page per unit',
    anyOrder: true,
    sheets: [
      {
        name: 'SW1',
        rows: `
SW1 | | |
Port | Cable | Goes to | Jack
P01 | 4001 | AIO21 | NET => 4001: SW1 @ P01 > AIO21 @ NET
P02 | 4002 | AIO22 | NET => 4002: SW1 @ P02 > AIO22 @ NET
P03 | 4003 | CON30 | NET A => 4003: SW1 @ P03 > CON30 @ NET A
P04 | | free |
P05 | 4005 | SRV1 | ETH0 => 4005: SW1 @ P05 > SRV1 @ ETH0`,
      },
    ],
  },
  {
    name: 'a card slot in the jack',
    who: 'an engineer of a frame with cards',
    sheets: [
      {
        name: 'Frame',
        rows: `
Cable | From | Slot | Port | To | To Jack
5001 | FRM1 | 3 | 1 | CON30 | IN 1 => 5001: FRM1 @ 3-1~SLOT 3-1~SLOT 3 PORT 1~3 1 > CON30 @ IN 1
5002 | FRM1 | 3 | 2 | CON30 | IN 2 => 5002: FRM1 @ 3-2~SLOT 3-2~SLOT 3 PORT 2~3 2 > CON30 @ IN 2
5003 | FRM1 | 4 | 1 | CON30 | IN 3 => 5003: FRM1 @ 4-1~SLOT 4-1~SLOT 4 PORT 1~4 1 > CON30 @ IN 3
5004 | FRM1 | 4 | 2 | CON30 | IN 4 => 5004: FRM1 @ 4-2~SLOT 4-2~SLOT 4 PORT 2~4 2 > CON30 @ IN 4`,
      },
    ],
  },
];
