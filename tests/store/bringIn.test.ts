// What "Bring in a file" takes: the station as a file, and the lines of entries that another page could not save.
import { describe, expect, it } from 'vitest';
import { bringBundle, prepareBundle } from '../../src/main/bundles.ts';
import type { ServiceParts } from '../../src/main/serviceParts.ts';
import type { PhoneSettings } from '../../src/ui/services.ts';
import { commandsOf, eventText, freshStation, look, note, openOrFail } from './helpers.ts';

async function phone(station: string, name = 'p') {
  const store = await openOrFail(station);
  const commands = commandsOf(store, name);
  const parts = { store, commands, record: { documentArrived: async () => undefined } } as unknown as ServiceParts;
  const bring = (text: string | File) =>
    bringBundle(
      parts,
      () => ({ author: 'Mara Field' }) as PhoneSettings,
      typeof text === 'string' ? new File([text], 'not-saved.jsonl') : text,
    );
  return { store, commands, bring };
}

describe('bringing in a file', () => {
  it('takes the file of entries that were not saved, each once', async () => {
    const station = freshStation();
    const { store, bring } = await phone(station);
    const lines = [eventText(station, 'a', 'gone', 4), eventText(station, 'b', 'gone', 5)];
    const taken = { type: 'taken', documents: 0, damaged: [] };
    expect(await bring(`${lines.join('\n')}\n`)).toEqual({ ...taken, events: 2, known: 0 });
    expect(await bring(`${lines.join('\n')}\n`)).toEqual({ ...taken, events: 0, known: 2 });
    expect(await look(store, (db) => db.events.count())).toBe(2);
  });

  it('says what is wrong with a file that holds nothing for this station', async () => {
    const station = freshStation();
    const { bring } = await phone(station);
    expect(await bring('Ladies and gentlemen')).toMatchObject({
      what: 'This is not a file of this app (no entries in it).',
    });
    expect(await bring('')).toMatchObject({ type: 'refused' });
    expect(await bring(eventText('elsewhere', 'a', 'gone', 4))).toMatchObject({
      what: expect.stringContaining('another station'),
    });
    const newer = eventText(station, 'a', 'gone', 4).replace('"v":1', '"v":2');
    expect(await bring(newer)).toMatchObject({ what: expect.stringContaining('newer version') });
  });

  it('takes the good lines of a file that holds bad ones too, and names those', async () => {
    const station = freshStation();
    const { bring } = await phone(station);
    const file = [eventText(station, 'a', 'gone', 4), 'torn', eventText('elsewhere', 'b', 'gone', 4)].join('\n');
    expect(await bring(file)).toMatchObject({
      events: 1,
      damaged: ['1 line of another station', '1 line unreadable'],
    });
  });

  it('takes the station of another phone', async () => {
    const station = freshStation();
    const there = await phone(station, 'there');
    await there.commands.record('note', note('from there'));
    const file = await prepareBundle(there.store, there.commands, 'Lowmoor');
    expect(await there.bring(file)).toMatchObject({ type: 'taken', events: 0, known: 1 });
  });
});
