// A random tidy plan whose titles say nothing, or say it in another language, reads back to the same plan or is asked
// about; so does one whose columns stand in another order under titles that are known. Invented.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readTables } from '../../../src/core/schedule/readTables.ts';
import { planToShape, type Shape, type Tidy, tidyPlan, tidyToShape } from './tidy.ts';
import { COLUMNS, toRows } from './write.ts';

const NONSENSE = COLUMNS.map((_, i) => `Zork ${String.fromCharCode(65 + i)}`);
const OTHERS: [string, string[]][] = [
  ['nonsense', NONSENSE],
  ['blank titles', COLUMNS.map(() => '')],
  [
    'German',
    'Kabel-Nr.|Von Ort|Von Gerät|Von Buchse|Nach Ort|Nach Gerät|Nach Buchse|Signal|Kabeltyp|Länge|Zustand|Bemerkung'.split(
      '|',
    ),
  ],
  [
    'French',
    'Repère|Tenant lieu|Tenant appareil|Tenant borne|Aboutissant lieu|Aboutissant appareil|Aboutissant borne|Type de signal|Type de câble|Longueur|État|Remarques'.split(
      '|',
    ),
  ],
  [
    'Spanish',
    'Nº|Lugar origen|Equipo origen|Puerto origen|Lugar destino|Equipo destino|Puerto destino|Señal|Tipo de cable|Longitud|Estado|Observaciones'.split(
      '|',
    ),
  ],
  ['Finnish', 'Kaapeli|Lähtöpaikka|Lähde|Liitin|Kohdepaikka|Kohde|Liitin|Laji|Tyyppi|Pituus|Tila|Huomautus'.split('|')],
];

/** What no title names may be left out, as long as each cable has its ends and its number. */
const bare = ({ cables }: Shape) =>
  cables
    .map(({ label, places }) => ({ label, places: [...places].sort() }))
    .sort((a, b) => a.label.localeCompare(b.label));

function readsBack(tidy: Tidy, rows: string[][]): 'same' | 'asked' | 'refused' {
  const read = readTables([{ name: 'Run list', rows }], { name: 'x' });
  if (read.type !== 'plan') return 'refused';
  const same = JSON.stringify(bare(planToShape(read.plan))) === JSON.stringify(bare(tidyToShape(tidy)));
  if (same) return 'same';
  const isAsked = read.questions.length > 0;
  if (!isAsked) expect(bare(planToShape(read.plan))).toEqual(bare(tidyToShape(tidy)));
  return 'asked';
}

describe('a tidy plan without its titles', () => {
  it.each(OTHERS)('%s', (_, titles) => {
    const became: string[] = [];
    fc.assert(
      fc.property(tidyPlan, (tidy) => {
        const [, ...body] = toRows(tidy);
        became.push(readsBack(tidy, [titles, ...body]));
      }),
      { numRuns: 60 },
    );
    // Two or three rows are too few to tell; most are told.
    expect(became.filter((one) => one === 'same').length).toBeGreaterThan(became.length / 2);
  });

  it('columns in another order under titles that are known read back the same', () => {
    fc.assert(
      fc.property(
        tidyPlan,
        fc.shuffledSubarray([...COLUMNS.keys()], { minLength: COLUMNS.length, maxLength: COLUMNS.length }),
        (tidy, order) => {
          const rows = toRows(tidy).map((cells) => order.map((column) => cells[column] ?? ''));
          expect(readsBack(tidy, rows)).toBe('same');
        },
      ),
      { numRuns: 60 },
    );
  });
});
