// The station's own rules, on which the desk check rests: channel numbers, subnets, signals that may meet, left and
// right, how racks are counted. They are kept as an event and reach the other phones; nothing of the plan changes.
import { useSignal } from '@preact/signals';
import { signalWords } from '../../core/report/words/words.ts';
import { LEFT_IS, type SiteRules, USUAL_RULES } from '../../core/schedule/desk/siteRules.ts';
import { useAsked, useServices } from '../context.ts';
import { useDraft } from '../drafts/useDraft.ts';
import { SITE_RULES } from '../drafts/workDrafts.ts';
import { timeToWords } from '../home/homeWords.ts';
import { Choice, Field, PlainButton } from '../parts/form.tsx';
import { Plate, Screen, TitleBlock } from '../parts/frame.tsx';
import { ErrorBox, SectionHead } from '../parts/rows.tsx';
import { Select } from '../parts/select.tsx';
import { NoAnswer } from '../plan/planParts.tsx';
import { go } from '../router.ts';
import {
  addException,
  addMeeting,
  addSubnet,
  channelExample,
  isTyped,
  MEETING_OPTIONS,
  NOTHING_BEGUN,
  NOTHING_TYPED,
  overlapsToWords,
  sharedNumbers,
  type Typed,
  textToFactor,
  unread,
} from './siteRulesDraft.ts';
import { RuleEntry } from './siteRulesEntry.tsx';
import { SiteRulesTables } from './siteRulesTables.tsx';
import '../look/desk.css';

const LEFT_WORDS = { lower: 'The lower number', higher: 'The higher number', any: 'No rule' } as const;

export default function SiteRulesScreen() {
  const services = useServices();
  const asked = useAsked('siteRules', {});
  const {
    now: draft,
    set: save,
    drop,
  } = useDraft('site-rules', SITE_RULES, {
    edited: null as SiteRules | null,
    typed: NOTHING_TYPED,
  });
  const wrong = useSignal<{ at: string; why: string } | null>(null);
  const trouble = useSignal<string | null>(null);
  const saving = useSignal(false);
  const toDesk = () => go({ screen: 'desk-check' });
  if (asked.type !== 'ready')
    return <NoAnswer title="The station’s rules" asked={asked} missing="The rules are not on this phone." />;

  const { rules: kept, set } = asked.value;
  const rules: SiteRules = { ...USUAL_RULES, ...(draft.edited ?? kept) };
  const { typed } = draft;
  const change = (part: Partial<SiteRules>) => save({ edited: { ...rules, ...part } });
  const type = (part: Partial<Typed>) => save({ typed: { ...typed, ...part } });
  const add = (at: string, added: ReturnType<typeof addException>, clear: Partial<Typed>) => {
    if (added.type === 'bad') {
      wrong.value = { at, why: added.why };
      return;
    }
    wrong.value = null;
    save({ edited: added.rules, typed: { ...typed, ...clear } });
  };
  const wrongAt = (at: string) => (wrong.value?.at === at ? wrong.value.why : undefined);
  const without = <T,>(list: readonly T[], i: number) => list.filter((_, j) => j !== i);

  async function keep(): Promise<void> {
    if (saving.peek()) return;
    trouble.value = null;
    const factor = rules.channel && typed.factor !== null ? textToFactor(typed.factor) : null;
    if (typeof factor === 'string') {
      wrong.value = { at: 'factor', why: factor };
      return;
    }
    // What is typed below and cannot be read stands there with its reason.
    if (unread(rules, typed)) {
      trouble.value = 'Something typed below cannot be read; its reason stands beside it.';
      return;
    }
    saving.value = true;
    const whole = factor === null ? rules : { ...rules, channel: { factor } };
    const done = await services.record('rules-set', { rules: whole });
    saving.value = false;
    if (done.type === 'not-saved') {
      trouble.value = done.why;
      return;
    }
    drop();
    toDesk();
  }
  const touched = draft.edited !== null || isTyped(typed);

  return (
    <Screen
      plate={
        <Plate
          back={{ label: 'Back to the desk check', onPress: toDesk }}
          cells={[{ small: services.stationName.value || 'Station', big: 'The station’s rules', heading: true }]}
        />
      }
      foot={
        <TitleBlock
          rows={[
            [
              {
                small: 'As nobody set any',
                big: 'Usual rules',
                onPress: () => save({ edited: USUAL_RULES, typed: { ...typed, ...NOTHING_BEGUN } }),
              },
              {
                small: touched ? 'Changed, not kept yet' : 'Nothing changed',
                big: saving.value ? 'Saving' : 'Keep them',
                primary: true,
                share: 2,
                disabled: !touched,
                onPress: () => void keep(),
              },
            ],
          ]}
        />
      }
    >
      {trouble.value && (
        <ErrorBox
          what="The rules could not be kept."
          where={trouble.value}
          todo="What you changed is still here. Mend what is marked, or free some space on the phone; then press again."
        />
      )}
      <p class="desk-note">
        The desk check holds the schedule against these. They belong to the station and reach its other phones.{' '}
        {set
          ? `Set by ${set.by || 'nobody named'}, ${timeToWords(set.at, services.now())}.`
          : 'Nobody has set any yet.'}
      </p>

      <SectionHead strong title="Channel numbers" />
      <div class="desk-part">
        <Choice
          legend="A channel number is"
          value={rules.channel ? 'rule' : 'none'}
          options={[
            { value: 'rule', text: 'Made of address and input' },
            { value: 'none', text: 'Not by a rule' },
          ]}
          onChoose={(value) => change({ channel: value === 'none' ? null : USUAL_RULES.channel })}
        />
        {rules.channel && (
          <Field
            label="Last number of the address, times"
            hint="Plus the number of the input. Times 100 is common practice."
            value={typed.factor ?? String(rules.channel.factor)}
            inputMode="numeric"
            error={wrongAt('factor')}
            onInput={(factor) => {
              const read = textToFactor(factor);
              wrong.value = typeof read === 'string' ? { at: 'factor', why: read } : null;
              save({
                typed: { ...typed, factor },
                ...(typeof read === 'number' ? { edited: { ...rules, channel: { factor: read } } } : {}),
              });
            }}
          />
        )}
        <p role="status">{channelExample(rules)}</p>
      </div>
      <SectionHead title="Numbers by another rule" right={String(rules.channelExceptions.length)} />
      {rules.channelExceptions.map((one, i) => (
        <RuleEntry
          key={i}
          title={one.last === one.first ? String(one.first) : `${one.first} to ${one.last}`}
          second={one.why}
          onRemove={() => change({ channelExceptions: without(rules.channelExceptions, i) })}
        />
      ))}
      <div class="desk-part desk-three">
        <Field label="From channel" value={typed.first} inputMode="numeric" onInput={(first) => type({ first })} />
        <Field label="To channel" value={typed.last} inputMode="numeric" onInput={(last) => type({ last })} />
        <Field label="Why these" value={typed.why} error={wrongAt('exception')} onInput={(why) => type({ why })} />
        <PlainButton onPress={() => add('exception', addException(rules, typed), { first: '', last: '', why: '' })}>
          Add these numbers
        </PlainButton>
      </div>

      <SectionHead strong title="Subnets" right={String(rules.subnets.length)} />
      {rules.subnets.length === 0 && <p class="desk-note">None named: no address is outside.</p>}
      {rules.subnets.map((one, i) => (
        <RuleEntry
          key={i}
          title={one.name}
          second={[one.subnet, one.add ? `${one.add} added to its channel numbers` : ''].filter(Boolean).join(', ')}
          onRemove={() => change({ subnets: without(rules.subnets, i) })}
        />
      ))}
      {[...overlapsToWords(rules), sharedNumbers(rules) ?? []].flat().map((sentence) => (
        <p key={sentence} class="desk-note red">
          {sentence}
        </p>
      ))}
      <div class="desk-part desk-three">
        <Field label="Name of the subnet" value={typed.subnetName} onInput={(subnetName) => type({ subnetName })} />
        <Field
          label="Subnet, as 192.0.2.0/24"
          ident
          value={typed.subnet}
          error={wrongAt('subnet')}
          onInput={(subnet) => type({ subnet })}
        />
        <Field
          label="Added to its channel numbers"
          value={typed.add}
          inputMode="numeric"
          onInput={(text) => type({ add: text })}
        />
        <PlainButton onPress={() => add('subnet', addSubnet(rules, typed), { subnetName: '', subnet: '', add: '' })}>
          Add this subnet
        </PlainButton>
      </div>

      <SectionHead strong title="Signals that may meet here" right={String(rules.mayMeet.length)} />
      <p class="desk-note">
        Network, audio, contacts and serial share the RJ45, and houses wire it in different ways. Two signals named here
        are no longer told when they meet. Mains, telephone, radio frequency, loudspeakers and whatever carries a supply
        are always told.
      </p>
      {rules.mayMeet.map((one, i) => (
        <RuleEntry
          key={i}
          title={`${signalWords(one.a)} and ${signalWords(one.b)}`}
          second={one.why}
          onRemove={() => change({ mayMeet: without(rules.mayMeet, i) })}
        />
      ))}
      <div class="desk-part desk-three">
        <Select label="This signal" value={typed.a} options={MEETING_OPTIONS} onChoose={(a) => type({ a })} />
        <Select label="May meet" value={typed.b} options={MEETING_OPTIONS} onChoose={(b) => type({ b })} />
        <Field
          label="Why they may"
          value={typed.meetWhy}
          error={wrongAt('meeting')}
          onInput={(meetWhy) => type({ meetWhy })}
        />
        <PlainButton onPress={() => add('meeting', addMeeting(rules, typed), { meetWhy: '' })}>
          Add this pair
        </PlainButton>
      </div>

      <SectionHead strong title="Left and right, top and bottom" />
      <div class="desk-part">
        <Choice
          legend="Of two jacks that belong together, left is"
          value={rules.left}
          options={LEFT_IS.map((value) => ({ value, text: LEFT_WORDS[value] }))}
          onChoose={(left) => change({ left })}
        />
        <Choice
          legend="A rack is counted from the"
          hint="Where no list of racks says it. It counts from the next sheet on."
          value={rules.numbering}
          options={[
            { value: 'bottom-up', text: 'Bottom' },
            { value: 'top-down', text: 'Top' },
          ]}
          onChoose={(numbering) => change({ numbering })}
        />
      </div>

      <SiteRulesTables rules={rules} typed={typed} change={change} type={type} add={add} wrongAt={wrongAt} />
    </Screen>
  );
}
