// Tables of the station's own: words of its sheets that stand for a signal, the order of its pairs by colour, the contacts
// of its audio on RJ45. What is typed stays with the caller.

import { signalWords } from '../../core/report/words/words.ts';
import { MAX_PAIRS, pairOrder, type SiteRules } from '../../core/schedule/desk/siteRules.ts';
import { AUDIO_CHANNELS, audioPairToWords } from '../../core/trade/audioPins.ts';
import { SIGNALS } from '../../core/trade/kinds.ts';
import { Choice, Field, PlainButton } from '../parts/form.tsx';
import { Row, SectionHead } from '../parts/rows.tsx';
import { Select } from '../parts/select.tsx';
import { count } from '../words.ts';
import {
  addAirWord,
  addSignalWords,
  CHANNEL_WORDS,
  pairsToText,
  type Typed,
  textToPairs,
  typedPins,
} from './siteRulesDraft.ts';
import { RuleEntry } from './siteRulesEntry.tsx';

export interface RulesForm {
  rules: SiteRules;
  typed: Typed;
  change(part: Partial<SiteRules>): void;
  type(part: Partial<Typed>): void;
  /** Adds an entry, or says below the fields why it cannot be one. */
  add(at: string, added: ReturnType<typeof addSignalWords>, clear: Partial<Typed>): void;
  wrongAt(at: string): string | undefined;
}

const SIGNAL_OPTIONS = SIGNALS.map((signal) => ({ value: signal, text: signalWords(signal) }));

export function SiteRulesTables(form: RulesForm) {
  return (
    <>
      <SignalWords {...form} />
      <AirWords {...form} />
      <PairColours {...form} />
      <AudioOnRj45 {...form} />
    </>
  );
}

function SignalWords({ rules, typed, change, type, add, wrongAt }: RulesForm) {
  return (
    <>
      <SectionHead strong title="Words for signals" right={String(rules.signalWords.length)} />
      <p class="desk-note">
        What a word on your sheets means here. It comes before the usual words of the trade, from the next sheet on.
        Words for mains, telephone, radio frequency, loudspeakers or a supply keep their meaning.
      </p>
      {rules.signalWords.map((one, i) => (
        <RuleEntry
          key={i}
          title={one.words}
          second={`Means ${signalWords(one.signal)}`}
          onRemove={() => change({ signalWords: rules.signalWords.filter((_, j) => j !== i) })}
        />
      ))}
      <div class="desk-part desk-three">
        <Field
          label="Word on your sheets"
          ident
          value={typed.word}
          error={wrongAt('word')}
          onInput={(word) => type({ word })}
        />
        <Select label="Means" value={typed.stands} options={SIGNAL_OPTIONS} onChoose={(stands) => type({ stands })} />
        <PlainButton onPress={() => add('word', addSignalWords(rules, typed), { word: '' })}>Add this word</PlainButton>
      </div>
    </>
  );
}

function AirWords({ rules, typed, change, type, add, wrongAt }: RulesForm) {
  const airWords = rules.airWords ?? [];
  return (
    <>
      <SectionHead strong title="Words for on-air" right={String(airWords.length)} />
      <p class="desk-note">
        A circuit with one of these words in its name, signal, service or notes counts as on-air, and so does all it
        runs over. The usual words count anyway: on air, air chain, programme, transmitter, STL, emergency, do not
        touch, do not move, do not unplug. It counts at once, in every audit.
      </p>
      {airWords.map((word, i) => (
        <RuleEntry
          key={word}
          title={word}
          second="Marks what is on-air"
          onRemove={() => change({ airWords: airWords.filter((_, j) => j !== i) })}
        />
      ))}
      <div class="desk-part desk-three">
        <Field
          label="On-air word of this station"
          ident
          value={typed.air}
          error={wrongAt('air')}
          onInput={(air) => type({ air })}
        />
        <PlainButton onPress={() => add('air', addAirWord(rules, typed), { air: '' })}>
          Add this on-air word
        </PlainButton>
      </div>
    </>
  );
}

function PairColours({ rules, typed, change, type }: RulesForm) {
  const order = pairOrder(rules);
  const text = typed.pairs ?? pairsToText(order);
  const pairs = textToPairs(text);
  const isOwn = rules.pairs.length > 0 || typed.pairs !== null;
  const shown = [...new Set([1, 6, order.length])].flatMap((n) => {
    const pair = order[n - 1];
    return pair ? [`Pair ${n}: ${pair.tip} with ${pair.ring}.`] : [];
  });
  return (
    <>
      <SectionHead strong title="Colours of pairs" right={count(order.length, 'pair')} />
      <div class="desk-part">
        <Choice
          legend="The pairs of a multi-pair cable follow"
          value={isOwn ? 'own' : 'published'}
          options={[
            { value: 'published', text: 'The usual 25 pairs' },
            { value: 'own', text: 'Our own order' },
          ]}
          onChoose={(value) => {
            change({ pairs: value === 'own' ? [...order] : [] });
            type({ pairs: value === 'own' ? pairsToText(order) : null });
          }}
        />
        {isOwn && (
          <Field
            label="Each pair as tip/ring, in order"
            hint={`A comma or a new line between two pairs, ${MAX_PAIRS} at most. A larger cable starts over after the last.`}
            lines={6}
            value={text}
            error={typeof pairs === 'string' ? pairs : undefined}
            onInput={(given) => {
              const read = textToPairs(given);
              type({ pairs: given });
              if (typeof read !== 'string') change({ pairs: read });
            }}
          />
        )}
        <p role="status">
          {typeof pairs === 'string' ? 'The order stays as it was until this is corrected.' : shown.join(' ')}
        </p>
      </div>
    </>
  );
}

function AudioOnRj45({ rules, typed, change, type }: RulesForm) {
  const pins = typedPins(rules, typed);
  const now = AUDIO_CHANNELS.map(
    (channel) => `${CHANNEL_WORDS[channel]} ${audioPairToWords(rules.audioPins[channel])}`,
  );
  return (
    <>
      <SectionHead strong title="Audio on RJ45" />
      <p class="desk-note">
        Which contacts carry what, hot first. No convention is the same everywhere. Shown at jacks that carry audio; it
        proves nothing about the jack in front of you.
      </p>
      <div class="desk-part desk-three">
        {AUDIO_CHANNELS.map((channel) => (
          <Field
            key={channel}
            label={CHANNEL_WORDS[channel]}
            ident
            value={typed[channel] ?? `${rules.audioPins[channel].hot}/${rules.audioPins[channel].cold}`}
            error={pins.type === 'bad' && pins.at === channel ? pins.why : undefined}
            onInput={(given) => {
              const next = { ...typed, [channel]: given };
              const read = typedPins(rules, next);
              type({ [channel]: given });
              if (read.type === 'pins') change({ audioPins: read.pins });
            }}
          />
        ))}
      </div>
      <Row title="Set now" second={now.join('; ')} />
    </>
  );
}
