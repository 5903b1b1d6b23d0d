// Discrepancies in words, once for screens and reports: jack first, short, present, no blame, never "safe".
import type { Discrepancy, DiscrepancyKind, Severity } from '../audit/discrepancy.ts';
import { type PlanIndex, placeToWords } from '../plan/planIndex.ts';

export const SEVERITY_WORDS: Record<Severity, string> = {
  people: 'Hazard to people',
  equipment: 'Hazard to equipment',
  'on-air': 'On-air',
  undecided: 'Undecided, treated as on-air',
  service: 'Service',
  record: 'Record',
};

export const KIND_WORDS: Record<DiscrepancyKind, string> = {
  'wrong-jack': 'Label in another jack than planned',
  'empty-jack': 'Jack is empty, plan has a cable',
  'not-installed': 'Not installed',
  'unplanned-cable': 'Cable is not in the plan',
  'unlabelled-cable': 'Cable bears no label',
  'illegible-label': 'Label cannot be read',
  'duplicate-label': 'Same number on more ends than the cable has',
  'one-end-labelled': 'Label at one end only',
  'ends-differ': 'The two ends bear different numbers',
  'ends-reversed': 'From end and to end are the other way round',
  'old-label-left': 'Old label left beside the new one',
  'not-landed': 'Pulled, not landed',
  'abandoned-cable': 'Loose cable, far end unknown',
  'spare-in-use': 'Spare in use',
  'signal-clash': 'Signals that do not belong together',
  'direction-clash': 'Two jacks of the same direction joined',
  'left-right-swapped': 'Left and right swapped',
  'polarity-reversed': 'Polarity reversed',
  'wrong-connector': 'Another connector than planned',
  'wrong-cable-type': 'Another cable type than planned',
  'undeclared-adapter': 'Adapter that the plan does not know',
  'unit-moved': 'Unit moved',
  'unit-replaced': 'Another unit in its place',
  'unit-unlisted': 'Unit is not in the plan',
  'unit-not-found': 'Unit not found',
  'setting-differs': 'Setting differs',
  'phantom-hazard': '48 V on where a microphone must not have it',
  'duplicate-channel': 'Channel number claimed twice',
  'duplicate-address': 'Address claimed twice',
  'hazard-seen': 'Hazard seen',
  'sightings-conflict': 'Two looks say different things',
  'plan-contradiction': 'The plan contradicts itself',
};

const CONTRADICTION_WORDS: Record<string, string> = {
  'number-repeated': 'has the number more than once',
  'jack-claimed-twice': 'puts two cables in one jack',
  'both-ends-one-jack': 'puts both ends in one jack',
  'end-missing': 'does not say where one end goes',
};

export interface DiscrepancyWords {
  title: string;
  line: string;
  severity: string;
  /** What to do now, for hazards and where a hand might be tempted. */
  order: string | null;
}

export function discrepancyToWords(index: PlanIndex, d: Discrepancy): DiscrepancyWords {
  const at = d.places.map((place) =>
    place.includes('/') || place.startsWith('~') ? placeToWords(index, place) : place,
  );
  const here = at[0] ?? '';
  const { found = '', plan = '', belongs = '' } = d.detail;
  return { title: titleOf(d), line: lineOf(), severity: SEVERITY_WORDS[d.severity], order: orderOf(d) };

  function lineOf(): string {
    switch (d.kind) {
      case 'wrong-jack': {
        const planned = plan ? `, plan ${plan}` : ', plan has nothing there';
        return `${here}: ${found} is here${planned}.${belongs ? ` ${found} belongs in ${belongs}.` : ''}`;
      }
      case 'empty-jack':
        return `${here} is empty. Plan ${plan || 'has a cable without a number'}.`;
      case 'not-installed':
        return `${d.labels[0]}: looked at every place in scope, label seen nowhere. Planned ${at.join(' to ')}.`;
      case 'unplanned-cable': {
        const maybe = d.detail.maybe ? ` It may be ${d.detail.maybe.replace(/, (?=[^,]*$)/, ' or ')}: say which.` : '';
        return `${here}: ${found} is not in the plan.${plan ? ` Plan has ${plan} here.` : ''}${maybe}`;
      }
      case 'unlabelled-cable':
        return plan
          ? `${here}: no label. By plan it would be ${plan}; not proven.`
          : `${here}: no label, and plan has nothing here.`;
      case 'illegible-label':
        return `${here} reads ${d.detail.pattern || 'nothing'}.${plan ? ` Plan ${plan}.` : ''}`;
      case 'duplicate-label':
        if (d.detail.given)
          return `${d.labels[0]} was given twice: ${givenWords(d.detail.given)}. Two cables, not one.`;
        return `${d.labels[0]} stands at ${listWords(at)}.`;
      case 'one-end-labelled':
        return `${here} bears no label; followed to ${at[1] ?? 'the far end'}, which reads ${found}.`;
      case 'ends-differ':
        return `Followed from ${at[0]} to ${at[1]}: ${d.labels[0]} at one end, ${d.labels[1]} at the other.`;
      case 'ends-reversed':
        return `${here} bears end mark ${found}; plan has end ${plan} here.`;
      case 'old-label-left':
        return `${here} reads ${found} and also ${d.detail.old}.`;
      case 'not-landed':
        return `${d.labels[0]} lies at ${d.detail.where}. What hangs on it does not work until it is landed.`;
      case 'abandoned-cable':
        return `${here}: ${found ? `reads ${found}, not in the plan` : 'no label'}. Far end unknown. Do not cut it.`;
      case 'spare-in-use':
        return `${listWords(at)}: ${found || 'a cable'} is spare by plan and in use. Ask operations before judging.`;
      case 'signal-clash':
        return d.detail.to
          ? `Followed from ${d.detail.from} to ${d.detail.to}. ${d.detail.why}`
          : `${d.labels[0]} in ${here}. ${d.detail.why}`;
      case 'direction-clash':
        return `${d.detail.from} and ${d.detail.to} are both ${found === 'out' ? 'outputs' : 'inputs'}.`;
      case 'left-right-swapped':
        return `${d.detail.at ?? here}: found ${found}${plan ? `, plan ${plan}` : ''}.`;
      case 'undeclared-adapter':
        return `${here}: ${found} is between plug and jack. The plan does not name it.`;
      case 'unit-moved':
        return `${found} is at ${slot()}. Plan ${plan}.`;
      case 'unit-replaced':
        return d.detail.setting
          ? `${d.detail.at}: ${d.detail.setting} ${found}, plan ${plan}.`
          : `${slot()} holds ${found}. Plan ${plan}.`;
      case 'unit-unlisted':
        return `${slot()} holds ${found}, which the plan does not list.`;
      case 'unit-not-found':
        return `${plan} is not at ${slot()}.`;
      case 'phantom-hazard':
        return d.detail.at
          ? `${d.detail.at}: 48 V reads on${plan ? `, plan ${plan}` : ''}.`
          : `${found} in ${here}, where 48 V is on.`;
      case 'duplicate-channel':
      case 'duplicate-address':
        return `${found} is claimed by ${d.detail.at}.`;
      case 'hazard-seen':
        return [here, d.detail.note].filter(Boolean).join(': ');
      case 'sightings-conflict':
        return `${at[0] ?? slot()}: ${d.detail.count ?? 'several'} looks differ. Look again, or say which was misread.`;
      case 'plan-contradiction':
        return `The sheet ${CONTRADICTION_WORDS[d.detail.type ?? ''] ?? 'disagrees with itself'}: ${d.labels.join(', ')}${at.length ? `, ${listWords(at)}` : ''} (${d.detail.rows}).`;
      default:
        return `${d.detail.at ?? here}: found ${found}${plan ? `, plan ${plan}` : ''}.`;
    }
  }

  function slot(): string {
    return placeToWords(index, d.places[0] ?? '');
  }
}

/** "I. Halloran 10:31 at PP1 P17 and WP2 7, R. Quill 10:40 at …": times in UTC, since the record has no place of its own. */
function givenWords(given: string): string {
  return given
    .split('; ')
    .map((one) => {
      const [author = '', at = '', ...places] = one.split(', ');
      return `by ${author}, ${new Date(Number(at)).toISOString().slice(11, 16)} UTC, at ${places.join(', ')}`;
    })
    .join('; ');
}

function titleOf(d: Discrepancy): string {
  if (d.kind === 'hazard-seen' && d.detail.title) return d.detail.title;
  if (d.kind === 'signal-clash') return `${signalWords(d.detail.found)} and ${signalWords(d.detail.plan)} on one plug`;
  return KIND_WORDS[d.kind];
}

/** A signal as it stands in a sentence. */
export function signalWords(signal = 'unknown'): string {
  return signal === 'poe' ? 'PoE' : signal === 'aes3' ? 'AES3' : signal.replace(/-/g, ' ');
}

function orderOf(d: Discrepancy): string | null {
  if (d.severity === 'people') return 'Stop. Keep clear and call the right trade.';
  if (d.kind === 'phantom-hazard')
    return 'Unplug nothing. The voltage goes off before a plug moves; tell the chief engineer.';
  if (d.severity === 'equipment') return 'Leave it as it is; tell the chief engineer.';
  if (d.severity === 'undecided' && d.kind === 'wrong-jack') return 'Plug nothing until one look has settled it.';
  return null;
}

export function listWords(words: readonly string[]): string {
  return words.length < 2 ? (words[0] ?? '') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
}
