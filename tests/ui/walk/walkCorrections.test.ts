// The auditor's own slip put right and undo, over a real record. Facts of the slip: scenario 1 of the project's own
// field scenarios (invented).

import { describe, expect, it } from 'vitest';
import { USUAL_WAY } from '../../../src/core/report/walk/walkOrder.ts';
import { jacketsByPlace } from '../../../src/core/rules/jackets.ts';
import { WAY } from '../../../src/ui/drafts/walkDrafts.ts';
import { noteAct } from '../../../src/ui/walk/walkDraft.ts';
import type { WalkFlow } from '../../../src/ui/walk/walkFlowType.ts';
import { at, planOf, started } from '../../core/record/build.ts';
import { walkStation } from './walkStation.ts';

const name = (n: number) => `P${String(n).padStart(2, '0')}`;
const plan = planOf(Array.from({ length: 12 }, (_, i) => [String(1101 + i), `CON${i + 1} NET`, `SW1 ${name(i + 1)}`]));

/** Read at P01–P11 with P04 missed: 1104's cable is passed over, so 1105 is said at P04 … 1112 at P11. */
async function slipped(flow: WalkFlow, upTo = 11): Promise<void> {
  await flow.begin(at('SW1 P01'));
  for (let n = 1; n <= upTo; n++) await flow.sayLabel(String(n < 4 ? 1100 + n : 1101 + n), 'camera');
}

describe('the auditor’s own slip over twelve jacks (scenario 1)', () => {
  it('answered late: all that was said from P04 on is moved, P04 is not seen, nothing differs', async () => {
    const walk = walkStation(plan, started());
    const flow = walk.flow();
    await slipped(flow);
    expect(walk.fold().discrepancies().length).toBeGreaterThan(0);
    expect(flow.slip.value?.moves).toHaveLength(8);
    await flow.answerSlip('me');
    expect(walk.fold().discrepancies()).toEqual([]);
    for (let n = 1; n <= 12; n++) {
      const [reading] = walk.fold().readingsAt(at(`SW1 ${name(n)}`));
      expect(reading?.cable ?? null).toBe(n === 4 ? null : String(1100 + n));
    }
    expect(walk.fold().stateAt(at('SW1 P04')).type).toBe('unseen');
    expect(flow.memory.value.place).toBe(at('SW1 P04'));
    expect(walk.recorded.at(-1)?.payload).toMatchObject({ by: 'camera' });
  });

  it('takes photos, notes and hazards of this walk along, the same document, and leaves those of others', async () => {
    const walk = walkStation(plan, started());
    const flow = walk.flow();
    await slipped(flow, 4);
    const picture = { document: 'd1', mime: 'image/jpeg', bytes: 9, width: 4, height: 3 };
    flow.did(walk.add('photo', { place: at('SW1 P04'), ...picture }), at('SW1 P04'), 'the photo at SW1 P04');
    await flow.note(at('SW1 P04'), 'boot is cracked');
    walk.add('note', { place: at('SW1 P04'), text: 'from another walk' }, { author: 'other' });
    await flow.sayLabel('1106', 'camera');
    await flow.answerSlip('me');
    expect(walk.fold().of('photo')).toMatchObject([{ payload: { place: at('SW1 P05'), document: 'd1' } }]);
    expect(
      walk
        .fold()
        .of('note')
        .map(({ payload }) => [payload.place, payload.text])
        .sort(),
    ).toEqual([
      [at('SW1 P04'), 'from another walk'],
      [at('SW1 P05'), 'boot is cracked'],
    ]);
  });

  it('takes along what was read off a jacket, as it was corrected', async () => {
    const walk = walkStation(plan, started());
    const flow = walk.flow();
    await slipped(flow, 4);
    const place = at('SW1 P04');
    const keep = async (mark: number, corrects: string[]) => {
      const event = walk.add('jacket-read', { place, print: '4 PAIR LSZH', mark, unit: 'm', corrects });
      await flow.acted({ event, place, words: 'jacket and mark', line: 'Kept.' });
      return event;
    };
    await keep(41, [await keep(14, [])]);
    await flow.sayLabel('1106', 'camera');
    await flow.answerSlip('me');
    const marks = () => [...jacketsByPlace(walk.fold())].map(([at, list]) => [at, list.map(({ mark }) => mark)]);
    expect(marks()).toEqual([[at('SW1 P05'), [41]]]);
    await flow.undo();
    expect(marks()).toEqual([[place, [41]]]);
  });

  it('is one act: one undo brings every statement, photo and note back to where it was said', async () => {
    const walk = walkStation(plan, started());
    const flow = walk.flow();
    await slipped(flow, 4);
    await flow.note(at('SW1 P04'), 'boot is cracked');
    for (let n = 5; n <= 11; n++) await flow.sayLabel(String(1101 + n), 'camera');
    // P12 has its own word, which the move overrules and undo brings back.
    await flow.sayState('empty');
    const before = walk
      .fold()
      .discrepancies()
      .map(({ id }) => id);
    await flow.answerSlip('me');
    expect(walk.fold().discrepancies()).toEqual([]);
    await flow.undo();
    expect(flow.line.value).toBe('Undone: the move of 8 entries by 1 jack.');
    expect(
      walk
        .fold()
        .discrepancies()
        .map(({ id }) => id),
    ).toEqual(before);
    expect(walk.fold().stateAt(at('SW1 P12')).type).toBe('empty');
    expect(walk.fold().of('note')).toMatchObject([{ payload: { place: at('SW1 P04') } }]);
    for (let n = 4; n <= 11; n++) {
      expect(walk.fold().readingsAt(at(`SW1 ${name(n)}`))[0]?.text).toBe(String(1101 + n));
    }
  });

  it.each([1, 3, 7])('stopped after %i of its steps: one undo brings back what was moved so far', async (steps) => {
    const walk = walkStation(plan, started());
    const flow = walk.flow();
    await slipped(flow);
    const readings = () => plan.cables.map((_, i) => walk.fold().readingsAt(at(`SW1 ${name(i + 1)}`))[0]?.text);
    const before = readings();
    const { record } = walk.services;
    let left = steps;
    // The phone dies: nothing answers any more.
    walk.services.record = (...given: Parameters<typeof record>) =>
      left-- > 0 ? record(...given) : new Promise(() => undefined);
    void flow.answerSlip('me');
    await expect.poll(() => left).toBeLessThan(0);
    expect(readings()).not.toEqual(before);
    walk.services.record = record;
    const again = walk.flow();
    await again.begin(null);
    await again.undo();
    expect(again.line.value).toContain('the move of 8 entries by 1 jack');
    expect(readings()).toEqual(before);
  });

  it('is recognised from the right to the left too', async () => {
    const walk = walkStation(plan, started());
    const flow = walk.flow();
    walk.services.saveDraft('way:a', { ...USUAL_WAY, jacks: 'right-left' }, WAY);
    await flow.begin(at('SW1 P12'));
    // P09's cable is passed over: 1108 is said at P09, 1107 at P08.
    for (const label of ['1112', '1111', '1110', '1108', '1107']) await flow.sayLabel(label, 'camera');
    expect(flow.slip.value?.moves.map(({ from, to }) => [from.label, to.label])).toEqual([
      ['P09', 'P08'],
      ['P08', 'P07'],
    ]);
    await flow.answerSlip('me');
    expect(walk.fold().discrepancies()).toEqual([]);
    expect(walk.fold().stateAt(at('SW1 P09')).type).toBe('unseen');
  });

  it('said to be the cables’ own is not asked about again', async () => {
    const walk = walkStation(plan, started());
    const flow = walk.flow();
    await slipped(flow, 5);
    await flow.answerSlip('cables');
    await flow.sayLabel('1107', 'camera');
    expect(flow.slip.value).toBeNull();
    expect(walk.fold().readingsAt(at('SW1 P06'))[0]?.text).toBe('1107');
  });

  it('is put right after a reload in the middle as well', async () => {
    const walk = walkStation(plan, started());
    await slipped(walk.flow(), 6);
    const flow = walk.flow();
    await flow.begin(at('SW1 P07'));
    await flow.sayLabel('1108', 'camera');
    await flow.answerSlip('me');
    expect(walk.fold().discrepancies()).toEqual([]);
  });
});

describe('undo', () => {
  it('names what is taken back', async () => {
    const walk = walkStation(plan, started());
    const flow = walk.flow();
    await flow.begin(at('SW1 P01'));
    await flow.sayLabel('1101', 'tapped');
    const row = [2, 3, 4].map((n) => ({ place: at(`SW1 ${name(n)}`), words: `SW1 ${name(n)}` }));
    await flow.say({ places: row, state: 'empty', by: 'tapped' });
    await flow.undo();
    expect(flow.line.value).toBe('Undone: SW1 P02 to SW1 P04, empty.');
    await flow.undo();
    expect(flow.line.value).toBe('Undone: SW1 P01, 1101.');
    expect([...walk.fold().seenPlaces()]).toEqual([]);
  });

  it('takes back what was read off a page, what may be done, hazards and descriptions', async () => {
    const settings = [{ unit: 'CON1', name: 'gain', value: '10' }];
    const walk = walkStation({ ...plan, settings }, started({ permission: 'look' }));
    const flow = walk.flow();
    await flow.begin(at('SW1 P01'));
    flow.did(
      walk.add('setting-read', { unit: 'CON1', name: 'gain', value: '30', basis: 'page' }),
      null,
      'CON1, gain: 30',
    );
    expect(walk.fold().discrepancies()).toMatchObject([{ kind: 'setting-differs' }]);
    await flow.undo();
    expect(flow.line.value).toBe('Undone: CON1, gain: 30.');
    expect(walk.fold().discrepancies()).toEqual([]);

    flow.did(walk.add('permission-set', { permission: 'touch' }), null, 'permission: touch');
    expect(walk.fold().permission).toBe('touch');
    await flow.undo();
    expect(walk.fold().permission).toBe('look');

    await flow.hazard('mains', 'bare lug');
    expect(walk.fold().of('hazard-seen')).toHaveLength(1);
    await flow.undo();
    expect(walk.fold().of('hazard-seen')).toEqual([]);

    const unit = { label: 'AMP9', heightU: 1, mounted: 'front', jacks: [{ label: 'I1' }], faces: [] };
    const event = walk.add('unit-described', unit);
    expect(walk.fold().index.units.has('AMP9')).toBe(true);
    await noteAct(walk.services, 'a', event, 'unit AMP9, as described');
    const later = walk.flow();
    await later.begin(null);
    await later.undo();
    expect(later.line.value).toBe('Undone: unit AMP9, as described.');
    expect(walk.fold().index.units.has('AMP9')).toBe(false);
  });
});
