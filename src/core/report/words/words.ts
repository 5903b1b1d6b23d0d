// Discrepancies in words, once for screens and reports: jack first, short, present, no blame, never "safe".

import { type PlaceId, unitOf } from '../../plan/identity.ts';
import { type PlanIndex, placeToWords } from '../../plan/planIndex.ts';
import type { Discrepancy, DiscrepancyKind, GivenNumber, HazardBasis } from '../../rules/discrepancy.ts';
import { hazardById } from '../../trade/hazards.ts';
import type { Severity } from '../../trade/kinds.ts';
import type { PhantomVictim } from '../../trade/phantom.ts';
import { differFrom } from '../../trade/settingNames.ts';
import { signalClash } from '../../trade/signals.ts';
import { seenToWords } from '../leftView.ts';
import { anyOf, counted, listed } from './plain.ts';

export const SEVERITY_WORDS: Record<Severity, string> = {
  people: 'Hazard to people',
  equipment: 'Hazard to equipment',
  'on-air': 'On-air',
  undecided: 'Air impact unknown, treated as on-air',
  service: 'Service',
  record: 'Record',
};

export const KIND_WORDS: Record<DiscrepancyKind, string> = {
  'wrong-jack': 'Label not in its planned jack',
  'empty-jack': 'Jack is empty, the plan has a cable',
  'not-installed': 'Not installed',
  'unplanned-cable': 'Cable not in the plan',
  'unlabelled-cable': 'Cable has no label',
  'illegible-label': 'Label cannot be read',
  'duplicate-label': 'Duplicate cable number',
  'one-end-labelled': 'Label at one end only',
  'ends-differ': 'Different numbers at the two ends',
  'ends-reversed': 'From end and to end swapped',
  'old-label-left': 'Old label left beside the new one',
  'not-landed': 'Pulled, not connected',
  'abandoned-cable': 'Loose cable, far end unknown',
  'spare-in-use': 'Spare in use',
  'signal-clash': 'Signals that must not be joined',
  'direction-clash': 'Two outputs or two inputs joined',
  'left-right-swapped': 'Left and right swapped',
  'polarity-reversed': 'Polarity reversed',
  'wrong-connector': 'Connector differs from the plan',
  'wrong-cable-type': 'Cable type differs from the plan',
  'undeclared-adapter': 'Adapter not in the plan',
  'unit-moved': 'Unit moved',
  'unit-replaced': 'Different unit in its place',
  'unit-unlisted': 'Unit not in the plan',
  'unit-not-found': 'Unit not found',
  'setting-differs': 'Setting differs',
  'phantom-hazard': '48 V on where it can do damage',
  'duplicate-channel': 'Duplicate channel number',
  'duplicate-address': 'Duplicate address',
  'hazard-seen': 'Hazard seen',
  'sightings-conflict': 'Entries contradict each other',
  'plan-contradiction': 'The plan contradicts itself',
  'test-failed': 'Test failed',
  'not-tested': 'Not tested',
};

export interface DiscrepancyWords {
  title: string;
  line: string;
  level: Severity;
  severity: string;
  /** What to do now, for hazards and where a hand might be tempted. */
  order: string | null;
}

/** What stands beside the line already, and what may not be told. */
export interface Beside {
  /** Place id that is named beside it. */
  place?: PlaceId;
  /** The label and the state there are named too. */
  found?: boolean;
  /** In a blind audit where a label belongs is what the next jack is asked. */
  blind?: boolean;
}

export function discrepancyToWords(index: PlanIndex, d: Discrepancy, beside: Beside = {}): DiscrepancyWords {
  const at = d.places.map(whereOf);
  const here = at[0] ?? '';
  const isNamed = beside.place !== undefined && beside.place === d.places[0];
  const isFoundNamed = isNamed && beside.found === true;
  const { found = '', plan = '' } = d;
  return {
    title: titleOf(d),
    line: lineOf(),
    level: d.severity,
    severity: SEVERITY_WORDS[d.severity],
    order: orderOf(d),
  };

  function lineOf(): string {
    switch (d.kind) {
      case 'wrong-jack': {
        const planned = plan ? `plan ${plan}` : 'plan has nothing there';
        const home = d.home && !beside.blind ? ` ${found} belongs in ${whereOf(d.home)}.` : '';
        return `${atHere(isFoundNamed ? planned : `${found} is here, ${planned}`)}.${home}`;
      }
      case 'empty-jack':
        return `${isFoundNamed ? '' : `${here} is empty. `}Plan ${plan || 'has a cable without a number'}.`;
      case 'not-installed':
        return `${d.labels[0]} is at no jack in scope, and all of them were looked at. Planned from ${at.join(' to ')}.`;
      case 'unplanned-cable': {
        if (at.length === 2) return newCableLine();
        const maybe = d.maybe.length > 0 ? ` It may be ${anyOf(d.maybe)}: say which.` : '';
        const unknown = isFoundNamed ? 'not in the plan' : `${found} is not in the plan`;
        return `${atHere(unknown)}.${plan ? ` Plan has ${plan} here.` : ''}${maybe}`;
      }
      case 'unlabelled-cable':
        if (isFoundNamed) return plan ? `Plan has ${plan} here; not confirmed.` : 'Plan has nothing here.';
        return plan
          ? `${atHere('no label')}. Plan has ${plan} here; not confirmed.`
          : `${atHere('no label, and plan has nothing here')}.`;
      case 'illegible-label':
        return [isFoundNamed ? '' : `${here} reads ${d.pattern || 'nothing'}.`, plan ? `Plan ${plan}.` : '']
          .filter(Boolean)
          .join(' ');
      case 'duplicate-label':
        if (d.given) return `${d.labels[0]} was given twice: ${givenWords(index, d.given)}. Two cables, not one.`;
        return `${d.labels[0]} is at ${listed(at)}.`;
      case 'one-end-labelled':
        return `${here} has no label; followed to ${at[1] ?? 'the far end'}, which reads ${found}.`;
      case 'ends-differ':
        return `Followed from ${at[0]} to ${at[1]}: ${d.labels[0]} at one end, ${d.labels[1]} at the other.`;
      case 'ends-reversed':
        return `${here} is marked end ${found}; plan has end ${plan} here.`;
      case 'old-label-left':
        return `${here} reads ${found} and also ${d.old.join(', ')}.`;
      case 'not-landed':
        return `${d.labels[0]} is loose at ${d.where}. What depends on it is off until it is connected.`;
      case 'abandoned-cable':
        return `${atHere(found ? `reads ${found}, not in the plan` : 'no label')}. Far end unknown. Do not cut it.`;
      case 'spare-in-use':
        return `${listed(at)}: ${found || 'a cable'} is a spare in the plan, and in use. Ask operations what it carries.`;
      case 'signal-clash':
        return [
          d.joined
            ? `Followed from ${here} to ${at[1]}.`
            : `${d.labels[0]} ${at[1] ? `runs from ${here} to ${at[1]}, by its label` : `in ${here}`}.`,
          signalClash(...d.signals)?.why,
        ]
          .filter(Boolean)
          .join(' ');
      case 'direction-clash':
        return `${here} and ${at[1]} are both ${d.direction === 'out' ? 'outputs' : 'inputs'}.`;
      case 'left-right-swapped':
        return `${atHere(`found ${found}${plan ? `, plan ${plan}` : ''}`)}.`;
      case 'undeclared-adapter':
        return `${atHere(`${found} is between plug and jack`)}. The plan does not name it.`;
      case 'unit-moved':
        return `${found} is at ${here}. Plan ${whereOf(d.home)}.`;
      case 'unit-replaced':
        return d.setting
          ? `${atHere(`${d.setting} ${found}, plan ${plan}`)}.${differWords(d.setting, found, plan)}`
          : `${here} holds ${found}. Plan ${plan}.`;
      case 'unit-unlisted':
        return `${here} holds ${found}, which the plan does not list.`;
      case 'unit-not-found':
        return `${plan} is not at ${here}.`;
      case 'phantom-hazard':
        return d.setting
          ? `${atHere(`48 V is on${plan ? `, plan ${plan}` : ''}`)}.${victimWords(d.victim)}`
          : `${found} in ${here}, where 48 V is on.${victimWords(d.victim)}`;
      case 'duplicate-channel':
      case 'duplicate-address':
        return `${found} is used by ${listed(at)}.`;
      case 'hazard-seen':
        return [isNamed ? '' : here, hazardWords(index, d.hazard, d.basis)].filter(Boolean).join(': ');
      case 'sightings-conflict':
        return `${atHere(`${anyOf(d.values.map(seenToWords))}? ${counted(d.looks, 'entry', 'entries')} differ`)}. Check again.`;
      case 'plan-contradiction':
        return contradictionWords(d, at);
      case 'test-failed':
        return `${atHere(`${d.labels[0]} failed its test${d.words ? `: ${d.words}` : ''}`)}.`;
      case 'not-tested':
        return `${atHere(`${d.labels[0]} is connected, and no test of it is recorded`)}.`;
      case 'polarity-reversed':
      case 'setting-differs':
      case 'wrong-connector':
      case 'wrong-cable-type':
        return `${atHere(`found ${found}${plan ? `, plan ${plan}` : ''}`)}.`;
    }
  }

  /** Both ends of a cable off the plan; at one of them the other one is the news. */
  function newCableLine(): string {
    const other = beside.found ? at.find((_, i) => d.places[i] !== beside.place) : undefined;
    const runs = other
      ? `Runs to ${other}, not in the plan.`
      : `${found} runs from ${at[0]} to ${at[1]}, not in the plan.`;
    const taken = d.places.flatMap((place, i) => {
      const label = index.endsAt.get(place)?.[0]?.cable.label;
      return label ? [`Plan has ${label} at ${at[i]}.`] : [];
    });
    return [runs, ...taken].join(' ');
  }

  /** A setting and a hazard may be a whole unit's; jacks of the unit that is named beside go by their own name. */
  function whereOf(place: PlaceId): string {
    if (beside.place !== undefined && unitOf(place) !== '' && unitOf(place) === unitOf(beside.place)) {
      return index.jacks.get(place)?.label ?? placeToWords(index, place);
    }
    return placeToWords(index, place);
  }

  /** What there is to say, after the place where it is, unless that is named beside it. */
  function atHere(said: string): string {
    return isNamed ? `${said.charAt(0).toUpperCase()}${said.slice(1)}` : `${here}: ${said}`;
  }
}

/** The sheet against itself, with the rows to look at: "The sheet puts 7 and 8 in one jack, AIO1 I1 (Cables row 3)." */
function contradictionWords(d: Extract<Discrepancy, { kind: 'plan-contradiction' }>, at: readonly string[]): string {
  const labels = listed(d.labels);
  const jack = at.length > 0 ? `, ${listed(at)}` : '';
  const rows = d.rows.map(({ sheet, row }) => `${sheet} row ${row}`).join(', ');
  switch (d.contradiction) {
    case 'number-repeated':
      return `The sheet has ${labels} more than once${jack} (${rows}).`;
    case 'jack-claimed-twice':
      return `The sheet puts ${labels} in one jack${jack} (${rows}).`;
    case 'both-ends-one-jack':
      return `The sheet puts both ends of ${labels} in one jack${jack} (${rows}).`;
    case 'end-missing':
      return at.length > 0
        ? `The sheet has ${labels} at ${listed(at)} and does not say where the other end goes (${rows}).`
        : `The sheet does not say where ${labels} goes (${rows}).`;
  }
}

/** Long numbers are told apart by the eye where it is said from where on they differ. */
function differWords(setting: string, found: string, plan: string): string {
  const split = differFrom(setting, found, plan);
  if (!split || split.from === 1) return '';
  return ` They differ from character ${split.from} on: ${split.found || 'nothing'}, plan ${split.plan || 'nothing'}.`;
}

function victimWords(victim: PhantomVictim | undefined): string {
  switch (victim) {
    case 'ribbon':
      return ' The plan has a ribbon microphone on it.';
    case 'unbalanced':
      return ' The plan has an unbalanced source on it.';
    case 'line':
      return ' The plan has a line source on it.';
    case undefined:
      return '';
  }
}

/** "I. Halloran 10:31 at PP1 P17 and WP2 7, R. Quill 10:40 at …": times in UTC, since the record has no place of its own. */
function givenWords(index: PlanIndex, given: readonly GivenNumber[]): string {
  return given
    .map(({ author, at, places }) => {
      const where = places.map((place) => placeToWords(index, place)).join(' and ');
      return `by ${author}, ${new Date(at).toISOString().slice(11, 16)} UTC, at ${where}`;
    })
    .join('; ');
}

function hazardWords(index: PlanIndex, hazard: string, basis: HazardBasis): string {
  const caution = hazardById(hazard)?.caution ?? '';
  switch (basis.type) {
    case 'seen':
      return basis.note;
    case 'strip-in-strip':
      return `Strip ${basis.strip} is fed from strip ${basis.from}. ${caution}`;
    case 'one-feed': {
      const ways = basis.ways.map(
        ({ inlet, outlet }) => `${placeToWords(index, inlet)} to ${placeToWords(index, outlet)}`,
      );
      return `${listed(ways)}: both on ${basis.feed}. ${caution}`;
    }
  }
}

function titleOf(d: Discrepancy): string {
  if (d.kind === 'hazard-seen') return hazardById(d.hazard)?.title ?? d.hazard;
  if (d.kind === 'signal-clash') return `${signalWords(d.signals[0])} and ${signalWords(d.signals[1])} on one plug`;
  if (d.kind === 'direction-clash') return d.direction === 'out' ? 'Two outputs joined' : 'Two inputs joined';
  if (d.kind === 'plan-contradiction' && d.contradiction === 'end-missing') return 'The plan has an unknown end';
  return KIND_WORDS[d.kind];
}

/** A signal as it stands in a sentence. */
export function signalWords(signal = 'unknown'): string {
  return signal === 'poe' ? 'PoE' : signal === 'aes3' ? 'AES3' : signal.replace(/-/g, ' ');
}

function orderOf(d: Discrepancy): string | null {
  if (d.severity === 'people') return 'Stop. Keep clear and call the right trade.';
  if (d.kind === 'phantom-hazard')
    return 'Unplug nothing. Mute the channel and the monitors, then switch phantom off, and wait before a plug moves.';
  if (d.severity === 'equipment') return 'Leave it as it is; tell the chief engineer.';
  if (d.severity === 'undecided' && d.kind === 'wrong-jack') return 'Move no plug until one check has settled it.';
  return null;
}
