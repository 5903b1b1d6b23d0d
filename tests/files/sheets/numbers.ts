// Names that a spreadsheet took for numbers or dates, zeros, look-alike letters, ranges with odd signs. Invented.
import type { Fixture } from './fixture.ts';

export const NUMBERS: Fixture[] = [
  {
    name: 'ports eaten as decimals',
    who: 'an IT person whose ports are 1.1 to 1.20',
    file: 'workbook',
    sheets: [
      {
        name: 'Ports',
        rows: `
Cable | From | From Port | To | To Port
101 | SW1 | 1.8 | AIO1 | NET => 101: SW1 @ 1.8 > AIO1 @ NET
102 | SW1 | 1.9 | AIO2 | NET => 102: SW1 @ 1.9 > AIO2 @ NET
103 | SW1 | 1.1 | AIO3 | NET => 103: SW1 @ 1.10 > AIO3 @ NET
104 | SW1 | 1.11 | AIO4 | NET => 104: SW1 @ 1.11 > AIO4 @ NET
105 | SW1 | 1.2 | AIO5 | NET => 105: SW1 @ 1.20 > AIO5 @ NET`,
        looks: { numbers: { C2: '', C3: '', C4: '', C5: '', C6: '' } },
      },
    ],
  },
  {
    name: 'dates that were ports',
    who: 'an IT person whose ports are slot-port',
    file: 'workbook',
    sheets: [
      {
        name: 'Ports',
        rows: `
Cable | From | From Port | To | To Port
201 | SW1 | 43468 | AIO1 | NET => 201: SW1 @ 1-3 > AIO1 @ NET
202 | SW1 | 43469 | AIO2 | NET => 202: SW1 @ 1-4 > AIO2 @ NET
203 | SW1 | 43497 | AIO3 | NET => 203: SW1 @ 2-1 > AIO3 @ NET
204 | SW1 | 13-1 | AIO4 | NET => 204: SW1 @ 13-1 > AIO4 @ NET`,
        looks: { numbers: { C2: 'd-mmm', C3: 'd-mmm', C4: 'd-mmm' } },
      },
    ],
  },
  {
    name: 'numbers kept as a formula',
    who: 'an export that guards its zeros',
    file: { csv: ',' },
    sheets: [
      {
        name: 'export',
        rows: `
Cable No,From Unit,From Jack,To Unit,To Jack
="0101",SW1,="01",SW2,="01" => 0101: SW1 @ 01 > SW2 @ 01
="0102",SW1,="02",SW2,="02" => 0102: SW1 @ 02 > SW2 @ 02
="0103",SW1,="03",SW2,="03" => 0103: SW1 @ 03 > SW2 @ 03`.replaceAll(',', ' | '),
      },
    ],
  },
  {
    name: 'an ellipsis for a range',
    who: 'a word processor turned three dots into one sign',
    sheets: [
      {
        name: 'Multis',
        rows: `
Cable | From | From Jack | To | To Jack
301…303 | BOX1 | 1…3 | CON30 | IN 1…IN 3 => 301: BOX1 @ 1 > CON30 @ IN 1 ;; 302: BOX1 @ 2 > CON30 @ IN 2 ;; 303: BOX1 @ 3 > CON30 @ IN 3
304 | BOX1 | 4 | CON30 | IN 4 => 304: BOX1 @ 4 > CON30 @ IN 4
305…306 | BOX1 | 5…6 | CON30 | IN 5…IN 6 => 305: BOX1 @ 5 > CON30 @ IN 5 ;; 306: BOX1 @ 6 > CON30 @ IN 6`,
      },
    ],
  },
  {
    name: 'decimal commas in lengths',
    who: 'a Belgian list in English',
    sheets: [
      {
        name: 'Cables',
        rows: `
Cable | From | From Jack | To | To Jack | Length (m)
401 | AIO21 | OUT 1 | CON30 | IN 1 | 7,5 => 401: AIO21 @ OUT 1 > CON30 @ IN 1 {length=7,5}
402 | AIO21 | OUT 2 | CON30 | IN 2 | 12,25 => 402: AIO21 @ OUT 2 > CON30 @ IN 2 {length=12,25}
403 | AIO22 | OUT 1 | CON30 | IN 3 | 3 => 403: AIO22 @ OUT 1 > CON30 @ IN 3 {length=3}`,
      },
    ],
  },
  {
    name: 'p1 beside p01',
    who: 'two people kept the list in turn',
    sheets: [
      {
        name: 'Switch',
        rows: `
Cable | From | From Jack | To | To Jack
501 | AIO21 | NET | SW1 | P01 => 501: AIO21 @ NET > SW1 @ P01
502 | AIO22 | NET | SW1 | P02 => 502: AIO22 @ NET > SW1 @ P02
503 | AIO23 | NET | SW1 | P3 => 503: AIO23 @ NET > SW1 @ P03
504 | AIO24 | NET | SW1 | P04 => 504: AIO24 @ NET > SW1 @ P04
505 | AIO25 | NET | SW1 | P5 => 505: AIO25 @ NET > SW1 @ P05`,
      },
    ],
  },
  {
    name: 'a cyrillic letter among latin ones',
    who: 'somebody with two keyboards',
    sheets: [
      {
        name: 'Cables',
        rows: `
Cable | From | From Jack | To | To Jack
A101 | CON30 | OUT 1 | AMP1 | IN 1 => A101: CON30 @ OUT 1 > AMP1 @ IN 1
А102 | CON30 | OUT 2 | AMP1 | IN 2 => A102: CON30 @ OUT 2 > AMP1 @ IN 2
A103 | СON30 | OUT 3 | AMP2 | IN 1 => A103: CON30 @ OUT 3 > AMP2 @ IN 1
A104 | CON30 | OUT 4 | AMP2 | IN 2 => A104: CON30 @ OUT 4 > AMP2 @ IN 2`,
      },
    ],
  },
  {
    name: 'numbers without their zeros in a workbook',
    who: 'a list whose numbers are 0098 to 0102 on the labels',
    file: 'workbook',
    sheets: [
      {
        name: 'Cables',
        rows: `
Cable | From | From Jack | To | To Jack
98 | AIO21 | OUT 1 | CON30 | IN 1 => 0098: AIO21 @ OUT 1 > CON30 @ IN 1
99 | AIO21 | OUT 2 | CON30 | IN 2 => 0099: AIO21 @ OUT 2 > CON30 @ IN 2
100 | AIO22 | OUT 1 | CON30 | IN 3 => 0100: AIO22 @ OUT 1 > CON30 @ IN 3`,
        looks: { numbers: { A2: '0000', A3: '0000', A4: '0000' } },
      },
    ],
  },
  {
    name: 'not on air',
    who: 'a careful person who says what is not',
    sheets: [
      {
        name: 'Cables',
        rows: `
Cable | From | From Jack | To | To Jack | Notes
601 | CON30 | PGM L | TXP1 | IN L | on air => 601: CON30 @ PGM L > TXP1 @ IN L {on air}
602 | CON30 | PGM R | TXP1 | IN R | on air => 602: CON30 @ PGM R > TXP1 @ IN R {on air}
603 | CON31 | PGM L | REC1 | IN L | not on air => 603: CON31 @ PGM L > REC1 @ IN L
604 | CON31 | PGM R | REC1 | IN R | never on air, training => 604: CON31 @ PGM R > REC1 @ IN R`,
      },
    ],
  },
  {
    name: 'exponents that were names',
    who: 'a spreadsheet met 1E5 and 2E3',
    file: 'workbook',
    sheets: [
      {
        name: 'Frames',
        rows: `
Cable | From | From Jack | To | To Jack
701 | FRM1 | 100000 | CON30 | IN 1 => 701: FRM1 @ 1E5 > CON30 @ IN 1
702 | FRM1 | 1F5 | CON30 | IN 2 => 702: FRM1 @ 1F5 > CON30 @ IN 2
703 | FRM1 | 2000 | CON30 | IN 3 => 703: FRM1 @ 2E3 > CON30 @ IN 3`,
        looks: { numbers: { C2: '0.00E+00', C4: '0.00E+00' } },
      },
    ],
  },
];
