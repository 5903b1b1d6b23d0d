// What is not there any more, or not yet: struck through, filled, commented, hidden, in words. Invented. A row without a
// reading is one that an engineer does not look for on the floor.
import type { Fixture } from './fixture.ts';

const FIVE = (n: number, extra: (i: number) => string, isGone: (i: number) => boolean) =>
  Array.from({ length: 5 }, (_, i) => {
    const [label, out, port] = [n + i, `OUT ${i + 1}`, `IN ${i + 1}`];
    const row = `${label} | AIO21 | ${out} | CON30 | ${port}${extra(i)}`;
    return isGone(i) ? row : `${row} => ${label}: AIO21 @ ${out} > CON30 @ ${port}`;
  }).join('\n');

const HEAD = 'Cable | From | From Jack | To | To Jack';

export const GONE: Fixture[] = [
  {
    name: 'rows struck through',
    who: 'a station engineer who never deletes',
    file: 'workbook',
    sheets: [
      {
        name: 'Cables',
        rows: `${HEAD}\n${FIVE(
          2001,
          () => '',
          (i) => i === 1 || i === 3,
        )}`,
        looks: { struckRows: [3, 5] },
      },
    ],
  },
  {
    name: 'part of a cell struck through',
    who: 'the same engineer, who moved a cable',
    file: 'workbook',
    sheets: [
      {
        name: 'Cables',
        rows: `
${HEAD}
2101 | AIO21 | OUT 1 | CON30 | IN 1 => 2101: AIO21 @ OUT 1 > CON30 @ IN 1
2102 | AIO21 | OUT 2 | CON30 | IN 2 IN 7 => 2102: AIO21 @ OUT 2 > CON30 @ IN 7
2103 | AIO21 | OUT 3 | CON30 | IN 3 => 2103: AIO21 @ OUT 3 > CON30 @ IN 3`,
        looks: { struck: [{ at: 'E3', words: 'IN 2 ' }] },
      },
    ],
  },
  {
    name: 'fills with a key',
    who: 'a planner who thinks in colours',
    file: 'workbook',
    sheets: [
      {
        name: 'Cables',
        rows: `${HEAD}\n${FIVE(
          2201,
          () => '',
          (i) => i === 2,
        )}\n\nKey\nremoved\nnew`,
        looks: { fills: { 4: 'FF9999' }, cellFills: { A9: 'FF9999', A10: '99FF99' } },
      },
    ],
  },
  {
    name: 'a comment that says removed',
    who: 'somebody who comments',
    file: 'workbook',
    sheets: [
      {
        name: 'Cables',
        rows: `${HEAD}\n${FIVE(
          2301,
          () => '',
          (i) => i === 4,
        )}`,
        looks: { comments: { A6: 'removed 3 May, put back in store' } },
      },
    ],
  },
  {
    name: 'hidden rows',
    who: 'somebody who filters',
    file: 'workbook',
    sheets: [
      {
        name: 'Cables',
        rows: `${HEAD}\n${FIVE(
          2401,
          () => '',
          (i) => i === 1,
        )}`,
        looks: { hiddenRows: [3] },
      },
    ],
  },
  {
    name: 'status words for gone',
    who: 'three people over ten years',
    sheets: [
      {
        name: 'Cables',
        rows: `
${HEAD} | Status
2501 | AIO21 | OUT 1 | CON30 | IN 1 | ok => 2501: AIO21 @ OUT 1 > CON30 @ IN 1
2502 | AIO21 | OUT 2 | CON30 | IN 2 | removed
2503 | AIO21 | OUT 3 | CON30 | IN 3 | void
2504 | AIO21 | OUT 4 | CON30 | IN 4 | dead
2505 | AIO21 | OUT 5 | CON30 | IN 5 | deleted
2506 | AIO21 | OUT 6 | CON30 | IN 6 | ok => 2506: AIO21 @ OUT 6 > CON30 @ IN 6`,
      },
    ],
  },
  {
    name: 'ticks and crosses',
    who: 'an installer with a clip board',
    sheets: [
      {
        name: 'Pull list',
        rows: `
${HEAD} | Installed
2601 | AIO21 | OUT 1 | CON30 | IN 1 | ✓ => 2601: AIO21 @ OUT 1 > CON30 @ IN 1
2602 | AIO21 | OUT 2 | CON30 | IN 2 | ✓ => 2602: AIO21 @ OUT 2 > CON30 @ IN 2
2603 | AIO21 | OUT 3 | CON30 | IN 3 | ✗ => 2603: AIO21 @ OUT 3 > CON30 @ IN 3 {future}
2604 | AIO21 | OUT 4 | CON30 | IN 4 | No => 2604: AIO21 @ OUT 4 > CON30 @ IN 4 {future}
2605 | AIO21 | OUT 5 | CON30 | IN 5 | Yes => 2605: AIO21 @ OUT 5 > CON30 @ IN 5`,
      },
    ],
  },
  {
    name: 'removed in the notes',
    who: 'a station without a status column',
    sheets: [
      {
        name: 'Cables',
        rows: `
${HEAD} | Notes
2701 | AIO21 | OUT 1 | CON30 | IN 1 | => 2701: AIO21 @ OUT 1 > CON30 @ IN 1
2702 | AIO21 | OUT 2 | CON30 | IN 2 | removed when CON30 was rebuilt
2703 | AIO21 | OUT 3 | CON30 | IN 3 | do not remove! => 2703: AIO21 @ OUT 3 > CON30 @ IN 3
2704 | AIO21 | OUT 4 | CON30 | IN 4 | cable cut, dead in duct
2705 | AIO21 | OUT 5 | CON30 | IN 5 | moved from AMP1 2018 => 2705: AIO21 @ OUT 5 > CON30 @ IN 5`,
      },
    ],
  },
  {
    name: 'a superseded sheet beside the new one',
    who: 'an integrator who keeps everything',
    sheets: [
      {
        name: 'Cables rev C',
        rows: `${HEAD}\n${FIVE(
          2801,
          () => '',
          () => false,
        )}`,
      },
      {
        name: 'OLD - superseded',
        rows: `
${HEAD}
2801 | AIO21 | OUT 1 | CON22 | IN 1
2802 | AIO21 | OUT 2 | CON22 | IN 2
2890 | AIO21 | OUT 9 | CON22 | IN 9`,
      },
    ],
  },
  {
    name: 'a sheet of cables taken out',
    who: 'a store keeper at the same station',
    sheets: [
      {
        name: 'Cables',
        rows: `${HEAD}\n${FIVE(
          2901,
          () => '',
          () => false,
        )}`,
      },
      {
        name: 'Decommissioned',
        rows: `
${HEAD}
2950 | AIO11 | OUT 1 | CON22 | IN 1
2951 | AIO11 | OUT 2 | CON22 | IN 2`,
      },
    ],
  },
];
