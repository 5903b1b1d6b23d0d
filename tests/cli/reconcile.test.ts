// The command line's promises: exactly the planted differences, an exit code for each outcome, sentences with file, row
// and column, and the same bytes every time. The demo is invented; its planted list stands in public/demo/planted.json.
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import * as z from 'zod/mini';
import { main } from '../../src/cli/reconcile.ts';
import { ACTIONS } from '../../src/core/fixes/step.ts';
import { SEVERITIES } from '../../src/core/trade/kinds.ts';
import { toXlsx } from '../files/messy/write.ts';

const DEMO = join(import.meta.dirname, '..', '..', 'public', 'demo');
const SCHEDULE = join(DEMO, 'schedule.xlsx');
const FLOOR = join(DEMO, 'floor.csv');
const HEADER = 'seen_at,by,place,state,label,end,basis,joined_to,note';

/** Strict, so that a key that design and README do not name is a failure. */
const strings = z.array(z.string());
const outputSchema = z.strictObject({
  plan: z.strictObject({
    cables: z.array(
      z.strictObject({
        label: z.string(),
        ends: z.array(
          z.strictObject({ end: z.string(), location: z.optional(z.string()), unit: z.string(), jack: z.string() }),
        ),
      }),
    ),
    guesses: z.array(
      z.strictObject({
        sheet: z.string(),
        row: z.number(),
        column: z.optional(z.string()),
        said: z.string(),
        readAs: z.string(),
      }),
    ),
    contradictions: z.array(
      z.strictObject({
        type: z.string(),
        labels: strings,
        places: strings,
        rows: z.array(z.strictObject({ sheet: z.string(), row: z.number() })),
      }),
    ),
    questions: z.array(
      z.strictObject({
        sheet: z.string(),
        row: z.number(),
        column: z.optional(z.string()),
        said: z.string(),
        question: z.string(),
      }),
    ),
    ignored: z.array(
      z.strictObject({ sheet: z.string(), row: z.number(), column: z.optional(z.string()), said: z.string() }),
    ),
  }),
  coverage: z.strictObject({ places: z.number(), seen: z.number(), cables: z.number(), bothEnds: z.number() }),
  discrepancies: z.array(
    z.strictObject({
      kind: z.string(),
      severity: z.enum(SEVERITIES),
      places: strings,
      labels: strings,
      cause: z.optional(z.string()),
    }),
  ),
  causes: z.array(z.unknown()),
  fixes: z.array(
    z.strictObject({
      step: z.number(),
      action: z.enum(ACTIONS),
      from: z.optional(z.string()),
      to: z.optional(z.string()),
      label: z.optional(z.string()),
      why: z.string(),
      interrupts: strings,
    }),
  ),
});
const plantedSchema = z.object({ planted: z.array(z.object({ kind: z.string(), places: strings, labels: strings })) });

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'asfound-reconcile-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function file(name: string, content: string | Uint8Array): string {
  const path = join(folder, name);
  writeFileSync(path, content);
  return path;
}

async function run(...argv: string[]) {
  let [out, err] = ['', ''];
  const exit = await main(argv, {
    out: (text) => {
      out += text;
    },
    err: (text) => {
      err += text;
    },
  });
  return { exit, out, err };
}

async function output(...argv: string[]) {
  const { exit, out, err } = await run(...argv);
  expect(err).toBe('');
  return { exit, ...z.parse(outputSchema, JSON.parse(out)) };
}

const asSet = ({ kind, places, labels }: { kind: string; places: string[]; labels: string[] }) =>
  `${kind} at ${[...places].sort().join(' + ')} of ${[...labels].sort().join(' + ')}`;

describe('reconcile on the demo', () => {
  it('finds every planted difference and nothing else', async () => {
    const { planted } = z.parse(plantedSchema, JSON.parse(readFileSync(join(DEMO, 'planted.json'), 'utf8')));
    const { exit, discrepancies, coverage } = await output('--plan', SCHEDULE, '--sightings', FLOOR, '--json');
    expect(planted.length).toBeGreaterThan(10);
    expect(discrepancies.map(asSet).sort()).toEqual(planted.map(asSet).sort());
    expect(exit).toBe(1);
    expect(coverage.seen).toBe(coverage.places);
  });

  it('orders the work: the hazard first, the row back from its free end, no plug of what is undecided', async () => {
    const { fixes } = await output('--plan', SCHEDULE, '--sightings', FLOOR);
    expect(fixes.map(({ step }) => step)).toEqual(fixes.map((_, i) => i + 1));
    expect(fixes[0]).toMatchObject({ action: 'ask', to: 'AIO22 I4' });
    const moved = fixes.filter(({ action }) => ['hold', 'pull', 'plug'].includes(action));
    expect(moved.map(({ label, from, to }) => `${label} ${from} > ${to}`)).toEqual([
      '1035 SW2 P06 > SW2 P05',
      '1036 SW2 P07 > SW2 P06',
      '1037 SW2 P08 > SW2 P07',
      '4002 loose: tray behind Studio B desk > TALB T1',
    ]);
    expect(moved[0]!.interrupts[0]).toContain('1035');
    // 1003 and 1004 are crossed, or their labels are: one look is owed and neither plug moves.
    expect(fixes.find(({ to }) => to === 'SW1 P03')).toMatchObject({ action: 'test', label: '1003' });
  });

  it('says of a plan alone that nothing differs, with nothing seen', async () => {
    const { exit, plan, coverage, discrepancies } = await output('--plan', SCHEDULE);
    expect(exit).toBe(0);
    expect(discrepancies).toEqual([]);
    expect(plan.cables).toHaveLength(148);
    expect(coverage).toMatchObject({ seen: 0, bothEnds: 0, cables: 148 });
  });

  it('gives the same bytes for the same files', async () => {
    const first = await run('--plan', SCHEDULE, '--sightings', FLOOR);
    const second = await run('--plan', SCHEDULE, '--sightings', FLOOR);
    expect(first.out.length).toBeGreaterThan(10_000);
    expect(second.out).toBe(first.out);
  });

  it('does not depend on the order of the rows', async () => {
    const [header = '', ...rows] = readFileSync(FLOOR, 'utf8').trimEnd().split(/\r?\n/);
    const backwards = file('backwards.csv', `${[header, ...rows.reverse()].join('\n')}\n`);
    const there = await output('--plan', SCHEDULE, '--sightings', FLOOR);
    const back = await output('--plan', SCHEDULE, '--sightings', backwards);
    expect(back.discrepancies.map(asSet).sort()).toEqual(there.discrepancies.map(asSet).sort());
    expect(back.coverage).toEqual(there.coverage);
  });
});

describe('reconcile on small lists', () => {
  const PLAN = [
    'Cable No,From Unit,From Jack,To Unit,To Jack',
    '0101,AIO1,I1,SW1,P01',
    '101,AIO1,11,SW1,P02',
    '1001,AIO1,I2,SW1,P03',
    'I001,AIO1,I3,SW1,P04',
  ].join('\n');

  it('keeps look-alike cables and jacks apart, all of them', async () => {
    const plan = file('alike.csv', PLAN);
    const { exit, plan: read } = await output('--plan', plan);
    expect(exit).toBe(0);
    expect(read.cables.map((cable) => [cable.label, ...cable.ends.map((end) => `${end.unit} ${end.jack}`)])).toEqual([
      ['0101', 'AIO1 I1', 'SW1 P01'],
      ['101', 'AIO1 11', 'SW1 P02'],
      ['1001', 'AIO1 I2', 'SW1 P03'],
      ['I001', 'AIO1 I3', 'SW1 P04'],
    ]);
    expect(read.contradictions).toEqual([]);
  });

  it('takes 101 for exactly 101 where 0101 belongs', async () => {
    const plan = file('alike.csv', PLAN);
    const floor = file('alike-floor.csv', `${HEADER}\n,,SW1 P01,label,101,,seen,,\n`);
    const { exit, discrepancies } = await output('--plan', plan, '--sightings', floor);
    expect(exit).toBe(1);
    expect(discrepancies.map(asSet)).toEqual(['wrong-jack at SW1 P01 of 101']);
  });

  it('answers 0 when all that was seen is as planned', async () => {
    const plan = file('alike.csv', PLAN);
    const floor = file('fits.csv', `${HEADER}\n,,SW1 P01,label,0101,,seen,,\n,,AIO1 I1,label,0101,,seen,,\n`);
    const { exit, discrepancies, coverage } = await output('--plan', plan, '--sightings', floor);
    expect({ exit, discrepancies }).toEqual({ exit: 0, discrepancies: [] });
    expect(coverage).toEqual({ places: 8, seen: 2, cables: 4, bothEnds: 1 });
  });

  it('takes a range as one statement', async () => {
    const plan = file('alike.csv', PLAN);
    const floor = file('range.csv', `${HEADER}\n,,SW1 P01..P04,empty,,,seen,,\n`);
    const { discrepancies, coverage } = await output('--plan', plan, '--sightings', floor);
    expect(coverage.seen).toBe(4);
    expect(discrepancies.map(({ kind, labels }) => [kind, ...labels]).sort()).toEqual([
      ['empty-jack', '0101'],
      ['empty-jack', '1001'],
      ['empty-jack', '101'],
      ['empty-jack', 'I001'],
    ]);
  });

  it('prints what the schedule leaves open, and answers 1 while that changes a cable', async () => {
    const plan = file('asks.csv', `${PLAN}\n0102,AIO1,I5,TBD,\n`);
    const { exit, plan: read, discrepancies } = await output('--plan', plan);
    expect(read.questions).toEqual([
      { sheet: 'asks', row: 6, column: 'To Unit', said: 'TBD', question: 'Where does this end go?' },
    ]);
    expect(discrepancies.map(({ kind }) => kind)).toEqual(['plan-contradiction']);
    expect(exit).toBe(1);
    const doubted = file('doubted.csv', `${PLAN}\n0102?,AIO1,I5,SW1,P05\n`);
    const { exit: also, plan: other, discrepancies: none } = await output('--plan', doubted);
    expect(none).toEqual([]);
    expect(other.questions).toMatchObject([{ row: 6, column: 'Cable No', said: '0102?' }]);
    expect(also).toBe(1);
  });

  it('answers 0 while only a length is asked about', async () => {
    const long = PLAN.split('\n').map((line, i) => `${line},${i === 0 ? 'Length' : i === 1 ? '3 or 4' : '3 m'}`);
    const { exit, plan: read } = await output('--plan', file('long.csv', long.join('\n')));
    expect(read.questions).toMatchObject([{ row: 2, column: 'Length', said: '3 or 4', question: 'How long is this?' }]);
    expect(exit).toBe(0);
  });

  it('prints what is not in the plan: a sheet without a list, a column without a meaning, a row that lists nothing', async () => {
    const [head = [], ...rows] = PLAN.split('\n').map((line) => line.split(','));
    const list = [[...head, 'Weather'], ...rows.map((row) => [...row, 'dry']), ['Studio B']];
    const book = await toXlsx([
      { sheet: 'Runs', data: list },
      { sheet: 'Contacts', data: [['Who to call']] },
    ]);
    const { plan: read } = await output('--plan', file('aside.xlsx', book));
    expect(read.ignored).toEqual([
      { sheet: 'Contacts', row: 1, said: 'Who to call' },
      { sheet: 'Runs', row: 1, column: 'Weather', said: 'Weather' },
      { sheet: 'Runs', row: 6, said: 'Studio B' },
    ]);
  });

  it("tells the plan's own contradictions and answers 1", async () => {
    const plan = file('twice.csv', `${PLAN}\n0102,AIO1,I1,SW1,P05\n`);
    const { exit, discrepancies, plan: read } = await output('--plan', plan);
    expect(exit).toBe(1);
    expect(discrepancies.map(({ kind }) => kind)).toEqual(['plan-contradiction']);
    expect(read.contradictions).toMatchObject([{ type: 'jack-claimed-twice', places: ['AIO1 I1'] }]);
  });
});

describe('reconcile on unusable input', () => {
  async function refused(...argv: string[]): Promise<string> {
    const { exit, out, err } = await run(...argv);
    expect(exit).toBe(2);
    expect(out).toBe('');
    return err;
  }

  it('says which file cannot be opened', async () => {
    expect(await refused('--plan', '/nowhere/none.csv')).toMatch(/^\/nowhere\/none\.csv: cannot be opened\./);
    expect(await refused('--plan', SCHEDULE, '--sightings', '/nowhere/floor.csv')).toContain('/nowhere/floor.csv');
  });

  it('shows the usage when no plan or an unknown option is given', async () => {
    expect(await refused()).toContain('Usage: npm run reconcile');
    expect(await refused('--sheet', SCHEDULE)).toContain('Usage: npm run reconcile');
  });

  it('knows a PDF by its first bytes, whatever it is called', async () => {
    const path = file('schedule.csv', '%PDF-1.7\n%\u00e2\u00e3\n1 0 obj\n');
    const err = await refused('--plan', path);
    expect(err).toContain(path);
    expect(err).toMatch(/PDF/);
  });

  it('says of a list without cables what is missing', async () => {
    const path = file('letter.csv', 'Dear colleague\nthe racks are in the cellar\n');
    expect(await refused('--plan', path)).toContain(path);
  });

  it('names file, row and column of each sighting that cannot be read', async () => {
    const path = file(
      'bad.csv',
      `${HEADER}\n,,SW1 P01,label,1001,,seen,,\n,,SW1 P02,vanished,,,seen,,\n,,SW1 P03,label,,,,,\n`,
    );
    const err = await refused('--plan', SCHEDULE, '--sightings', path);
    expect(err).toContain(`${path}, row 3, column state: "vanished"`);
    expect(err).toContain(`${path}, row 4, column label:`);
    expect(err).not.toContain('row 2');
  });

  it('names the column that a sightings list lacks', async () => {
    const path = file('no-state.csv', 'seen_at,by,place,label\n,,SW1 P01,1001\n');
    expect(await refused('--plan', SCHEDULE, '--sightings', path)).toBe(`${path}, row 1: column state is missing.\n`);
  });
});
