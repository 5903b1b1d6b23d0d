// Descriptions made on the floor join the plan's index and never change the plan; labels put and taken off count for
// the looks they name. Data invented.
import { describe, expect, it } from 'vitest';
import { slotToPlace } from '../../../src/core/plan/identity.ts';
import { lookUp } from '../../../src/core/plan/lookUp.ts';
import { emptyPlan } from '../../../src/core/plan/model.ts';
import type { AuditEvent, Payload } from '../../../src/core/record/events.ts';
import { walkOf } from '../../../src/core/report/walk/walkStops.ts';
import { discrepancyToWords } from '../../../src/core/report/words/words.ts';
import { foldAll } from '../../../src/core/rules/fold.ts';
import { at, event, planOf, saw, short, started, statement } from './build.ts';

const unit = (label: string, jacks: string[], more: Partial<Payload<'unit-described'>> = {}): AuditEvent =>
  event('unit-described', {
    label,
    heightU: 1,
    mounted: 'front',
    jacks: jacks.map((one) => ({ label: one })),
    faces: [{ face: 'rear', through: false, rows: [jacks] }],
    ...more,
  });

const rackOf = (one: AuditEvent) => one.payload as Payload<'rack-described'>;

describe('what is described on the floor', () => {
  it('is walked like a planned unit, in a rack of its own numbering', () => {
    const fold = foldAll(emptyPlan, [
      started({ occasion: 'inherit', plan: null }),
      event('rack-described', { label: 'R 9', heightU: 12, numbering: 'top-down' }),
      unit('AMP-2', ['IN L', 'IN R'], { rack: 'R-9', u: 5 }),
      unit('DA-1', ['OUT 1'], { rack: 'R-9', u: 2 }),
    ]);
    // Counted from the top, U2 stands above U5.
    expect(walkOf(fold).map((stop) => stop.unit)).toEqual(['DA-1', 'AMP-2']);
    expect([...fold.scope.owed]).toEqual([at('AMP-2 IN L'), at('AMP-2 IN R'), at('DA-1 OUT 1')]);
    expect(lookUp(fold.index.names, 'amp 2')).toMatchObject({ type: 'found', named: { type: 'unit', id: 'AMP-2' } });
  });

  it('turns an unplanned cable into the unit that it was', () => {
    const events = [started(), saw('SW1 P01', 'T07')];
    expect(short(foldAll(planOf([['1001', 'A 1', 'SW1 P01']]), events).discrepancies())).toContain(
      'unplanned-cable undecided T07',
    );
    const fold = foldAll(planOf([['1001', 'A 1', 'SW1 P01']]), [
      ...events,
      unit('T07', ['L', 'R'], { form: 'breakout' }),
    ]);
    expect(lookUp(fold.index.names, 'T07', 'cable')).toMatchObject({ named: { type: 'unit' } });
  });

  it('adds jacks to a planned unit and leaves its planned jacks as they are', () => {
    const plan = planOf([['1001', 'A 1', 'SW1 P01']], [{ at: 'SW1 P01', connector: 'RJ45' }]);
    const fold = foldAll(plan, [started(), unit('SW1', ['P01', 'P02'])]);
    expect(fold.index.jacks.get(at('SW1 P01'))?.connector).toBe('RJ45');
    expect(fold.index.jacksOf.get('SW1')?.map(({ label }) => label)).toEqual(['P01', 'P02']);
    expect(plan.jacks.map(({ label }) => label)).toEqual(['1', 'P01']);
  });

  it('stays in its rack when the label of the rack is corrected, twice or back', () => {
    const wrong = event('rack-described', { label: 'R9', heightU: 12, numbering: 'bottom-up' });
    const right = event('rack-described', { ...rackOf(wrong), label: 'R 09', corrects: [wrong.id] });
    const again = event('rack-described', { ...rackOf(wrong), label: 'R 10', corrects: [wrong.id, right.id] });
    const back = event('rack-described', { ...rackOf(wrong), corrects: [again.id] });
    const amp = unit('AMP', ['IN 1'], { rack: 'R9', u: 2 });
    const rackOfAmp = (...events: AuditEvent[]) => {
      const { index } = foldAll(emptyPlan, [amp, ...events]);
      return [index.units.get('AMP')?.rack, ...index.plan.racks.map(({ id }) => id)];
    };
    expect(rackOfAmp(wrong, right)).toEqual(['R-09', 'R-09']);
    expect(rackOfAmp(again, right, wrong)).toEqual(['R-10', 'R-10']);
    expect(rackOfAmp(wrong, right, again, back)).toEqual(['R9', 'R9']);
    // Another rack that bears the old label keeps what names it.
    const other = event('rack-described', rackOf(wrong));
    expect(rackOfAmp(wrong, right, other)[0]).toBe('R9');
  });

  it('is gone when it is taken back, and corrected by name', () => {
    const wrong = unit('AMP', ['IN 1', 'IN 2', 'IN 3']);
    const right = unit('AMP', ['IN 1'], { corrects: [wrong.id] });
    const undo = event('withdrawn', { target: { event: right.id }, why: 'undo' });
    expect(foldAll(emptyPlan, [right, wrong]).index.plan.jacks).toHaveLength(1);
    expect(foldAll(emptyPlan, [undo, wrong, right]).index.plan.jacks).toHaveLength(3);
  });
});

describe('labels put on and taken off', () => {
  const plan = planOf([['1001', 'A 1', 'SW1 P01']]);

  it('make a plug without label one that reads, and a later look agrees with it', () => {
    const bare = statement(['SW1 P09'], 'unlabelled');
    const put = event('label-put', { place: at('SW1 P09'), text: 'U-017', upon: [bare.id], why: 'twin' });
    const fold = foldAll(plan, [put, saw('SW1 P09', 'U-017'), bare]);
    expect(fold.stateAt(at('SW1 P09')).type).toBe('label');
    expect(short(fold.discrepancies())).not.toContain('sightings-conflict undecided');
    expect(fold.looks.history(at('SW1 P09')).map(({ look }) => look.state)).toEqual(['unlabelled', 'label']);
  });

  it('count only for the looks they name: a look made without knowing of them stands beside', () => {
    const bare = statement(['SW1 P09'], 'unlabelled');
    const put = event('label-put', { place: at('SW1 P09'), text: 'U-017', upon: [bare.id], why: 'twin' });
    const other = statement(['SW1 P09'], 'unlabelled');
    expect(foldAll(plan, [bare, put, other]).stateAt(at('SW1 P09')).type).toBe('conflict');
  });

  it('take the old name off: the plug bears the new one alone', () => {
    const look = saw('SW1 P01', '1001');
    const upon = [look.id];
    const place = at('SW1 P01');
    const both = [look, event('label-put', { place, text: '7001', upon, why: 'rename' })];
    const labels = (events: AuditEvent[]) =>
      foldAll(plan, events)
        .stateAt(place)
        .plugs[0]?.labels.map(({ text }) => text);
    expect(labels(both)).toEqual(['1001', '7001']);
    expect(labels([...both, event('label-off', { place, text: '1001', upon })])).toEqual(['7001']);
    expect(labels([...both, event('label-off', { place, text: '7001', upon })])).toEqual(['1001']);
  });
});

describe('a unit where the plan has another one', () => {
  const plan = planOf([['1001', 'WP2 1', 'SW1 P01']]);
  const placed = {
    ...plan,
    racks: [{ id: 'R1', label: 'R1', heightU: 42, numbering: 'bottom-up' as const, implied: false }],
    units: plan.units.map((one) => (one.id === 'WP2' ? { ...one, rack: 'R1', u: 12 } : one)),
  };
  const here = (more: Partial<Payload<'unit-described'>>) => unit('CLK1', ['OUT 1'], { rack: 'R1', u: 12, ...more });
  const replaced = 'unit-replaced record CLK1';

  it('replaces it where the person says that it is gone, and says nothing where nobody could tell', () => {
    const gone = here({ gone: ['WP2'] });
    const fold = foldAll(placed, [started(), gone]);
    expect(short(fold.discrepancies())).toContain(replaced);
    const told = fold.discrepancies().find(({ kind }) => kind === 'unit-replaced')!;
    expect(discrepancyToWords(fold.index, told).line).toBe('R1 U12 holds CLK1. Plan WP2.');
    expect(told.evidence).toEqual([gone.id]);
    expect(short(foldAll(placed, [started(), here({})]).discrepancies())).not.toContain(replaced);
  });
  it('is taken back with the description, and past once the other one was seen elsewhere or it was corrected', () => {
    const gone = here({ gone: ['WP2'] });
    const undone = event('withdrawn', { target: { event: gone.id }, why: 'undo' });
    expect(short(foldAll(placed, [started(), gone, undone]).discrepancies())).not.toContain(replaced);
    const corrected = here({ u: 14, corrects: [gone.id] });
    expect(short(foldAll(placed, [corrected, started(), gone]).discrepancies())).not.toContain(replaced);
    const moved = event('sighting', {
      ...statement(['X 1'], 'label').payload,
      places: [slotToPlace('R1', 20)],
      plugs: [{ labels: [{ text: 'WP2' }] }],
    } as Payload<'sighting'>);
    expect(short(foldAll(placed, [started(), gone, moved]).discrepancies())).toEqual(['unit-moved record WP2']);
  });
});
