// A page that ends between a statement's writing and its draft: the statement stands, and so does its undo. Data invented.

import { expect, it } from 'vitest';
import { NEW_MEMORY } from '../../../src/core/walk/memory.ts';
import { WALK } from '../../../src/ui/drafts/walkDrafts.ts';
import { walkDraft } from '../../../src/ui/walk/walkDraft.ts';
import { at, planOf, started } from '../../core/record/build.ts';
import { walkStation } from './walkStation.ts';

const plan = planOf([
  ['1001', 'CON30 NET', 'SW1 P01'],
  ['1002', 'CON31 NET', 'SW1 P02'],
]);

it('what this phone said after its last draft can be undone after a restart, and nothing else', async () => {
  const walk = walkStation(plan, started());
  const first = walk.flow();
  await first.begin(at('SW1 P01'));
  await first.sayLabel('1001', 'tapped');
  // The disk has the statement; what the page wanted to remember of it is lost with the page.
  const before = { ...NEW_MEMORY, place: at('SW1 P01'), at: walk.services.now() - 500 };
  walk.services.saveDraft(walkDraft('a'), before, WALK);
  walk.add('sighting', { ...(walk.recorded[0]!.payload as object), places: [at('SW1 P02')] }, { log: 'another' });

  const second = walk.flow();
  await second.begin(null);
  expect(second.memory.value.acts.map(({ event }) => event)).toEqual([walk.recorded[0]!.id]);
  await second.undo();
  expect(walk.fold().stateAt(at('SW1 P01')).type).toBe('unseen');
  expect(walk.fold().stateAt(at('SW1 P02')).type).toBe('label');
  expect(second.line.value).toBe('Undone: SW1 P01, 1001.');

  // Begun again, it is not found a second time.
  const third = walk.flow();
  await third.begin(null);
  expect(third.memory.value.acts).toEqual([]);
});
