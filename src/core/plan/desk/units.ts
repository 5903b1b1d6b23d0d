// What the unit and rack lists of a schedule say against each other: places in racks, serials, addresses and channels.
import {
  addressToText,
  hostFault,
  isWithin,
  subnetOf,
  subnetsOverlap,
  textToAddress,
  textToMac,
} from '../../trade/addresses.ts';
import type { Jack, PlanSetting, Unit } from '../model.ts';
import { type PlanIndex, placeToWords, settingKey } from '../planIndex.ts';
import { type DeskFinding, makeFinding, shared } from './finding.ts';
import type { SiteRules } from './siteRules.ts';

export function deskUnits(index: PlanIndex, rules: SiteRules): DeskFinding[] {
  return [...unlisted(index), ...places(index), ...twice(index), ...addresses(index, rules), ...channels(index, rules)];
}

/** Units that only a cable row names, where there is a list of units. */
function unlisted({ plan }: PlanIndex): DeskFinding[] {
  if (plan.units.every(({ implied }) => implied)) return [];
  return plan.units
    .filter(({ implied }) => implied)
    .map((unit) =>
      makeFinding('unit-unlisted', 'record', `${unit.label} stands in a cable row and in no list of units.`, {
        rows: [unit.origin],
        places: [unit.label],
      }),
    );
}

/** U numbers are of the rack's own numbering; 1 U is 44.45 mm (IEC 60297-3-100). */
function places({ plan, racks }: PlanIndex): DeskFinding[] {
  const found: DeskFinding[] = [];
  const racked = plan.units.filter(
    (unit): unit is Unit & { u: number; rack: string } => unit.u !== undefined && unit.rack !== undefined,
  );
  const top = (unit: { u: number; heightU: number }) => unit.u + unit.heightU - 1;
  const span = (unit: { u: number; heightU: number }) =>
    unit.heightU === 1 ? `U${unit.u}` : `U${unit.u} to U${top(unit)}`;
  for (const unit of racked) {
    const rack = racks.get(unit.rack);
    if (!rack || (unit.u >= 1 && top(unit) <= rack.heightU)) continue;
    const height = rack.implied ? `is taken to have ${rack.heightU} U` : `has ${rack.heightU} U`;
    const line = `${unit.label} at ${span(unit)} does not fit in ${rack.label}, which ${height}.`;
    found.push(makeFinding('unit-outside-rack', 'record', line, { rows: [unit.origin], places: [unit.label] }));
  }
  const faces = new Map<string, typeof racked>();
  for (const unit of racked) {
    const key = `${unit.rack} ${unit.mounted}`;
    faces.set(key, [...(faces.get(key) ?? []), unit]);
  }
  for (const units of faces.values()) {
    const sorted = [...units].sort((a, b) => a.u - b.u || (a.id < b.id ? -1 : 1));
    let below = sorted[0];
    for (const unit of sorted.slice(1)) {
      if (below && unit.u <= top(below)) {
        const rack = racks.get(unit.rack)?.label ?? unit.rack;
        const line = `${below.label} (${span(below)}) and ${unit.label} (${span(unit)}) share U${unit.u} on the ${unit.mounted} of ${rack}.`;
        const about = { rows: [below.origin, unit.origin], places: [below.label, unit.label] };
        found.push(makeFinding('units-overlap', 'record', line, about));
      }
      if (!below || top(unit) > top(below)) below = unit;
    }
  }
  return found;
}

/** Serials and hardware addresses are of one unit each. */
function twice({ plan }: PlanIndex): DeskFinding[] {
  const of = (
    kind: 'duplicate-serial' | 'duplicate-hardware-address',
    words: string,
    keyOf: (unit: Unit) => string | null,
  ) =>
    [...shared(plan.units, keyOf)].map(([key, units]) =>
      makeFinding(kind, 'record', `${words} ${key} is given to ${units.map(({ label }) => label).join(' and ')}.`, {
        rows: units.map(({ origin }) => origin),
        places: units.map(({ label }) => label),
      }),
    );
  return [
    ...of('duplicate-serial', 'Serial', ({ serial }) => serial?.trim().toUpperCase() || null),
    ...of('duplicate-hardware-address', 'Hardware address', ({ mac }) => (mac ? textToMac(mac) : null)),
  ];
}

const named = (plan: PlanIndex['plan'], name: string) =>
  plan.settings.filter((setting) => setting.name.toLowerCase() === name && setting.value.trim() !== '');

function addresses(index: PlanIndex, rules: SiteRules): DeskFinding[] {
  const found: DeskFinding[] = [];
  const subnets = rules.subnets.flatMap(({ name, subnet }) => {
    const read = textToAddress(subnet);
    return read.type === 'address' && read.prefix !== null ? [{ name, ...subnetOf(read.value, read.prefix) }] : [];
  });
  subnets.forEach((one, i) => {
    for (const other of subnets.slice(i + 1)) {
      if (!subnetsOverlap(one, other)) continue;
      const line = `The subnets ${one.name} and ${other.name} overlap: an address can belong to both.`;
      found.push(makeFinding('subnets-overlap', 'record', line, { rows: [] }));
    }
  });
  const read = named(index.plan, 'address').flatMap((setting) => {
    const value = textToAddress(setting.value);
    const at = wordsOf(index, setting);
    if (value.type === 'bad') {
      const line = `${at} has the address ${setting.value}: ${value.why}.`;
      found.push(makeFinding('address-wrong', 'service', line, { rows: [setting.origin], places: [at] }));
      return [];
    }
    const own = value.prefix === null ? null : subnetOf(value.value, value.prefix);
    const home = own ?? subnets.find((subnet) => isWithin(value.value, subnet)) ?? null;
    const fault = hostFault(value.value, home);
    if (fault) {
      const line = `${at} has the address ${setting.value}, which ${fault}.`;
      found.push(makeFinding('address-wrong', 'service', line, { rows: [setting.origin], places: [at] }));
    } else if (subnets.length > 0 && !subnets.some((subnet) => isWithin(value.value, subnet))) {
      const line = `${at} has the address ${setting.value}, which is in none of ${subnets.map(({ name }) => name).join(', ')}.`;
      found.push(makeFinding('address-outside', 'service', line, { rows: [setting.origin], places: [at] }));
    }
    return [{ setting, value: value.value, at }];
  });
  for (const same of shared(read, ({ value }) => String(value)).values()) {
    const at = same.map(({ at: words }) => words);
    const line = `${addressToText(same[0]!.value)} is given to ${at.join(' and ')}.`;
    found.push(
      makeFinding('duplicate-address', 'on-air', line, { rows: same.map(({ setting }) => setting.origin), places: at }),
    );
  }
  return found;
}

function channels(index: PlanIndex, rules: SiteRules): DeskFinding[] {
  const found: DeskFinding[] = [];
  const read = named(index.plan, 'channel').map((setting) => ({
    setting,
    number: setting.value.trim(),
    at: wordsOf(index, setting),
  }));
  for (const same of shared(read, ({ number }) => number).values()) {
    const at = same.map(({ at: words }) => words);
    const line = `Channel ${same[0]!.number} is given to ${at.join(' and ')}.`;
    found.push(
      makeFinding('duplicate-channel', 'on-air', line, { rows: same.map(({ setting }) => setting.origin), places: at }),
    );
  }
  for (const { setting, number, at } of read) {
    const wanted = channelsByRule(index, rules, setting);
    if (wanted.length === 0 || wanted.includes(Number(number))) continue;
    if (rules.channelExceptions.some(({ first, last }) => Number(number) >= first && Number(number) <= last)) continue;
    const line = `${at} has channel ${number}; by the station’s rule it is ${wanted[0]}.`;
    found.push(makeFinding('channel-off-rule', 'record', line, { rows: [setting.origin], places: [at] }));
  }
  return found;
}

/** By its own number and by its rank among the inputs: a unit with M1 to M3 and LINE1 counts the line input as fourth. */
function channelsByRule(index: PlanIndex, { channel, subnets }: SiteRules, setting: PlanSetting): number[] {
  const address = index.settings.get(settingKey({ unit: setting.unit, name: 'address' }));
  const read = address && textToAddress(address.value);
  const jack = setting.place === undefined ? undefined : index.jacks.get(setting.place);
  if (!channel || !jack || read?.type !== 'address') return [];
  const octet = read.value % 256;
  const added = subnets.find(({ add, subnet }) => add !== undefined && isIn(read.value, subnet))?.add ?? 0;
  const inputs = (index.jacksOf.get(setting.unit) ?? []).filter(isInput);
  const rank = inputs.indexOf(jack) + 1;
  const printed = Number(/(\d+)$/.exec(jack.label)?.[1] ?? 0);
  const firstOfKind = inputs.findIndex(({ label }) => bareLabel(label) === bareLabel(jack.label)) === 0;
  const numbers = firstOfKind && printed > 0 ? [printed, rank] : [rank, printed];
  return [...new Set(numbers.filter((n) => n > 0))].map((n) => octet * channel.factor + n + added);
}

function isIn(value: number, subnet: string): boolean {
  const read = textToAddress(subnet);
  return read.type === 'address' && read.prefix !== null && isWithin(value, subnetOf(read.value, read.prefix));
}

function isInput({ direction, signal }: Jack): boolean {
  return direction === 'in' && signal !== 'closure' && signal !== 'reference' && signal !== 'mains';
}

function bareLabel(label: string): string {
  return label.replace(/\d+$/, '').trim().toUpperCase();
}

function wordsOf(index: PlanIndex, { unit, place }: PlanSetting): string {
  return place === undefined ? (index.units.get(unit)?.label ?? unit) : placeToWords(index, place);
}
