// How well planted mistakes are explained: how often the cause is recovered exactly, how often something is claimed that
// is not so, with all places seen and with some of them not.
import type { Cause } from '../../src/core/causes/cause.ts';
import { explain, explainAnew, workOf } from '../../src/core/causes/explain.ts';
import type { Plan } from '../../src/core/plan/model.ts';
import type { AuditEvent } from '../../src/core/record/events.ts';
import { fixesOf } from '../../src/core/report/fixesView.ts';
import { foldAll } from '../../src/core/rules/fold.ts';
import { shuffled } from './benchFacility.ts';
import { createGround, groundToPlan, walkGround } from './benchGround.ts';
import { against, counted, measure, type Row } from './benchMeasure.ts';
import { PLANTABLE, type Plantable, type Planted, plantOne } from './benchMistakes.ts';

interface Wish {
  cables: number;
  seed: number;
  /** Kinds to plant, each `times` times, in frames of their own, as far as there is room. */
  kinds: readonly Plantable[];
  times: number;
  /** Share of the places that nobody looks at. */
  unseen?: number;
  /** Share of the readings that are wrong: a label nobody planned. */
  misread?: number;
}

interface PlantedFacility {
  plan: Plan;
  planted: Planted[];
  events: AuditEvent[];
  /** Labels that were read wrongly somewhere. */
  misread: ReadonlySet<string>;
}

export function plant({ cables, seed, kinds, times, unseen = 0, misread = 0 }: Wish): PlantedFacility {
  const ground = createGround(cables, seed);
  const planted: Planted[] = [];
  for (let i = 0; i < times; i++)
    for (const at of shuffled(kinds.length, ground.random))
      planted.push(...[plantOne(ground, kinds[at]!) ?? []].flat());
  return { plan: groundToPlan(ground), planted, ...walkGround(ground, unseen, misread) };
}

interface Score {
  planted: number;
  /** Its kind and all that it concerns, but for what was read wrongly. */
  recovered: number;
  /** Planted ones of which a part was told: where looks are missing, more cannot be. */
  told: number;
  claimed: number;
  /** Claimed as probable or confirmed, and not planted. */
  wrong: string[];
  missed: string[];
}

const aboutOf = ({ labels, places }: Cause) => (labels.length > 0 ? labels : places);
const sign = (kind: string, about: readonly string[]) => `${kind} ${[...new Set(about)].sort().join(',')}`;
const isPart = (cause: Cause, { kind, about }: Planted) =>
  cause.kind === kind && aboutOf(cause).every((one) => about.includes(one));

export function score(wish: Wish): Score {
  const { plan, planted, events, misread } = plant(wish);
  const fold = foldAll(plan, events);
  const { causes } = explain(fold, fold.discrepancies());
  const isWhole = (cause: Cause, one: Planted) =>
    isPart(cause, one) && one.about.every((each) => misread.has(each) || aboutOf(cause).includes(each));
  const missed = planted.filter((one) => !causes.some((cause) => isWhole(cause, one)));
  return {
    planted: planted.length,
    recovered: planted.length - missed.length,
    told: planted.filter((one) => causes.some((cause) => isPart(cause, one))).length,
    claimed: causes.length,
    wrong: causes
      .filter(({ certainty }) => certainty === 'probable' || certainty === 'confirmed')
      .filter((cause) => !planted.some((one) => isPart(cause, one)))
      .map((one) => sign(one.kind, aboutOf(one))),
    missed: missed.map(({ kind, about }) => sign(kind, about)),
  };
}

/** Several facilities as one. */
export function scores(wishes: readonly Wish[]): Score {
  const all = wishes.map(score);
  const sum = (of: (one: Score) => number) => all.reduce((total, one) => total + of(one), 0);
  return {
    planted: sum((one) => one.planted),
    recovered: sum((one) => one.recovered),
    told: sum((one) => one.told),
    claimed: sum((one) => one.claimed),
    wrong: all.flatMap(({ wrong }) => wrong),
    missed: all.flatMap(({ missed }) => missed),
  };
}

const SIZES = [2_500, 25_000] as const;
const AGAIN = 5;

/** Causes and the list of work over a facility in which much differs, at two sizes, so that what grows with it shows. */
export async function measureExplaining(say: (text: string) => void): Promise<Row[]> {
  const rows: Row[] = [];
  const [full, more, work]: number[][] = [[], [], []];
  for (const cables of SIZES) {
    say(`Measuring causes and the list of work at ${cables} cables …`);
    const { plan, events } = plant({ cables, seed: 1, kinds: PLANTABLE, times: cables / 625, misread: 0.005 });
    const fold = foldAll(plan, events);
    const differences = fold.discrepancies();
    const size = `${cables} cables, ${differences.length} differences`;
    const row = (name: string, value: number, unit = 'ms') => ({ name, size, value, unit });
    full!.push(await measure(nothing, () => explainAnew(fold, differences)));
    explain(fold, differences);
    const { groups } = workOf(fold);
    let next = 0;
    let solved = 0;
    const one = await measure(nothing, () => {
      for (let i = 0; i < AGAIN; i++) {
        const [end] = plan.cables[(next * 7919) % cables]!.ends;
        fold.add([strangeLabel(end?.place ?? 'FR0/P24', next++)]);
        explain(fold, fold.discrepancies());
        solved = Math.max(solved, workOf(fold).solved);
      }
    });
    more!.push(one / AGAIN);
    if (JSON.stringify(explain(fold, fold.discrepancies())) !== JSON.stringify(explainAnew(fold, fold.discrepancies())))
      throw new Error('Causes from memory are not the same as causes derived anew.');
    work!.push(await measure(nothing, () => fixesOf(fold)));
    rows.push(
      counted(row('causes, every group solved', full!.at(-1)!)),
      counted(row('differences and causes after one more sighting', more!.at(-1)!)),
      counted(row('groups of differences', groups, 'groups')),
      counted(row('groups solved for one more sighting, most', solved, 'groups')),
      counted(row('list of work', work!.at(-1)!)),
    );
  }
  const growth = { size: SIZES.join(' to '), unit: '×' };
  for (const [name, values] of [
    ['growth of the causes', full!],
    ['growth of causes after one more sighting', more!],
    ['growth of the list of work', work!],
  ] as const)
    rows.push(against({ ...growth, name, value: values[1]! / values[0]! / 10 }, 'goal', '1.3 × linear', 1.3));
  return rows;
}

const nothing = () => null;

function strangeLabel(place: string, i: number): AuditEvent {
  const id = `x${i}`;
  const head = { v: 1, id, station: 's', audit: 'a', log: 'l', seq: i, prev: null, author: 'A', at: 1e9 + i, zone: 0 };
  const plugs = [{ labels: [{ text: `Y${i}` }] }];
  const payload = {
    places: [place],
    said: [place.replace('/', ' ')],
    state: 'label' as const,
    plugs,
    basis: 'seen' as const,
  };
  return { ...head, kind: 'sighting', payload };
}

const SEEDS = Array.from({ length: 10 }, (_, i) => 101 + i);
const percent = (part: number, whole: number) => (whole === 0 ? 0 : (100 * part) / whole);

export function measureCauses(say: (text: string) => void): Row[] {
  const rows: Row[] = [];
  say('Explaining planted mistakes, each kind alone …');
  for (const kind of PLANTABLE) {
    const one = scores(SEEDS.map((seed) => ({ cables: 200, seed, kinds: [kind], times: 1 })));
    const row = { name: `${kind} alone, not recovered exactly`, size: `${one.planted} in 200 cables each`, unit: '%' };
    rows.push(against({ ...row, value: percent(one.missed.length, one.planted) }, 'goal', '3 %', 3));
  }
  for (const cables of [50, 500, 5000]) {
    for (const unseen of [0, 0.1, 0.3]) {
      say(`Explaining mixed mistakes in ${cables} cables, ${unseen * 100} % of the places not seen …`);
      const times = Math.ceil(cables / 1000);
      const base = { cables, kinds: PLANTABLE, times, unseen, misread: 0.005 };
      const seeds = cables === 5000 ? SEEDS.slice(0, 3) : SEEDS;
      const one = scores(seeds.map((seed) => ({ ...base, seed })));
      const size = `${one.planted} mixed in ${cables} cables, ${unseen * 100} % unseen, 0.5 % misread`;
      const row = (name: string, part: number, whole: number) => ({
        name,
        size,
        value: percent(part, whole),
        unit: '%',
      });
      const lost = row('planted causes not recovered exactly', one.missed.length, one.planted);
      const wrong = row('causes claimed falsely', one.wrong.length, one.claimed);
      const untold = row('planted causes of which nothing was told', one.planted - one.told, one.planted);
      if (unseen === 0) rows.push(against(lost, 'goal', '3 %', 3), against(wrong, 'goal', '1 %', 1));
      else rows.push(counted(lost), counted(untold), counted(wrong));
      rows.push(counted({ name: 'causes claimed to each planted', size, value: one.claimed / one.planted, unit: '×' }));
    }
  }
  return rows;
}
