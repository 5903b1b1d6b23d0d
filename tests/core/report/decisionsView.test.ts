// What Differences and the report are told of judgements and decisions: the stories that may be accepted, what is usual
// here and why, what is open again and since where somebody looked. Invented data.
import { describe, expect, it } from 'vitest';
import type { AuditEvent, Payload } from '../../../src/core/record/events.ts';
import { decidedRows, decidedToWords, saidToWords } from '../../../src/core/report/decisionsView.ts';
import { fixesView } from '../../../src/core/report/fixesView.ts';
import { differencesView } from '../../../src/core/report/reconciliation.ts';
import { foldAll } from '../../../src/core/rules/fold.ts';
import { at, event, planOf, saw, started, statement } from '../record/build.ts';

const jack = (n: number) => `SW1 P${String(n).padStart(2, '0')}`;
const plan = planOf(Array.from({ length: 12 }, (_, i) => [String(1101 + i), `ROOM ${i + 1}`, jack(i + 1)]));
const crossed = [2, 1].map((n, i) => saw(jack(i + 1), String(1100 + n)));
const view = (events: AuditEvent[], occasion: Payload<'audit-started'>['occasion'] = 'after-move') =>
  differencesView(foldAll(plan, [started({ occasion }), ...events]), 'a');

/** As the screen does it: with the key, the words and the evidence that were shown. */
function judge(events: AuditEvent[], kind: string, more: Partial<Payload<'cause-judged'>> = {}): AuditEvent {
  const { key, about, evidence } = view(events).explained.causes.find((one) => one.kind === kind)!.judging;
  return event('cause-judged', { cause: key, about, evidence, judgement: 'accepted', by: 'M. Okafor', ...more });
}

describe('a cause on the screen', () => {
  it('offers both of its stories, and still does once one was taken', () => {
    const both = [
      { as: 'crossed', words: 'Two cables crossed' },
      { as: 'labels-exchanged', words: 'Labels swapped' },
    ];
    const [before] = view(crossed).explained.causes;
    expect(before).toMatchObject({ title: 'Crossed, or the labels are swapped', judging: { takes: both, said: [] } });
    const said = judge(crossed, 'crossed-or-labels-exchanged', { as: 'crossed' });
    const [after] = view([...crossed, said]).explained.causes;
    expect(after).toMatchObject({ title: 'Two cables crossed', certainty: 'Possible', judging: { takes: both } });
    expect(after!.judging.key).toBe(before!.judging.key);
    expect(after!.line).toContain('Somebody said so; nobody followed them.');
    const [line] = after!.judging.said;
    expect(saidToWords(line!, 'today')).toBe('Accepted: two cables crossed. M. Okafor, today.');
  });

  it('is open again with the places that were looked at since, and the old word beside it', () => {
    const row = Array.from({ length: 8 }, (_, i) => saw(jack(4 + i), String(1105 + i)));
    const said = judge(row, 'hand-slipped');
    const { causes, reopened } = view([...row, said, statement([jack(12)], 'empty')]).explained;
    expect(reopened).toMatchObject([{ why: 'Reopened: new checks at SW1 P12', by: 'M. Okafor' }]);
    expect(causes).toMatchObject([{ kind: 'row-shifted', judging: { said: [] }, reopened: [{ event: said.id }] }]);
  });

  it('is open again by a follow far away as well, said at the far end', () => {
    const said = judge(crossed, 'crossed-or-labels-exchanged', { as: 'labels-exchanged' });
    const follow = statement(['ROOM 2'], 'plugged', { basis: 'followed', joinedTo: at(jack(1)) });
    const { causes, reopened } = view([...crossed, said, follow]).explained;
    expect(reopened).toMatchObject([{ why: 'Reopened: new checks at ROOM 2' }]);
    expect(causes).toMatchObject([{ kind: 'crossed', certainty: 'Confirmed' }]);
  });

  it('that was said no to is listed with its reason and offered no more', () => {
    const no = judge(crossed, 'crossed-or-labels-exchanged', { judgement: 'rejected', reason: 'renumbered in May' });
    const { causes, refused, alone } = view([...crossed, no]).explained;
    expect(causes).toEqual([]);
    expect(refused).toMatchObject([{ by: 'M. Okafor', reason: 'renumbered in May', event: no.id }]);
    expect(alone).toHaveLength(2);
  });
});

describe('a decision on the screen', () => {
  const decided = (events: AuditEvent[], choice: Payload<'decided'>['choice'], by = 'M. Okafor') => {
    const { target, about, facts, usual } = view(events).explained.causes[0]!.decision;
    return event('decided', { target, about, facts, usual, choice, reason: 'the desk has moved for good', by });
  };

  it('names what is usual and why', () => {
    const usual = (occasion: Payload<'audit-started'>['occasion']) => view(crossed, occasion).lines[0]!.decision;
    expect(usual('after-move')).toMatchObject({
      usual: 'fix-floor',
      usualWords: 'Usual after a move: fix the wiring.',
    });
    expect(usual('inherit').usualWords).toBe('Usual in an undocumented place: update the plan.');
    expect(usual('relabel')).toMatchObject({ usual: null, usualWords: 'There is no usual choice here: say why.' });
  });

  it('about a cause is told once with all its numbers, and counted for each difference', () => {
    const other = saw(jack(5), '7777');
    const events = [...crossed, other];
    const { lines, undecided } = view([...events, decided(events, 'leave')]);
    const numbers = lines.filter(({ kind }) => kind === 'wrong-jack').map(({ number }) => number);
    expect(numbers).toHaveLength(2);
    expect(decidedRows(lines)).toMatchObject([{ words: 'Leave it', numbers, disputed: false }]);
    expect(undecided).toBe(1);
    expect(decidedToWords(lines, undecided)).toBe('2 of 3 differences are decided. 1 has no decision yet.');
  });

  it('of two that do not agree counts as none', () => {
    const both = [decided(crossed, 'leave'), decided(crossed, 'fix-floor', 'L. Brandt')];
    const { lines, undecided, explained } = view([...crossed, ...both]);
    expect(undecided).toBe(2);
    expect(explained.causes[0]!.decision).toMatchObject({ choice: null, disputed: true });
    expect(decidedToWords(lines, undecided)).toBe(
      'No decision yet on 2 differences, 2 of them because two people do not agree.',
    );
  });

  it('to update the plan becomes a change of ends in words, once somebody answers for the story', () => {
    const amend = decided(crossed, 'amend-record');
    expect(view([...crossed, amend]).amendments).toMatchObject({
      ends: [],
      byHand: [{ why: 'what happened is not settled; one check is still to do' }, { by: 'M. Okafor' }],
    });
    const said = judge(crossed, 'crossed-or-labels-exchanged', { as: 'crossed' });
    expect(view([...crossed, said, amend]).amendments.ends).toEqual([
      {
        label: '1101',
        isCable: true,
        end: 'to end',
        from: 'SW1 P01',
        to: 'SW1 P02',
        by: 'M. Okafor',
        reason: 'the desk has moved for good',
      },
      {
        label: '1102',
        isCable: true,
        end: 'to end',
        from: 'SW1 P02',
        to: 'SW1 P01',
        by: 'M. Okafor',
        reason: 'the desk has moved for good',
      },
    ]);
  });
});

describe('the list of work', () => {
  const work = (events: AuditEvent[]) => {
    const fold = foldAll(plan, [started({ permission: 'disconnect' }), ...events]);
    const { blocks, left } = fixesView(fold, 'a');
    const actions = blocks.flatMap(({ steps }) => steps.map(({ action }) => action));
    return { left, moves: actions.filter((one) => one === 'pull' || one === 'plug').length };
  };
  const yes = () => judge(crossed, 'crossed-or-labels-exchanged', { as: 'crossed' });
  const decide = (choice: Payload<'decided'>['choice'], by = 'M. Okafor') => {
    const { target, about, facts, usual } = view(crossed).explained.causes[0]!.decision;
    return event('decided', { target, about, facts, usual, choice, reason: 'the desk has moved for good', by });
  };

  it('moves plugs once somebody answers for the story, and not before', () => {
    expect(work(crossed).moves).toBe(0);
    expect(work([...crossed, yes()]).moves).toBeGreaterThan(0);
    const no = judge(crossed, 'crossed-or-labels-exchanged', { judgement: 'rejected', reason: 'no', by: 'L. Brandt' });
    expect(work([...crossed, yes(), no]).moves).toBe(0);
  });
  it('moves none that somebody leaves, or on which two do not agree', () => {
    expect(work([...crossed, yes(), decide('leave')])).toEqual({ left: 2, moves: 0 });
    expect(work([...crossed, yes(), decide('leave'), decide('fix-floor', 'L. Brandt')])).toEqual({ left: 0, moves: 0 });
  });
});
