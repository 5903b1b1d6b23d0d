// A report of a real fold for the tests of report files: an invented station with two racks, walked in part.

import { foldSightings } from '../../src/core/report/reconcileOutput.ts';
import { type DifferenceLine, type Reconciliation, reconciliation } from '../../src/core/report/reconciliation.ts';
import { readTables } from '../../src/core/schedule/readTables.ts';
import { readCsv } from '../../src/files/csv.ts';
import { readSightingsCsv } from '../../src/files/sightingsCsv.ts';
import { undecided } from './reportFixture.ts';

const bytes = (text: string) => new TextEncoder().encode(text);

const PLAN = `Cable,From unit,From jack,To unit,To jack
1001,SW1,P01,AIO21,NET
1002,SW1,P02,MIO31,NET
1003,SW1,P03,CON32,NET
1004,SW1,P04,HYB41,NET
`;

const SIGHTINGS = `seen_at,by,place,state,label,end,basis,joined_to,note
2026-03-02T09:00:00Z,I. Halloran,SW1 P01,label,1001,,seen,,
2026-03-02T09:01:00Z,I. Halloran,AIO21 NET,label,1001,,seen,,
2026-03-02T09:02:00Z,I. Halloran,SW1 P02,label,1003,,seen,,
2026-03-02T09:03:00Z,I. Halloran,SW1 P03,label,1002,,seen,,
2026-03-02T09:04:00Z,I. Halloran,SW1 P04,not-visible,,,seen,,behind the lacing bar
`;

export function sampleReport(): Reconciliation {
  const sheet = readCsv(bytes(PLAN));
  if (sheet.type !== 'rows') throw new Error(sheet.error.what);
  const read = readTables([{ name: 'list', rows: sheet.rows }], { name: 'list.csv' });
  if (read.type !== 'plan') throw new Error(read.why);
  const seen = readSightingsCsv(bytes(SIGHTINGS), read.plan);
  if (seen.type !== 'sightings' || seen.errors.length > 0) throw new Error(JSON.stringify(seen));
  const given = seen.sightings.map((sighting) => ({ ...sighting, at: sighting.at ?? 0 }));
  return reconciliation(foldSightings(read.plan, given), 'audit', 'Quillmere Community Radio');
}

export function sampleLine(over: Partial<DifferenceLine> = {}): DifferenceLine {
  return {
    id: 'wrong-jack SW1/P02 1003',
    number: 1,
    kind: 'wrong-jack',
    severity: 'on-air',
    severityWords: 'On-air',
    title: 'Label not in its planned jack',
    line: 'SW1-P02: 1003 is here, plan 1002.',
    walkLine: 'SW1-P02: 1003 is here, plan 1002.',
    order: null,
    places: ['SW1-P02'],
    placeIds: ['SW1/P02'],
    labels: ['1003', '1002'],
    found: '1003',
    plan: '1002',
    evidence: [{ at: Date.UTC(2026, 2, 2, 9, 2), author: 'I. Halloran', basis: 'seen' }],
    photos: [],
    notes: [],
    conflict: null,
    goTo: null,
    decision: undecided({ type: 'discrepancy', id: 'wrong-jack SW1/P02 1003' }),
    ...over,
  };
}
