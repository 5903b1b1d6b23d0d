// Field scenarios and findings of a walk, each with its right outcome. Invented data; names follow the invented
// station of the fixtures.
import { describe, expect, it } from 'vitest';
import { explain } from '../../../src/core/causes/explain.ts';
import type { Plan } from '../../../src/core/plan/model.ts';
import type { AuditEvent } from '../../../src/core/record/events.ts';
import { foldAll } from '../../../src/core/rules/fold.ts';
import { at, type CableRow, event, planOf, saw, started, statement, withSignal } from '../record/build.ts';

const explained = (plan: Plan, events: AuditEvent[]) => {
  const fold = foldAll(plan, [started(), ...events]);
  return explain(fold, fold.discrepancies());
};
const shortly = (plan: Plan, events: AuditEvent[]) =>
  explained(plan, events).causes.map(
    (cause) => `${cause.kind} ${cause.certainty} ${[...cause.labels].sort().join(',')}`,
  );

/** Cables `first`, `first + 1` … from ROOM 1 … to SW1 P01 …; all far ends seen as planned when asked. */
function row(count: number, first = 1101, unit = 'SW1'): CableRow[] {
  return Array.from({ length: count }, (_, i) => [
    String(first + i),
    `ROOM${unit} ${i + 1}`,
    `${unit} P${String(i + 1).padStart(2, '0')}`,
    withSignal('network'),
  ]);
}
const jack = (n: number, unit = 'SW1') => `${unit} P${String(n).padStart(2, '0')}`;

describe('my slip', () => {
  const plan = planOf(row(12));
  const label = (n: number) => String(1100 + n);
  const walk = [1, 2, 3]
    .map((n) => saw(jack(n), label(n)))
    .concat(Array.from({ length: 8 }, (_, i) => saw(jack(4 + i), label(5 + i))));

  it('is only possible beside a shift, and the last jack settles it', () => {
    const { causes, nextLook } = explained(plan, walk);
    expect(causes.map(({ kind, certainty }) => `${kind} ${certainty}`).sort()).toEqual([
      'hand-slipped possible',
      'row-shifted possible',
    ]);
    expect(nextLook?.place).toBe(at('SW1 P12'));
    expect(nextLook?.expect).toEqual([
      { kind: 'hand-slipped', sees: { type: 'label', label: '1112' } },
      { kind: 'row-shifted', sees: { type: 'nothing' } },
    ]);
  });

  it('is out of the question once the last jack was seen empty', () => {
    expect(shortly(plan, [...walk, statement(['SW1 P12'], 'empty')])).toEqual([
      'row-shifted probable 1105,1106,1107,1108,1109,1110,1111,1112',
    ]);
  });
});

describe('a panel between', () => {
  const runs = (count: number) => {
    const plan = planOf(
      Array.from(
        { length: count },
        (_, i): CableRow => [String(1003 + i), `CON${i} NET`, jack(3 + i), withSignal('network')],
      ),
    );
    const events = Array.from({ length: count }, (_, i) => {
      const [n, l] = [String(7 + i).padStart(2, '0'), String(1003 + i)];
      return [
        statement([jack(3 + i)], 'unlabelled', { basis: 'followed', joinedTo: at(`PP1 P${n} front`) }),
        saw(`PP1 P${n} rear`, l),
        saw(`WP2 ${n} rear`, l),
        statement([`CON${i} NET`], 'unlabelled', { basis: 'followed', joinedTo: at(`WP2 ${n} front`) }),
      ];
    }).flat();
    return { plan, events };
  };

  it.each([1, 24])('is one cause over %i rows, and nothing of the run is left over', (count) => {
    const { plan, events } = runs(count);
    const { causes, alone } = explained(plan, events);
    expect(causes.map(({ kind, certainty }) => `${kind} ${certainty}`)).toEqual(['hop-not-on-sheet confirmed']);
    expect(causes[0]!.labels).toHaveLength(count);
    expect(alone).toEqual([]);
  });
});

describe('the poisoned look', () => {
  const plan = planOf(
    [
      ['1003', 'CON32 NET', 'SW1 P03', withSignal('network')],
      ['1004', 'MIO33 NET', 'SW1 P04', withSignal('poe')],
    ],
    [],
    {
      settings: [
        { unit: 'MIO31', name: 'address', value: '192.0.2.31' },
        { unit: 'MIO33', name: 'address', value: '192.0.2.33' },
      ],
    },
  );
  // RFC 9542: 00-00-5E-00-53-00 to -FF are for documentation.
  const units = plan.units.map((unit) => (unit.id === 'MIO33' ? { ...unit, mac: '00-00-5E-00-53-33' } : unit));
  const known = { ...plan, units };
  const labels = [saw('SW1 P03', '1004'), saw('SW1 P04', '1003'), saw('CON32 NET', '1003'), saw('MIO33 NET', '1004')];
  const pages = ['MIO31', 'MIO33'].map((unit) =>
    event('setting-read', { unit, name: 'address', value: `192.0.2.${unit === 'MIO31' ? 33 : 31}`, basis: 'page' }),
  );
  const port = { unit: 'SW1', place: at('SW1 P03'), basis: 'page' as const };
  const hardware = event('setting-read', { ...port, name: 'hardware address learned', value: '00-00-5e-00-53-33' });
  const internet = event('setting-read', { ...port, name: 'address learned', value: '192.0.2.31' });

  it('says crossed by the hardware address, whatever the addresses say, in any order', () => {
    for (const events of [
      [...labels, ...pages, hardware],
      [hardware, ...pages, ...labels],
    ]) {
      expect(shortly(known, events).sort()).toEqual([
        'addresses-exchanged confirmed 192.0.2.31,192.0.2.33',
        'crossed confirmed 1003,1004',
      ]);
    }
  });

  it('stays undecided with the IP address alone, and asks for the switch’s page', () => {
    const { causes } = explained(known, [...labels, ...pages, internet]);
    const pair = causes.find(({ labels: both }) => both.includes('1003'))!;
    expect(pair).toMatchObject({ kind: 'crossed-or-labels-exchanged', severity: 'undecided' });
    expect(pair.nextLook).toMatchObject({ place: at('SW1 P03'), how: 'read-page' });
    expect(pair.nextLook?.expect.map(({ sees }) => sees)).toEqual([
      { type: 'place', place: at('MIO33 NET') },
      { type: 'place', place: at('CON32 NET') },
    ]);
  });
});

describe('the ribbon', () => {
  const plan = planOf(
    [
      ['3002', 'STA MIC2', 'MIO31 M2', withSignal('microphone')],
      ['3003', 'STA MIC3', 'MIO31 M3', withSignal('microphone')],
    ],
    [],
    { settings: [{ unit: 'STA', place: at('STA MIC3'), name: 'microphone', value: 'ribbon' }] },
  );
  const events = [
    saw('MIO31 M2', '3003'),
    saw('MIO31 M3', '3002'),
    event('setting-read', { unit: 'MIO31', place: at('MIO31 M2'), name: 'phantom', value: 'on', basis: 'page' }),
    event('setting-read', { unit: 'MIO31', place: at('MIO31 M3'), name: 'phantom', value: 'off', basis: 'page' }),
  ];
  it('keeps its hazard beside the undecided pair, and the pair is settled by listening', () => {
    const fold = foldAll(plan, [started(), ...events]);
    const { causes, alone } = explain(fold, fold.discrepancies());
    expect(causes.map(({ kind }) => kind)).toEqual(['crossed-or-labels-exchanged']);
    expect(causes[0]!.nextLook?.how).toBe('listen');
    const hazards = fold.discrepancies().filter(({ severity }) => severity === 'equipment');
    expect(hazards.length).toBeGreaterThan(0);
    for (const { id } of hazards) expect(alone).toContain(id);
  });
});

describe('findings of a walk', () => {
  it('sees both ends exchanged as labels, circuits right', () => {
    const plan = planOf([
      ['2004', 'COD42 OUT', 'DIO22 I1'],
      ['2005', 'DIO22 O1', 'COD42 IN'],
    ]);
    const events = [
      saw('DIO22 O1', '2004'),
      saw('COD42 IN', '2004'),
      saw('COD42 OUT', '2005'),
      saw('DIO22 I1', '2005'),
    ];
    expect(shortly(plan, events)).toEqual(['labels-exchanged confirmed 2004,2005']);
  });

  it('sees three neighbours one jack on as one shift, its prediction fulfilled', () => {
    const plan = planOf(row(3, 1005, 'SW2'));
    const events = [
      statement(['SW2 P01'], 'empty'),
      saw('SW2 P02', '1005'),
      saw('SW2 P03', '1006'),
      saw('SW2 P04', '1007'),
    ];
    const { causes, alone } = explained(plan, events);
    expect(causes).toMatchObject([{ kind: 'row-shifted', certainty: 'probable', offset: 1 }]);
    expect(alone).toEqual([]);
  });

  it('takes a replaced cable’s old end for what it is', () => {
    const plan = planOf([['2011', 'PB1 J25', 'MONA IN']]);
    const events = [saw('PB1 J25', '2011'), saw('MONA IN', '2011'), saw('loose: under the desk of A', '2011')];
    expect(shortly(plan, events)).toEqual(['old-cable-left probable 2011']);
  });

  it('takes a cord in a bay for a bypassed normal', () => {
    const plan = planOf([
      ['2010', 'AIO21 O1', 'PB1 J1 rear'],
      ['2012', 'PB1 J27 rear', 'REC IN'],
    ]);
    const events = [
      saw('PB1 J1 rear', '2010'),
      saw('PB1 J27 rear', '2012'),
      statement(['PB1 J1 front'], 'unlabelled', { basis: 'followed', joinedTo: at('PB1 J27 front') }),
    ];
    expect(shortly(plan, events)).toEqual(['normal-bypassed confirmed ']);
  });
});

describe('a lead that nobody planned', () => {
  const plan = planOf(
    [
      ['2006', 'DIO22 O4', 'PRO51 IN', withSignal('aes3', { onAir: true })],
      ['2007', 'PRO51 OUT', 'STL61 IN', withSignal('aes3', { onAir: true })],
    ],
    [
      { at: 'DIO22 O5', signal: 'aes3' },
      { at: 'STL61 IN2', signal: 'aes3' },
      { at: 'SW9 P01', signal: 'network' },
    ],
  );
  const lead = (far: string) => statement(['DIO22 O5'], 'unlabelled', { basis: 'followed', joinedTo: at(far) });
  it('round a planned unit may be an emergency bypass', () => {
    expect(shortly(plan, [lead('STL61 IN2')])).toEqual(['bypass-left possible ']);
  });
  it('into a socket of another signal is a hazard and nothing else', () => {
    const { causes, alone } = explained(plan, [lead('SW9 P01')]);
    expect(causes).toEqual([]);
    expect(alone.some((id) => id.startsWith('signal-clash'))).toBe(true);
  });
});

describe('patterns of a row', () => {
  const plan = planOf(row(12));
  const read = (order: number[]) => order.map((n, i) => saw(jack(i + 1), String(1100 + n)));
  const far = Array.from({ length: 12 }, (_, i) => saw(`ROOMSW1 ${i + 1}`, String(1101 + i)));
  it.each([
    ['row-mirrored', [12, 11, 10, 9, 8, 7, 6, 5, 4, 3, 2, 1]],
    ['odd-even-exchanged', [2, 1, 4, 3, 6, 5, 8, 7, 10, 9, 12, 11]],
    ['groups-exchanged', [7, 8, 9, 10, 11, 12, 1, 2, 3, 4, 5, 6]],
    ['groups-exchanged', [1, 2, 5, 6, 3, 4, 7, 8, 9, 10, 11, 12]],
    ['rotated', [2, 3, 1, 4, 5, 6, 7, 8, 9, 10, 11, 12]],
    ['crossed-or-labels-exchanged', [2, 1, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12]],
  ])('sees %s as one cause', (kind, order) => {
    const { causes, alone } = explained(plan, [...read(order), ...far]);
    expect(causes.map((cause) => cause.kind)).toEqual([kind]);
    expect(alone).toEqual([]);
  });

  it('keeps two crossed pairs beside each other apart', () => {
    const { causes } = explained(plan, [...read([2, 1, 4, 3, 5, 6, 7, 8, 9, 10, 11, 12]), ...far]);
    expect(causes.map(({ kind }) => kind)).toEqual(['crossed-or-labels-exchanged', 'crossed-or-labels-exchanged']);
  });
});
