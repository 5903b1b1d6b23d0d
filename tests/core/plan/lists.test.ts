// Lists beside the cable list: punch blocks, sources and channels, units, racks, circuits; and what a cable list only
// implied, completed by them. All sheets invented; addresses RFC 5737, hardware addresses RFC 9542.
import { describe, expect, it } from 'vitest';
import { planSchema } from '../../../src/core/plan/model.ts';
import { sheetsLeftToLines } from '../../../src/core/report/plan/sheetsLeft.ts';
import { readTables } from '../../../src/core/schedule/readTables.ts';
import type { Table } from '../../../src/core/schedule/rows/readTypes.ts';
import { planToSheets as toSheets } from '../../../src/core/schedule/sheets/planToSheets.ts';

/** With what the sheet cannot say in words. */
function planToSheets(...given: Parameters<typeof toSheets>) {
  const made = toSheets(...given);
  return { ...made, left: sheetsLeftToLines(made.left) };
}

const sheet = (name: string, ...lines: string[]): Table => ({
  name,
  rows: lines.map((line) => line.split('|').map((cell) => cell.trim())),
});

function read(...tables: Table[]) {
  const found = readTables(tables, { name: 'test' });
  if (found.type !== 'plan') throw new Error(found.why);
  const { counts } = found;
  expect(counts.used + counts.blank + counts.joined + counts.skipped).toBe(counts.rowsIn);
  expect(planSchema.safeParse(found.plan).success).toBe(true);
  const settings = (unit: string, place?: string) =>
    Object.fromEntries(
      found.plan.settings.filter((one) => one.unit === unit && one.place === place).map((one) => [one.name, one.value]),
    );
  return { ...found, settings, jack: (id: string) => found.plan.jacks.find((one) => one.id === id) };
}

const CABLES = sheet(
  'Cables',
  'Cable|From|From Jack|To|To Jack|Signal',
  '6001|TR BLK4|1-2|STA BLK1|1-2|Ana',
  '1001|R1 SW1|P01|STA CON30|NET|Enet',
  '2006|R2 DIO22|O4|R1 PRO51|AES IN|AES',
);

describe('punch blocks', () => {
  const BLOCK = sheet(
    'Block sheet',
    'Block|Row|Pair|Tip colour|Ring colour|Cable|Pair|Signal',
    'BLK4|A|1|white|blue|6001|1|Ana',
    '|A|2|white|orange|6001|2|Ana',
    'BLK4|B|1|red|blue|7777|1|POTS',
    'BLK4|B|2|||1001||',
  );

  it('are landings with row, pair and colours; the cable behind each is kept', () => {
    const { jack, plan } = read(CABLES, BLOCK);
    expect(plan.jacks.filter(({ unit, implied }) => unit === 'BLK4' && !implied)).toHaveLength(4);
    expect(jack('BLK4/A-2')).toMatchObject({
      label: 'A 2',
      mult: true,
      signal: 'line-audio',
      wires: { tip: 'white', ring: 'orange' },
      notes: 'cable 6001, pair 2',
      implied: false,
    });
    expect(jack('BLK4/B-1')?.signal).toBe('telephone');
  });

  it('ask where the cable list puts the cable elsewhere', () => {
    const { questions } = read(CABLES, BLOCK);
    expect(questions.map(({ row, said, question }) => [row, said, question])).toEqual([
      [5, '1001', 'The cable list has no end of it on BLK4. Which is right?'],
    ]);
  });

  it('make one landing of each pair of a range', () => {
    const { plan, guesses } = read(sheet('Block', 'Block|Pair|Tip|Ring', 'BLK1|1-25|white|blue'));
    expect(plan.jacks).toHaveLength(25);
    expect(guesses).toContainEqual(expect.objectContaining({ row: 2, said: '1-25', readAs: '25 jacks: 1 to 25' }));
  });

  it('may be ends of a cable list by block, row and pair', () => {
    const { plan } = read(
      sheet(
        'Cables',
        'Cable|From Block|From Row|From Pair|To Unit|To Jack',
        '6100|BLK4|A|7|MDF1|21',
        '6101|BLK4|A|8|MDF1|22',
      ),
    );
    expect(plan.cables.map(({ ends }) => ends.map(({ place }) => place))).toEqual([
      ['BLK4/A-7', 'MDF1/21'],
      ['BLK4/A-8', 'MDF1/22'],
    ]);
  });
});

describe('sources and channels', () => {
  const SOURCES = sheet(
    'Sources',
    'Device|Address|Input no|Physical jack|Source name|Long name|Channel no|Multicast address|Format|Mic gain|Phantom|Pad|Mode|Notes',
    'MIO31|192.0.2.31|1|M1|A HOST|Host microphone|3101|233.252.0.1|stereo|52|off|no|L|desk side',
    'MIO31|192.0.2.31|2|M2|A GUEST 1||3102|||38|on|||',
    'MIO31|192.0.2.99|3|M3|A GUEST 2||3103|||?|off|||',
  );

  it('are settings of the jack, and the address one of the unit', () => {
    const { settings, jack, questions } = read(SOURCES);
    expect(settings('MIO31')).toEqual({ address: '192.0.2.31' });
    expect(settings('MIO31', 'MIO31/M1')).toEqual({
      input: '1',
      name: 'A HOST',
      'long name': 'Host microphone',
      channel: '3101',
      multicast: '233.252.0.1',
      format: 'stereo',
      gain: '52',
      phantom: 'off',
      pad: 'off',
      mode: 'L',
    });
    expect(jack('MIO31/M1')?.notes).toBe('desk side');
    expect(questions.map(({ row, said }) => [row, said])).toEqual([
      [4, '?'],
      [4, '192.0.2.99'],
    ]);
  });

  it('without a physical jack go by the number of the input', () => {
    const { settings } = read(sheet('Sources', 'Device|Input no|Source name|Channel no', 'AIO21|1|SAT|2101'));
    expect(settings('AIO21', 'AIO21/1')).toEqual({ name: 'SAT', channel: '2101' });
  });
});

describe('panels and strips', () => {
  it('keep legends, strips and normals; a normal is a way through the panel', () => {
    const { plan, jack, questions } = read(
      sheet(
        'Panel',
        'Panel|Jack No|Printed legend|Strip text|Type/gender|Direction|Normalled to|Normal kind|Notes',
        'PB1|J1|1|SAT L|TT|out|J25|half|DO NOT PATCH',
        'PB1|J25|25|MON L|TT|in||none|',
        'PB1|J2|2|SAT R|TT|sideways|J99|half|',
      ),
    );
    expect(plan.routes).toEqual([{ unit: 'PB1', from: 'PB1/J1', to: 'PB1/J25' }]);
    expect(jack('PB1/J1')).toMatchObject({
      connector: 'TT',
      direction: 'out',
      notes: 'printed 1; strip SAT L; normal half; DO NOT PATCH',
    });
    expect(questions.map(({ row, said }) => [row, said])).toEqual([
      [4, 'sideways'],
      [4, 'J99'],
    ]);
  });

  it('that name both legs make two ends of what a cable list says in one cell', () => {
    const cables = sheet('Cables', 'Cable|From|From Jack|To|To Jack', '2001|R2 SAT1|OUT L/R|R2 AIO21|I1');
    const one = read(cables);
    expect(one.plan.cables[0]?.ends.map(({ place }) => place)).toEqual(['SAT1/OUT-L-R', 'AIO21/I1']);
    const two = read(cables, sheet('Jacks', 'Unit|Jack|Connector', 'SAT1|OUT L|XLR', 'SAT1|OUT R|XLR'));
    expect(two.plan.cables[0]?.ends.map(({ end, place }) => [end, place])).toEqual([
      ['A', 'SAT1/OUT-L'],
      ['B', 'AIO21/I1'],
      ['C', 'SAT1/OUT-R'],
    ]);
  });
});

describe('units and racks', () => {
  it('bring serials, hardware addresses, masks, makers, heights by their top U or as a span', () => {
    const { plan, settings, guesses } = read(
      sheet(
        'Units',
        'Device ID|Rack|U|Height|Maker|Model|Serial|Hardware address|Address|Mask|Gateway|Notes',
        'SW1|R1|40||Invented|X24|S-0012|00-00-5E-00-53-02|192.0.2.2|255.255.255.0|192.0.2.1|uplink P24',
        'PB1|R1|34-35||||||||',
      ),
      sheet('More', 'Device ID|Rack|U (top)|Height|Function', 'PRO51|R1|21|2|processor'),
    );
    expect(plan.units.map(({ id, u, heightU }) => [id, u, heightU])).toEqual([
      ['SW1', 40, 1],
      ['PB1', 34, 2],
      ['PRO51', 20, 2],
    ]);
    expect(plan.units[0]).toMatchObject({
      serial: 'S-0012',
      mac: '00-00-5E-00-53-02',
      description: 'Invented X24; uplink P24',
    });
    expect(settings('SW1')).toMatchObject({ mask: '255.255.255.0', gateway: '192.0.2.1', serial: 'S-0012' });
    expect(guesses).toContainEqual(
      expect.objectContaining({ sheet: 'Units', row: 3, said: '34-35', readAs: 'U34, 2 U high' }),
    );
    expect(guesses).toContainEqual(
      expect.objectContaining({ sheet: 'More', row: 2, said: '21', readAs: 'U20 to U21' }),
    );
  });

  it('that a cable list only implied are marked so, and are whole once their lists come with it', () => {
    const alone = read(CABLES);
    expect(alone.plan.racks.every(({ implied }) => implied)).toBe(true);
    expect(alone.plan.units.every(({ implied }) => implied)).toBe(true);
    expect(alone.plan.jacks.every(({ implied }) => implied)).toBe(true);
    const whole = read(
      CABLES,
      sheet('Racks', 'Rack ID|Room|Units|Numbered from bottom?', 'R1|Tech|24|no', 'R2|Tech|42|yes'),
      sheet('Units', 'Unit|Rack|U|Serial', 'SW1|R1|3|S-1', 'DIO22|R2|29|S-2', 'PRO51|R1|20|S-3'),
      sheet('Jacks', 'Unit|Jack|Connector', 'SW1|P01|RJ45', 'DIO22|O4|RJ45', 'PRO51|AES IN|XLR'),
    );
    expect(whole.plan.racks).toMatchObject([
      { id: 'R1', room: 'Tech', heightU: 24, numbering: 'top-down', implied: false },
      { id: 'R2', room: 'Tech', heightU: 42, numbering: 'bottom-up', implied: false },
    ]);
    const known = (list: readonly { id: string; implied: boolean }[]) =>
      list.filter(({ implied }) => !implied).map(({ id }) => id);
    expect(known(whole.plan.units)).toEqual(['SW1', 'DIO22', 'PRO51']);
    expect(known(whole.plan.jacks)).toEqual(['SW1/P01', 'DIO22/O4', 'PRO51/AES-IN']);
    expect(whole.plan.cables.map(({ id, ends }) => [id, ends.map(({ place }) => place)])).toEqual(
      alone.plan.cables.map(({ id, ends }) => [id, ends.map(({ place }) => place)]),
    );
  });
});

describe('circuits', () => {
  it('have a role, the number of the carrier and hops; their cables bear their name', () => {
    const { plan, questions } = read(
      CABLES,
      sheet(
        'Circuits',
        "Circuit|Main/standby|Carrier's number|Hops|Notes",
        'PGM1|main||2006|',
        'Studio link|standby|CX-0042|6001 > 9999|ring the desk first',
      ),
    );
    expect(plan.circuits).toEqual([
      { name: 'PGM1', role: 'main', hops: ['2006'], origin: { sheet: 'Circuits', row: 2 } },
      {
        name: 'Studio link',
        role: 'standby',
        carrier: 'CX-0042',
        hops: ['6001', '9999'],
        notes: 'ring the desk first',
        origin: { sheet: 'Circuits', row: 3 },
      },
    ]);
    expect(plan.cables.map(({ label, circuit }) => [label, circuit])).toEqual([
      ['6001', 'Studio link'],
      ['1001', undefined],
      ['2006', 'PGM1'],
    ]);
    expect(questions).toMatchObject([{ sheet: 'Circuits', row: 3, said: '9999' }]);
  });
});

describe('what is not read', () => {
  it('is said: columns without a meaning, and cells beside the list', () => {
    const { guesses } = read(sheet('Cables', 'Cable|From|From Jack|To|To Jack|Owner|', '1|A|1|B|1|by others|see me'));
    expect(guesses.filter(({ kind }) => kind === 'column-unread')).toMatchObject([
      { sheet: 'Cables', row: 1, column: 'Owner', said: 'Owner', readAs: 'a column that is not read' },
      { sheet: 'Cables', row: 2, column: '', said: 'see me', readAs: 'a column without a name, which is not read' },
    ]);
  });

  it('Installed: no is not there yet', () => {
    const { plan, guesses } = read(
      sheet('Cables', 'Cable|From|From Jack|To|To Jack|Installed', '1|A|1|B|1|N', '2|A|2|B|2|Y'),
    );
    expect(plan.cables.map(({ status }) => status)).toEqual(['future', 'in-use']);
    expect(guesses).toContainEqual(expect.objectContaining({ row: 2, said: 'N', readAs: 'status future' }));
  });
});

describe('a station’s own words for signals', () => {
  const cables = sheet('Cables', 'Cable|From|From Jack|To|To Jack|Signal', '1|R1 SW1|P01|STA CON30|NET|Blue loop');
  const jacks = sheet('Jacks', 'Unit|Jack|Direction|Signal', 'SW1|P01|out|Blue loop', 'SW1|P02|out|Blue loop PoE');
  const given = (words?: { words: string; signal: 'intercom' }[]) => {
    const found = readTables([cables, jacks], { name: 'test', signalWords: words });
    if (found.type !== 'plan') throw new Error(found.why);
    return found;
  };

  it('are asked about while nobody set them, and read from then on', () => {
    const before = given();
    expect(before.questions.map(({ sheet: name, said }) => `${name}: ${said}`)).toEqual([
      'Cables: Blue loop',
      'Jacks: Blue loop',
    ]);
    const after = given([{ words: 'blue-loop', signal: 'intercom' }]);
    expect(after.questions).toEqual([]);
    expect(after.plan.cables.map(({ signal, signalText }) => [signal, signalText])).toEqual([
      ['intercom', 'Blue loop'],
    ]);
    expect(after.plan.jacks.filter(({ unit }) => unit === 'SW1').map(({ signal }) => signal)).toEqual([
      'intercom',
      'poe',
    ]);
    // A reading that is not word for word is told.
    expect(after.guesses.map(({ said, readAs }) => `${said}: ${readAs}`)).toContain('Blue loop: signal intercom');
  });

  it('hold in the sheet that is given back, which else would say that the signal has no column', () => {
    const words = [{ words: 'blue loop', signal: 'intercom' as const }];
    const { plan } = given(words);
    expect(planToSheets(plan, [cables, jacks], { rules: { signalWords: words } })).toMatchObject({
      amended: 0,
      left: [],
    });
    expect(planToSheets(plan, [cables, jacks]).left).not.toEqual([]);
  });
});
