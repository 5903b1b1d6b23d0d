// The parts of the station's rules that the desk check counts and compares by: channel numbers, subnets, signals that
// may meet, left and right. They show and change a draft; nothing is kept here.
import { signalWords } from '../../core/report/words/words.ts';
import { LEFT_IS, USUAL_RULES } from '../../core/schedule/desk/siteRules.ts';
import { Choice, Field, PlainButton } from '../parts/form.tsx';
import { SectionHead } from '../parts/rows.tsx';
import { Select } from '../parts/select.tsx';
import {
  addException,
  addMeeting,
  addSubnet,
  channelExample,
  MEETING_OPTIONS,
  overlapsToWords,
  sharedNumbers,
} from './siteRulesDraft.ts';
import { RuleEntry } from './siteRulesEntry.tsx';
import type { RulesForm } from './siteRulesTables.tsx';

const LEFT_WORDS = { lower: 'The lower number', higher: 'The higher number', any: 'No rule' } as const;

export function ChannelNumbers({
  rules,
  change,
  typed,
  wrongAt,
  typeFactor,
}: RulesForm & { typeFactor: (factor: string) => void }) {
  return (
    <>
      <SectionHead strong title="Channel numbers" />
      <div class="desk-part">
        <Choice
          legend="A channel number is"
          value={rules.channel ? 'rule' : 'none'}
          options={[
            { value: 'rule', text: 'Address and input' },
            { value: 'none', text: 'No rule' },
          ]}
          onChoose={(value) => change({ channel: value === 'none' ? null : USUAL_RULES.channel })}
        />
        {rules.channel && (
          <Field
            label="Last number of the address, times"
            hint="Then the number of the input is added. Times 100 is common practice."
            value={typed.factor ?? String(rules.channel.factor)}
            inputMode="numeric"
            error={wrongAt('factor')}
            onInput={typeFactor}
          />
        )}
        <p role="status">{channelExample(rules)}</p>
      </div>
    </>
  );
}

export function OtherNumbers({ rules, change, typed, type, wrongAt, add }: RulesForm) {
  return (
    <>
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
    </>
  );
}

export function Subnets({ rules, change, typed, type, wrongAt, add }: RulesForm) {
  return (
    <>
      <SectionHead strong title="Subnets" right={String(rules.subnets.length)} />
      {rules.subnets.length === 0 && <p class="desk-note">None set: no address is outside.</p>}
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
    </>
  );
}

export function MayMeet({ rules, change, typed, type, wrongAt, add }: RulesForm) {
  return (
    <>
      <SectionHead strong title="Signals that may meet here" right={String(rules.mayMeet.length)} />
      <p class="desk-note">
        Network, audio, contacts and serial share the RJ45, and every house wires it its own way. Two signals listed
        here are no longer reported when they meet. Mains, telephone, radio frequency, loudspeakers and anything that
        carries power are always reported.
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
    </>
  );
}

export function LeftAndTop({ rules, change }: RulesForm) {
  return (
    <>
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
          hint="Used where no list of racks says it, from the next sheet on."
          value={rules.numbering}
          options={[
            { value: 'bottom-up', text: 'Bottom' },
            { value: 'top-down', text: 'Top' },
          ]}
          onChoose={(numbering) => change({ numbering })}
        />
      </div>
    </>
  );
}

export function without<T>(list: readonly T[], i: number): T[] {
  return list.filter((_, j) => j !== i);
}
