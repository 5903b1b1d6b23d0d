// Hazards that a walk can meet and the caution that belongs to each. Words here warn and point to those who may
// decide: local codes, permits, licensed trades. None may ever say that something can be done without risk.
import type { Signal } from './kinds.ts';

interface Hazard {
  id: string;
  title: string;
  severity: 'people' | 'equipment' | 'on-air';
  caution: string;
}

const RULES = 'Local codes and the permits of the premises come first.';

/** The order is the order of the list on the screen: what hurts people first. */
export const HAZARDS: readonly Hazard[] = [
  {
    id: 'mains',
    title: 'Mains: damage, open cover, bare conductor',
    severity: 'people',
    caution: `Keep away, leave covers on, and call a licensed electrician. ${RULES}`,
  },
  {
    id: 'earth-missing',
    title: 'Earth or bond missing, loose or cut',
    severity: 'people',
    caution: `Do not touch the rack and the bond at once, change nothing, and call a licensed electrician. ${RULES}`,
  },
  {
    id: 'overload',
    title: 'Power strips in a row, hot plug, smell of burning',
    severity: 'people',
    caution: `Do not unplug under load. Tell whoever is responsible for the building at once. ${RULES}`,
  },
  {
    id: 'one-feed',
    title: 'Both supplies of one unit on one feed',
    severity: 'on-air',
    caution: `Look only: move no cord. One fault on that feed stops both supplies; a licensed electrician and the power plan decide. ${RULES}`,
  },
  {
    id: 'near-mains',
    title: 'Signal cable tied to mains conduit or laid on ceiling tiles',
    severity: 'people',
    caution: `Leave it where it is; the trade that local codes name has to reroute it. ${RULES}`,
  },
  {
    id: 'rf',
    title: 'Radio-frequency field, burn or open feeder',
    severity: 'people',
    caution: `Stay outside the posted area until the person in charge of the transmitter has reduced power. ${RULES}`,
  },
  {
    id: 'transmitter-voltage',
    title: 'Transmitter: interlock or door defeated',
    severity: 'people',
    caution: `Do not enter and do not work alone. This belongs to authorised transmitter staff and their written procedure.`,
  },
  {
    id: 'height',
    title: 'Work at height, loose overhead load',
    severity: 'people',
    caution: `Put the phone away before climbing and record after coming down. Towers are for qualified climbers only. ${RULES}`,
  },
  {
    id: 'floor',
    title: 'Open floor tile, dust, suspect old ceiling or lagging',
    severity: 'people',
    caution: `Put up a barrier; disturb nothing that may hold asbestos before the building's owner was asked. ${RULES}`,
  },
  {
    id: 'telephone-ringing',
    title: 'Open telephone pair',
    severity: 'people',
    caution:
      'Direct and ringing voltage can shock. Do not touch it, and not at all in a thunderstorm; the demarcation belongs to the carrier.',
  },
  {
    id: 'fibre',
    title: 'Open fibre, broken glass, uncapped port',
    severity: 'people',
    caution:
      'Never look into a fibre or a port; the light cannot be seen and still harms. Cap it; scraps are for trained staff.',
  },
  {
    id: 'battery',
    title: 'Battery or UPS swollen, leaking, terminals open',
    severity: 'people',
    caution: `It stays live with the mains off. Keep metal and rings away and call the trained service. ${RULES}`,
  },
  {
    id: 'hearing',
    title: 'Live monitor or headphone feed about to be touched',
    severity: 'people',
    caution: 'Have everybody take their headphones off and turn the level down before anything on this feed is moved.',
  },
  {
    id: 'phantom-on-ribbon',
    title: 'Phantom power at a ribbon microphone',
    severity: 'equipment',
    caution:
      'Mute, switch phantom off, and wait for it to discharge before any plug is moved; ask whoever is responsible for the microphone.',
  },
  {
    id: 'power-on-shared-jack',
    title: 'PoE or direct voltage on a shared connector',
    severity: 'equipment',
    caution:
      'Do not plug to see. Find out at both ends what the jack carries, with the network staff, before a plug is moved.',
  },
  {
    id: 'strain',
    title: 'Strain, crushing, sharp bend, unlatched plug',
    severity: 'equipment',
    caution: 'Do not straighten it while it is in service; report it so that it is dressed again in an agreed window.',
  },
  {
    id: 'shield',
    title: 'Bare shield or broken connector',
    severity: 'equipment',
    caution: 'Leave it as it hangs and report it; it may touch something live. Repair is for an agreed window.',
  },
  {
    id: 'heat-water',
    title: 'Heat, water, blocked air',
    severity: 'equipment',
    caution: `Touch nothing that is wet. Tell whoever is responsible for the building at once. ${RULES}`,
  },
];

const HAZARDS_BY_ID: ReadonlyMap<string, Hazard> = new Map(HAZARDS.map((hazard) => [hazard.id, hazard]));

export function hazardById(id: string): Hazard | undefined {
  return HAZARDS_BY_ID.get(id);
}

const BY_SIGNAL: Partial<Record<Signal, string>> = {
  mains: `Mains: look only. No mains plug is pulled to read a label; work on it is for licensed trades. ${RULES}`,
  telephone:
    'Telephone: idle and ringing voltage can shock; the demarcation belongs to the carrier. Not in a thunderstorm.',
  rf: `Radio frequency: stay out of posted areas; whoever is in charge of the transmitter decides about power. ${RULES}`,
  poe: 'Network with power: never plug into a jack of another kind to see what it is.',
  'dc-powered-audio':
    'Audio jack with supply voltage on its spare pins: never plug into a jack of another kind to see what it is.',
  dc: `Direct voltage: short circuits burn. Follow the maker's instructions and the site's own rules.`,
  microphone: 'Phantom power may be on: mute, switch it off, wait, then move a plug. Never onto a ribbon microphone.',
  loudspeaker: 'Amplifier output: a live plug can bang at full level. Level down first, headphones off.',
  closure: 'Contacts may drive on-air lights or start and stop players: tell the control room before a plug is moved.',
  'fibre-single-mode':
    'Fibre: never look into it; the light cannot be seen. Cap open ports; scraps are for trained staff.',
  'fibre-multimode':
    'Fibre: never look into it; the light cannot be seen. Cap open ports; scraps are for trained staff.',
};

/** The sentence to show at a place, or null when the trade knows none for this signal and connector. */
export function cautionFor(signal: Signal | undefined, connector?: string): string | null {
  const known = signal ? BY_SIGNAL[signal] : undefined;
  if (known) return known;
  const plug = connector ?? '';
  if (/\b(iec|c13|c14|schuko|mains)\b/i.test(plug)) return BY_SIGNAL.mains ?? null;
  if (/\b(lc|sc|st|mtp|fibre|fiber)\b/i.test(plug)) return BY_SIGNAL['fibre-single-mode'] ?? null;
  if (/\brj-?45|8p8c\b/i.test(plug)) {
    return 'The same connector carries network, power, audio and contacts. While it is unknown, plug nothing.';
  }
  return null;
}
