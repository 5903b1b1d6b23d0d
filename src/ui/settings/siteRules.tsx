// The station's own rules, on which the desk check rests: channel numbers, subnets, signals that may meet, left and
// right, how racks are counted. They are kept as an event and reach the other phones; nothing of the plan changes.
import { useSignal } from '@preact/signals';
import { type SiteRules, USUAL_RULES } from '../../core/schedule/desk/siteRules.ts';
import { useAsked, useServices } from '../context.ts';
import { useDraft } from '../drafts/useDraft.ts';
import { SITE_RULES } from '../drafts/workDrafts.ts';
import { Plate, Screen, TitleBlock } from '../parts/frame.tsx';
import { ErrorBox } from '../parts/rows.tsx';
import { NoAnswer } from '../plan/planParts.tsx';
import { go } from '../router.ts';
import { timeToWords } from '../words.ts';
import { isTyped, NOTHING_BEGUN, NOTHING_TYPED, textToFactor, unread } from './siteRulesDraft.ts';
import { ChannelNumbers, LeftAndTop, MayMeet, OtherNumbers, Subnets } from './siteRulesParts.tsx';
import { type RulesForm, SiteRulesTables } from './siteRulesTables.tsx';
import '../look/desk.css';

export default function SiteRulesScreen() {
  const asked = useAsked('siteRules', {});
  if (asked.type !== 'ready')
    return <NoAnswer title="The station’s rules" asked={asked} missing="The rules are not on this phone." />;
  return <Rules kept={asked.value.rules} set={asked.value.set} />;
}

const toDesk = () => go({ screen: 'desk-check' });

function Rules({ kept, set }: { kept: SiteRules; set: { by: string; at: number } | null }) {
  const services = useServices();
  const { form, touched, trouble, saving, typeFactor, asUsual, keep } = useRules(kept);
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
              { small: 'Set them all back', big: 'Usual rules', onPress: asUsual },
              {
                small: touched ? 'Changed, not saved yet' : 'Nothing changed',
                big: saving ? 'Saving' : 'Save the rules',
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
      {trouble && (
        <ErrorBox
          what="The rules could not be saved."
          where={trouble}
          todo="What you changed is still here. Correct what is marked, or free some space on the phone; then press again."
        />
      )}
      <p class="desk-note">
        The desk check compares the schedule with these rules. They belong to the station and go to its other phones.{' '}
        {set
          ? `Set by ${set.by || 'somebody without a name'}, ${timeToWords(set.at, services.now())}.`
          : 'Nobody has set any yet.'}
      </p>
      <ChannelNumbers {...form} typeFactor={typeFactor} />
      <OtherNumbers {...form} />
      <Subnets {...form} />
      <MayMeet {...form} />
      <LeftAndTop {...form} />
      <SiteRulesTables {...form} />
    </Screen>
  );
}

/** The rules while they are changed: what is typed and cannot be one stays beside them, with its reason. */
function useRules(kept: SiteRules) {
  const services = useServices();
  const {
    now: { edited, typed },
    set: save,
    drop,
  } = useDraft('site-rules', SITE_RULES, { edited: null as SiteRules | null, typed: NOTHING_TYPED });
  const wrong = useSignal<{ at: string; why: string } | null>(null);
  const trouble = useSignal<string | null>(null);
  const saving = useSignal(false);
  // Begun by a build that did not know these words, it takes none of them out.
  const airWords = edited?.airWords ?? kept.airWords ?? [];
  const rules: SiteRules = { ...USUAL_RULES, ...(edited ?? kept), airWords };
  const form: RulesForm = {
    rules,
    typed,
    change: (part) => save({ edited: { ...rules, ...part } }),
    type: (part) => save({ typed: { ...typed, ...part } }),
    add: (at, added, clear) => {
      wrong.value = added.type === 'bad' ? { at, why: added.why } : null;
      if (added.type !== 'bad') save({ edited: added.rules, typed: { ...typed, ...clear } });
    },
    wrongAt: (at) => (wrong.value?.at === at ? wrong.value.why : undefined),
  };
  const typeFactor = (text: string) => {
    const factor = textToFactor(text);
    wrong.value = typeof factor === 'string' ? { at: 'factor', why: factor } : null;
    save({
      typed: { ...typed, factor: text },
      ...(typeof factor === 'number' ? { edited: { ...rules, channel: { factor } } } : {}),
    });
  };
  const keep = async () => {
    if (saving.peek()) return;
    trouble.value = null;
    const factor = rules.channel && typed.factor !== null ? textToFactor(typed.factor) : null;
    if (typeof factor === 'string') {
      wrong.value = { at: 'factor', why: factor };
      return;
    }
    if (unread(rules, typed)) {
      trouble.value = 'Something typed below cannot be read; the reason is beside it.';
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
  };
  return {
    form,
    touched: edited !== null || isTyped(typed),
    trouble: trouble.value,
    saving: saving.value,
    typeFactor,
    asUsual: () => save({ edited: { ...USUAL_RULES, airWords: [] }, typed: { ...typed, ...NOTHING_BEGUN } }),
    keep,
  };
}
