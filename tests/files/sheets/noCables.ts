// Rows that are no cables: headers again and in another order, numbered columns, revisions, totals, approvals, templates,
// phases. Invented; what an engineer reads stands first.
import type { Fixture } from './fixture.ts';

export const NO_CABLES: Fixture[] = [
  {
    name: 'header repeated on every page',
    who: 'an integrator whose list was printed and typed in again',
    sheets: [
      {
        name: 'Cables',
        rows: `
Cable | From | From Jack | To | To Jack | Signal
1001 | AIO21 | OUT 1 | CON30 | IN 1 | AES => 1001: AIO21 @ OUT 1 > CON30 @ IN 1 {aes3}
1002 | AIO21 | OUT 2 | CON30 | IN 2 | AES => 1002: AIO21 @ OUT 2 > CON30 @ IN 2 {aes3}
CABLE NO | FROM | FROM JACK | TO | TO JACK | SIGNAL
1003 | AIO22 | OUT 1 | CON30 | IN 3 | AES => 1003: AIO22 @ OUT 1 > CON30 @ IN 3 {aes3}
1004 | AIO22 | OUT 2 | CON30 | IN 4 | AES => 1004: AIO22 @ OUT 2 > CON30 @ IN 4 {aes3}
Cable | From | From Jack | To | To Jack | Signal
1005 | HYB41 | OUT | CON30 | IN 9 | AES => 1005: HYB41 @ OUT > CON30 @ IN 9 {aes3}`,
      },
    ],
  },
  {
    name: 'header in another order below',
    who: 'two people, one sheet',
    sheets: [
      {
        name: 'Cables',
        rows: `
Cable | From Unit | From Jack | To Unit | To Jack
1101 | AIO21 | OUT 1 | CON30 | IN 1 => 1101: AIO21 @ OUT 1 > CON30 @ IN 1
1102 | AIO21 | OUT 2 | CON30 | IN 2 => 1102: AIO21 @ OUT 2 > CON30 @ IN 2
To Unit | To Jack | From Unit | From Jack | Cable
CON30 | IN 3 | AIO22 | OUT 1 | 1103 => 1103: AIO22 @ OUT 1 > CON30 @ IN 3
CON30 | IN 4 | AIO22 | OUT 2 | 1104 => 1104: AIO22 @ OUT 2 > CON30 @ IN 4`,
      },
    ],
  },
  {
    name: 'a row of column numbers',
    who: 'a public tender office',
    sheets: [
      {
        name: 'Schedule',
        rows: `
Cable No | From Equipment | From Terminal | To Equipment | To Terminal | Cable Type
1 | 2 | 3 | 4 | 5 | 6
P-001 | PDU1 | 1 | AMP1 | PWR | 3G1.5 => P-001: PDU1 @ 1 > AMP1 @ PWR {type=3G1.5}
P-002 | PDU1 | 2 | AMP2 | PWR | 3G1.5 => P-002: PDU1 @ 2 > AMP2 @ PWR {type=3G1.5}
P-003 | PDU2 | 1 | CON30 | PWR A | 3G1.5 => P-003: PDU2 @ 1 > CON30 @ PWR A {type=3G1.5}`,
      },
    ],
  },
  {
    name: 'revisions and approvals around the list',
    who: 'a systems integrator with a drawing office',
    sheets: [
      {
        name: 'CS-04',
        rows: `
Rev | Date | Change | By | Checked
A | 12/03/2019 | First issue | JD | MK
B | 02/05/2019 | AIO22 added | JD | MK

Cable | From | From Jack | To | To Jack
1201 | AIO21 | OUT 1 | CON30 | IN 1 => 1201: AIO21 @ OUT 1 > CON30 @ IN 1
1202 | AIO21 | OUT 2 | CON30 | IN 2 => 1202: AIO21 @ OUT 2 > CON30 @ IN 2
1203 | AIO22 | OUT 1 | CON30 | IN 3 => 1203: AIO22 @ OUT 1 > CON30 @ IN 3

Approved | JD | 02/05/2019 | Client | MK`,
      },
    ],
  },
  {
    name: 'revision table right below the list',
    who: 'the same office, another hand',
    sheets: [
      {
        name: 'CS-05',
        rows: `
Cable | From | From Jack | To | To Jack
1301 | AIO21 | OUT 1 | CON30 | IN 1 => 1301: AIO21 @ OUT 1 > CON30 @ IN 1
1302 | AIO21 | OUT 2 | CON30 | IN 2 => 1302: AIO21 @ OUT 2 > CON30 @ IN 2
Rev | Description | Date | Drawn | Checked
0 | For tender | 01/02/2019 | JD | MK
1 | For construction | 11/04/2019 | JD | MK
2 | As built | 30/08/2019 | PS | MK`,
      },
    ],
  },
  {
    name: 'totals under every rack',
    who: 'a contractor who is paid by the metre',
    sheets: [
      {
        name: 'Pulls',
        rows: `
Cable | From | From Jack | To | To Jack | Length
RACK 1 | | | | |
1401 | AIO21 | OUT 1 | CON30 | IN 1 | 12 m => 1401: AIO21 @ OUT 1 > CON30 @ IN 1 {length=12 m}
1402 | AIO21 | OUT 2 | CON30 | IN 2 | 12 m => 1402: AIO21 @ OUT 2 > CON30 @ IN 2 {length=12 m}
Total rack 1 | 2 cables | | | | 24 m
RACK 2 | | | | |
1403 | AIO22 | OUT 1 | CON30 | IN 3 | 18 m => 1403: AIO22 @ OUT 1 > CON30 @ IN 3 {length=18 m}
1404 | AIO22 | OUT 2 | CON30 | IN 4 | 18 m => 1404: AIO22 @ OUT 2 > CON30 @ IN 4 {length=18 m}
Total rack 2 | 2 cables | | | | 36 m
All racks | 4 cables | | | | 60 m`,
      },
    ],
  },
  {
    name: 'a template row left in',
    who: 'an intern',
    sheets: [
      {
        name: 'Cables',
        rows: `
Cable | From | From Jack | To | To Jack | Signal
XXXX | UNIT | JACK | UNIT | JACK | SIGNAL
e.g. 1000 | AIO99 | OUT 1 | CON99 | IN 1 | AES
1501 | AIO21 | OUT 1 | CON30 | IN 1 | AES => 1501: AIO21 @ OUT 1 > CON30 @ IN 1 {aes3}
1502 | AIO21 | OUT 2 | CON30 | IN 2 | AES => 1502: AIO21 @ OUT 2 > CON30 @ IN 2 {aes3}
1503 | AIO22 | OUT 1 | CON30 | IN 3 | AES => 1503: AIO22 @ OUT 1 > CON30 @ IN 3 {aes3}`,
      },
    ],
  },
  {
    name: 'phases between the rows',
    who: 'a project manager',
    sheets: [
      {
        name: 'Cables',
        rows: `
Cable | From | From Jack | To | To Jack
Phase 1 | studio A | week 12 | two men | done
1601 | AIO21 | OUT 1 | CON30 | IN 1 => 1601: AIO21 @ OUT 1 > CON30 @ IN 1
1602 | AIO21 | OUT 2 | CON30 | IN 2 => 1602: AIO21 @ OUT 2 > CON30 @ IN 2
Phase 2 | studio B | week 14 | two men | open
1603 | AIO22 | OUT 1 | CON31 | IN 1 => 1603: AIO22 @ OUT 1 > CON31 @ IN 1
1604 | AIO22 | OUT 2 | CON31 | IN 2 => 1604: AIO22 @ OUT 2 > CON31 @ IN 2`,
      },
    ],
  },
  {
    name: 'sentences between the rows',
    who: 'a station engineer with opinions',
    sheets: [
      {
        name: 'Cables',
        rows: `
Cable | From | From Jack | To | To Jack
1701 | AIO21 | OUT 1 | CON30 | IN 1 => 1701: AIO21 @ OUT 1 > CON30 @ IN 1
NB | all cables below were pulled by the old crew and nobody checked them | | |
1702 | AIO21 | OUT 2 | CON30 | IN 2 => 1702: AIO21 @ OUT 2 > CON30 @ IN 2
Note 3 | ask the night shift before you unplug any of these | | see book | p. 14
1703 | AIO22 | OUT 1 | CON30 | IN 3 => 1703: AIO22 @ OUT 1 > CON30 @ IN 3`,
      },
    ],
  },
  {
    name: 'a rack drawing beside the list',
    who: 'somebody who draws racks out of cells',
    sheets: [
      {
        name: 'Rack 3',
        rows: `
Cable | From | From Jack | To | To Jack | | U | RACK 3
1801 | AIO21 | OUT 1 | CON30 | IN 1 | | 42 | blank => 1801: AIO21 @ OUT 1 > CON30 @ IN 1
1802 | AIO21 | OUT 2 | CON30 | IN 2 | | 41 | AIO21 => 1802: AIO21 @ OUT 2 > CON30 @ IN 2
1803 | AIO22 | OUT 1 | CON30 | IN 3 | | 40 | AIO22 => 1803: AIO22 @ OUT 1 > CON30 @ IN 3
 | | | | | | 39 | shelf
 | | | | | | 38 | SW1`,
      },
    ],
  },
];
