// Field scenarios: the order of work that follows from each. Invented data; names follow the invented station of the
// fixtures. Order at a microphone (mute, phantom off, wait, move) and listening before and after: common practice, no
// source.
import { describe, expect, it } from 'vitest';
import { explain } from '../../../src/core/causes/explain.ts';
import { wayBackFrom } from '../../../src/core/fixes/back.ts';
import type { Decision } from '../../../src/core/fixes/decision.ts';
import type { FixList } from '../../../src/core/fixes/fixes.ts';
import { isMovement } from '../../../src/core/fixes/step.ts';
import type { Plan } from '../../../src/core/plan/model.ts';
import type { AuditEvent } from '../../../src/core/record/events.ts';
import { fixesView } from '../../../src/core/report/fixesView.ts';
import { fingerprint, idToFingerprint } from '../../../src/core/rules/fingerprints.ts';
import { foldAll } from '../../../src/core/rules/fold.ts';
import { at, type CableRow, event, planOf, saw, started, statement, withSignal } from '../record/build.ts';
import { floorModel, listOf, play } from './floorModel.ts';

/** "hold move MIO31/M2> 3003" */
const shortly = (list: FixList, only: 'now' | 'waiting' | 'all' = 'all') =>
  list.blocks
    .filter(({ waits }) => only === 'all' || (waits === null) === (only === 'now'))
    .flatMap(({ steps }) => steps)
    .map(({ action, task, from, to, label }) =>
      [action, task, [from, to].filter(Boolean).join('>'), label].filter(Boolean).join(' '),
    );
const words = (plan: Plan, events: AuditEvent[]) =>
  fixesView(foldAll(plan, events), 'a').blocks.flatMap(({ steps }) => steps.map((step) => step.words));
const jack = (n: number) => `SW1 P${String(n).padStart(2, '0')}`;
const rows = (count: number): CableRow[] =>
  Array.from({ length: count }, (_, i) => [String(1101 + i), `DSK${i} NET`, jack(i + 1), withSignal('network')]);

describe('my slip', () => {
  const plan = planOf(rows(12));
  const walk = [1, 2, 3]
    .map((n) => saw(jack(n), String(1100 + n)))
    .concat(Array.from({ length: 8 }, (_, i) => saw(jack(4 + i), String(1105 + i))));
  it('owes the one look that tells hand from cables, and moves nothing', () => {
    expect(shortly(listOf(plan, [started(), ...walk]))).toEqual(['test settle SW1/P12 1112']);
    expect(words(plan, [started(), ...walk])).toEqual([
      'Check SW1 P12: 1112 means a jack was skipped in the walk; nothing plugged means row shifted.',
    ]);
  });
  it('shifts the row back from its free end once P12 was seen empty', () => {
    const list = listOf(plan, [
      started(),
      ...walk,
      statement([jack(4)], 'label', { plugs: [{ labels: [{ text: '1105' }] }] }),
      statement([jack(12)], 'empty'),
    ]);
    const moves = list.blocks.flatMap(({ steps }) => steps).filter(isMovement);
    expect(moves.map(({ from, to }) => `${from}>${to}`)).toEqual(
      [12, 11, 10, 9, 8, 7, 6, 5].map((n) => `${at(jack(n - 1))}>${at(jack(n))}`),
    );
  });
});

describe('a panel between', () => {
  const plan = planOf([['1003', 'CON32 NET', 'SW1 P03', withSignal('network')]]);
  const events = [
    started(),
    statement(['SW1 P03'], 'unlabelled', { basis: 'followed', joinedTo: at('PP1 P07 front') }),
    saw('PP1 P07 rear', '1003'),
    saw('WP2 7 rear', '1003'),
    statement(['CON32 NET'], 'unlabelled', { basis: 'followed', joinedTo: at('WP2 7 front') }),
  ];
  it('is amended in the record; two leads want labels, no plug moves', () => {
    const list = listOf(plan, events);
    expect(shortly(list).sort()).toEqual(['relabel label-put CON32/NET', 'relabel label-put SW1/P03']);
    expect(list.record.length).toBeGreaterThan(0);
    expect(words(plan, events)).toContain('SW1 P03: put a label on the lead; it has none.');
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
  const known = {
    ...plan,
    units: plan.units.map((unit) => (unit.id === 'MIO33' ? { ...unit, mac: '00-00-5E-00-53-33' } : unit)),
  };
  const labels = [saw('SW1 P03', '1004'), saw('SW1 P04', '1003'), saw('CON32 NET', '1003'), saw('MIO33 NET', '1004')];
  const pages = ['MIO31', 'MIO33'].map((unit) =>
    event('setting-read', { unit, name: 'address', value: `192.0.2.${unit === 'MIO31' ? 33 : 31}`, basis: 'page' }),
  );
  const hardware = event('setting-read', {
    unit: 'SW1',
    place: at('SW1 P03'),
    basis: 'page',
    name: 'hardware address learned',
    value: '00-00-5e-00-53-33',
  });

  it('moves the crossed plugs and sets the addresses, one of them to a spare for a moment', () => {
    const list = listOf(known, [started(), ...labels, ...pages, hardware]);
    expect(shortly(list)).toEqual([
      'test listen-before',
      'hold move SW1/P03 1004',
      'plug move SW1/P04>SW1/P03 1003',
      'plug move SW1/P04 1004',
      'test listen-after',
      'test listen-before',
      'set value MIO31',
      'set value MIO33',
      'set value MIO31',
      'test listen-after',
    ]);
    const sets = list.blocks.flatMap(({ steps }) =>
      steps.flatMap(({ to, value }) => (value ? [`${to} ${value.now}>${value.to}`] : [])),
    );
    expect(sets).toEqual(['MIO31 192.0.2.33>', 'MIO33 192.0.2.31>192.0.2.33', 'MIO31 >192.0.2.31']);
  });
  it('moves nothing while it is undecided', () => {
    const list = listOf(known, [started(), ...labels]);
    expect(shortly(list)).toEqual(['test settle SW1/P03 1003']);
  });
});

describe('the ribbon', () => {
  const mics: CableRow[] = [
    ['3002', 'STA MIC2', 'MIO31 M2', withSignal('microphone')],
    ['3003', 'STA MIC3', 'MIO31 M3', withSignal('microphone')],
  ];
  const plan = planOf(mics, [], {
    settings: [
      { unit: 'STA', place: at('STA MIC3'), name: 'microphone', value: 'ribbon' },
      { unit: 'STA', place: at('STA MIC2'), name: 'microphone', value: 'condenser' },
      { unit: 'MIO31', place: at('MIO31 M2'), name: 'phantom', value: 'on' },
      { unit: 'MIO31', place: at('MIO31 M3'), name: 'phantom', value: 'off' },
    ],
  });
  const pages = [
    event('setting-read', { unit: 'MIO31', place: at('MIO31 M2'), name: 'phantom', value: 'on', basis: 'page' }),
    event('setting-read', { unit: 'MIO31', place: at('MIO31 M3'), name: 'phantom', value: 'off', basis: 'page' }),
  ];
  const labels = [saw('MIO31 M2', '3003'), saw('MIO31 M3', '3002'), saw('STA MIC2', '3002'), saw('STA MIC3', '3003')];
  const followed = [
    saw('MIO31 M2', '3003', { basis: 'followed', joinedTo: at('STA MIC3') }),
    saw('MIO31 M3', '3002'),
    saw('STA MIC2', '3002'),
    saw('STA MIC3', '3003'),
  ];

  it('undecided: mute, phantom off, wait at once; the pair is owed a look and no plug moves', () => {
    expect(shortly(listOf(plan, [started(), ...labels, ...pages]))).toEqual([
      'ask tell-hazard MIO31/M2 3003',
      'set mute MIO31/M2',
      'set phantom-off MIO31/M2',
      'wait discharge MIO31/M2',
      'set unmute MIO31/M2',
      'test settle MIO31/M2 3002',
    ]);
  });
  it('with permission to look: told, looked at, and nothing more; the rest waits', () => {
    const list = listOf(plan, [started(), ...labels, ...pages], { permission: 'look' });
    expect(shortly(list, 'now')).toEqual(['ask tell-hazard MIO31/M2 3003', 'test settle MIO31/M2 3002']);
    expect(shortly(list, 'waiting')).toContain('set phantom-off MIO31/M2');
  });
  it('followed: mute, phantom off at M2, wait, move, and on again where the plan has it', () => {
    const list = listOf(plan, [started(), ...followed, ...pages]);
    expect(shortly(list)).toEqual([
      'ask tell-hazard MIO31/M2 3003',
      'test listen-before',
      'set mute MIO31/M2',
      'set mute MIO31/M3',
      'set phantom-off MIO31/M2',
      'wait discharge MIO31/M2',
      'hold move MIO31/M2 3003',
      'plug move MIO31/M3>MIO31/M2 3002',
      'plug move MIO31/M3 3003',
      'set phantom-on MIO31/M2',
      'set unmute MIO31/M2',
      'set unmute MIO31/M3',
      'test listen-after',
    ]);
    const floor = () =>
      floorModel(
        [
          [at('MIO31 M2'), '3003'],
          [at('MIO31 M3'), '3002'],
        ],
        { settings: [[`${at('MIO31 M2')} phantom`, 'on']] },
      );
    const steps = list.blocks.flatMap((block) => block.steps);
    const done = play(floor(), steps);
    expect(done.plugs.get(at('MIO31 M3'))).toEqual(['3003']);
    expect(done.settings.get(`${at('MIO31 M2')} phantom`)).toBe('on');
    // From every point back, without a plug that moves under voltage; 48 V never comes back to the ribbon.
    for (let n = 0; n <= steps.length; n++) {
      const half = play(floor(), steps.slice(0, n));
      play(half, wayBackFrom(steps.slice(0, n)));
      expect(half.plugs.get(at('MIO31 M2'))).toEqual(['3003']);
      expect(half.settings.get(`${at('MIO31 M2')} phantom`)).toBe(n < 5 ? 'on' : 'off');
      expect([...half.muted]).toEqual([]);
    }
  });
  it('never says that anything is safe, and shows the caution of the jack', () => {
    const view = fixesView(foldAll(plan, [started({ permission: 'disconnect' }), ...followed, ...pages]), 'a');
    expect(JSON.stringify(view)).not.toMatch(/\bsafe/i);
    const move = view.blocks.flatMap(({ steps }) => steps).find(({ action }) => action === 'hold')!;
    expect(move.caution).toContain('Phantom');
  });
});

describe('twenty-five pairs', () => {
  const plan = planOf([['6001', 'BLK4 1-25', 'BLK1 1-25']]);
  const followed = (from: number, to: number) =>
    statement([`BLK4 ${from}`], 'plugged', { basis: 'followed', joinedTo: at(`BLK1 ${to}`) });
  const events = [started(), saw('BLK4 1-25', '6001'), saw('BLK1 1-25', '6001'), followed(6, 11), followed(11, 6)];
  it('follows pair 8 first; nothing is landed anew while the groups may be exchanged', () => {
    const list = listOf(plan, events);
    expect(shortly(list).map((one) => one.split(' ').slice(0, 3).join(' '))).toEqual(['test settle BLK4/8']);
  });
  it('lands the two pairs anew once pair 8 was followed to its own landing', () => {
    expect(shortly(listOf(plan, [...events, followed(8, 8)])).filter((one) => one.includes('move'))).toEqual([
      'hold move BLK1/11 6001 pair 6',
      'plug move BLK1/6>BLK1/11 6001 pair 11',
      'plug move BLK1/6 6001 pair 6',
    ]);
  });
});

describe('the loose end', () => {
  const plan = planOf([['4001', 'LIO23 L1', 'TALA 1-4', { onAir: true, signal: 'closure' }]]);
  const loose = saw('loose: tray of R2', '4001');
  it('is followed first while it is not known which end it is', () => {
    const events = [started(), statement(['LIO23 L1', 'TALA 1-4'], 'empty'), loose];
    expect(shortly(listOf(plan, events))).toEqual(['test which-end ~TRAY-OF-R2 4001']);
  });
  it('is landed where the other end was seen, in the words in which its place was said', () => {
    const events = [started(), saw('LIO23 L1', '4001'), statement(['TALA 1-4'], 'empty'), loose];
    expect(shortly(listOf(plan, events)).filter((one) => one.includes('move'))).toEqual([
      'plug move ~TRAY-OF-R2>TALA/1-4 4001',
    ]);
    expect(words(plan, events)).toContain('TALA 1-4: plug in 4001, loose at tray of R2.');
  });
});

describe('what was decided', () => {
  const plan = planOf([
    ['1003', 'CON32 NET', 'SW1 P03', withSignal('network')],
    ['1004', 'MIO33 NET', 'SW1 P04', withSignal('network')],
  ]);
  const crossed = [
    started(),
    saw('SW1 P03', '1004', { basis: 'followed', joinedTo: at('MIO33 NET') }),
    saw('SW1 P04', '1003'),
    saw('CON32 NET', '1003'),
    saw('MIO33 NET', '1004'),
  ];
  const decided = (choice: Decision['choice'], events = crossed): Decision => {
    const fold = foldAll(plan, events);
    const [cause] = explain(fold, fold.discrepancies()).causes;
    return { target: { type: 'cause', id: cause!.id }, choice, by: 'I. Halloran', reason: 'agreed' };
  };
  it('amended or left: nothing is moved, and it is counted as that', () => {
    const amended = listOf(plan, crossed, { decisions: [decided('amend-record')] });
    expect(amended).toMatchObject({ blocks: [], left: [] });
    expect(amended.record).toHaveLength(2);
    expect(listOf(plan, crossed, { decisions: [decided('leave')] })).toMatchObject({ blocks: [], record: [] });
  });
  it('a decision about what is not settled still moves nothing', () => {
    const undecided = [started(), saw('SW1 P03', '1004'), saw('SW1 P04', '1003')];
    const list = listOf(plan, undecided, { decisions: [decided('fix-floor', undecided)] });
    expect(list.blocks.flatMap(({ steps }) => steps.map(({ task }) => task))).toEqual(['settle']);
  });
  it('an inherited place is amended; relabelling asks before a plug moves', () => {
    const as = (occasion: 'inherit' | 'relabel') => listOf(plan, [started({ occasion }), ...crossed.slice(1)]);
    expect(as('inherit').blocks).toEqual([]);
    expect(shortly(as('relabel'))).toEqual(['ask decide SW1/P03 1004']);
  });
  it('half of a crossing left as it is blocks the other half, and says so', () => {
    const fold = foldAll(plan, crossed);
    const one = fold.discrepancies().find(({ labels }) => labels.includes('1003'))!;
    const left: Decision = {
      target: { type: 'discrepancy', id: one.id },
      choice: 'leave',
      by: 'I. Halloran',
      reason: '',
    };
    expect(shortly(listOf(plan, crossed, { decisions: [left] }))).toEqual(['ask taken SW1/P03>SW1/P04 1004']);
  });
  it('a jack that nobody looked at is looked at before a plug goes in', () => {
    const events = [
      started(),
      saw('SW1 P09', '1003', { basis: 'followed', joinedTo: at('CON32 NET') }),
      saw('CON32 NET', '1003'),
    ];
    expect(shortly(listOf(plan, events))).toEqual(['test look-free SW1/P03 1003']);
  });
  it('holds as events on the phone: amended by one, at odds with another, and then somebody has to say', () => {
    const view = (...more: AuditEvent[]) => fixesView(foldAll(plan, [...crossed, ...more]), 'a');
    const [cause] = explain(foldAll(plan, crossed), foldAll(plan, crossed).discrepancies()).causes;
    const say = (choice: Decision['choice'], by: string) =>
      event('decided', {
        target: { type: 'cause', id: idToFingerprint(cause!.id) },
        about: 'crossed',
        facts: cause!.explains.map(fingerprint),
        choice,
        usual: 'fix-floor',
        by,
        ...(choice === 'fix-floor' ? {} : { reason: 'the desk has moved for good' }),
      });
    expect(view().totals.movements).toBe(3);
    expect(view(say('amend-record', 'M. Okafor'))).toMatchObject({ blocks: [], record: 2 });
    const odds = view(say('amend-record', 'M. Okafor'), say('fix-floor', 'I. Halloran'));
    expect(odds.blocks.flatMap(({ steps }) => steps.map(({ action }) => action))).toEqual(['ask']);
  });
});
