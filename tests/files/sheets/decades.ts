// A list that a station kept for decades: signs for the same again, words for unknown and for free, notes in the wrong
// place. Invented; the words are common practice, no published source.
import type { Fixture } from './fixture.ts';

const HEAD = 'Cable | From | From Jack | To | To Jack | Type | Notes';

export const DECADES: Fixture[] = [
  {
    name: 'ditto in every hand',
    who: 'four engineers in a row',
    sheets: [
      {
        name: 'Trunks',
        rows: `
${HEAD}
101 | TUNER1 | OUT L | PANEL1 | 1 | quad | => 101: TUNER1 @ OUT L > PANEL1 @ 1 {type=quad}
102 | dito | OUT R | " | 2 | as above | => 102: TUNER1 @ OUT R > PANEL1 @ 2 {type=quad}
103 | TUNER2 | OUT L | as row above | 3 | ditto | => 103: TUNER2 @ OUT L > PANEL1 @ 3 {type=quad}
104 | same | OUT R | -"- | 4 | do. | => 104: TUNER2 @ OUT R > PANEL1 @ 4 {type=quad}
105 | TUNER3 | OUT L | same as above | 5 | idem | => 105: TUNER3 @ OUT L > PANEL1 @ 5 {type=quad}
106 | see above | OUT R | same as 105 | 6 | \\\\ | => 106: TUNER3 @ OUT R > PANEL1 @ 6`,
      },
    ],
  },
  {
    name: 'words that are no names',
    who: 'the same list, ten years on',
    sheets: [
      {
        name: 'Trunks',
        rows: `
${HEAD}
201 | TUNER1 | OUT L | PANEL1 | 1 | quad | => 201: TUNER1 @ OUT L > PANEL1 @ 1
202 | TUNER1 | OUT R | to be confirmed | | quad | => 202: TUNER1 @ OUT R > -
203 | TUNER2 | OUT L | see note 3 | | quad | => 203: TUNER2 @ OUT L > -
204 | TUNER2 | OUT R | TBD | | quad | => 204: TUNER2 @ OUT R > -
205 | TUNER3 | OUT L | ask Jim | | quad | => 205: TUNER3 @ OUT L > -
206 | TUNER3 | OUT R | not used | | quad | => 206: TUNER3 @ OUT R > - {spare}`,
      },
    ],
  },
  {
    name: 'free in four languages',
    who: 'a station at a border',
    sheets: [
      {
        name: 'Trunks',
        rows: `
${HEAD}
301 | PANEL1 | 1 | PANEL2 | 1 | quad | => 301: PANEL1 @ 1 > PANEL2 @ 1
302 | PANEL1 | 2 | frei | | quad | => 302: PANEL1 @ 2 > - {spare}
303 | PANEL1 | 3 | libre | | quad | => 303: PANEL1 @ 3 > - {spare}
304 | PANEL1 | 4 | vrij | | quad | => 304: PANEL1 @ 4 > - {spare}
305 | PANEL1 | 5 | libero | | quad | => 305: PANEL1 @ 5 > - {spare}
306 | PANEL1 | 6 | spare | | quad | => 306: PANEL1 @ 6 > - {spare}`,
      },
    ],
  },
  {
    name: 'notes behind the jacks',
    who: 'somebody without a notes column',
    sheets: [
      {
        name: 'Mics',
        rows: `
Cable | From | From Jack | To | To Jack
401 | WALL1 | 1 (new) | PRE1 | 1 => 401: WALL1 @ 1 > PRE1 @ 1
402 | WALL1 | 2* | PRE1 | 2 => 402: WALL1 @ 2 > PRE1 @ 2
403 | WALL1 | 3 - noisy | PRE1 | 3 => 403: WALL1 @ 3 > PRE1 @ 3
404 | WALL1 | 4, ask first | PRE1 | 4 => 404: WALL1 @ 4 > PRE1 @ 4
405 | WALL1 | 5 or 6? | PRE1 | 5 => 405: WALL1 @ ? > PRE1 @ 5`,
      },
    ],
  },
  {
    name: 'names on their first row only',
    who: 'a neat typist',
    sheets: [
      {
        name: 'Rack 2',
        rows: `
From | From Jack | To | To Jack | Cable
AIO21 | OUT 1 | CON30 | IN 1 | 501 => 501: AIO21 @ OUT 1 > CON30 @ IN 1
 | OUT 2 | | IN 2 | 502 => 502: AIO21 @ OUT 2 > CON30 @ IN 2
 | OUT 3 | AMP1 | IN 1 | 503 => 503: AIO21 @ OUT 3 > AMP1 @ IN 1
AIO22 | OUT 1 | | IN 2 | 504 => 504: AIO22 @ OUT 1 > AMP1 @ IN 2
 | OUT 2 | REC1 | IN L | 505 => 505: AIO22 @ OUT 2 > REC1 @ IN L`,
      },
    ],
  },
  {
    name: 'two numbers on one cable',
    who: 'a station that renumbered halfway',
    sheets: [
      {
        name: 'Cables',
        rows: `
Old No | New No | From | From Jack | To | To Jack
17 | A601 | TUNER1 | OUT L | PANEL1 | 1 => A601: TUNER1 @ OUT L > PANEL1 @ 1
18 | A602 | TUNER1 | OUT R | PANEL1 | 2 => A602: TUNER1 @ OUT R > PANEL1 @ 2
22 | A603 | TUNER2 | OUT L | PANEL1 | 3 => A603: TUNER2 @ OUT L > PANEL1 @ 3
23 | A604 | TUNER2 | OUT R | PANEL1 | 4 => A604: TUNER2 @ OUT R > PANEL1 @ 4`,
      },
    ],
  },
];
