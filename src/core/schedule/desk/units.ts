// What the unit and rack lists of a schedule say against each other: places in racks, serials, addresses and channels.
//
// Limits: One address in two networks that never meet is told as a duplicate, since no list's VLAN is read.

import type { Jack, PlanSetting, Unit } from '../../plan/model.ts';
import { passesThrough } from '../../plan/passive.ts';
import { type PlanIndex, placeToWords, settingKey } from '../../plan/planIndex.ts';
import {
  addressToText,
  hostFault,
  isLinkLocal,
  isWithin,
  maskToPrefix,
  type Subnet,
  subnetOf,
  subnetsOverlap,
  textToAddress,
  textToMac,
} from '../../trade/addresses.ts';
import type { Severity } from '../../trade/kinds.ts';
import { type DeskFinding, type DeskKind, makeFinding, shared } from './finding.ts';
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
      makeFinding('unit-unlisted', 'record', `${unit.label} is in a cable row but in no list of units.`, {
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
      if (below && unit.u <= top(below) && !sharesSpace(below, unit)) {
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

/** Two that are half as wide as the rack stand side by side, and others on a shelf. Common practice, no source. */
function sharesSpace(...units: Unit[]): boolean {
  const words = units.map(({ label, description }) => `${label} ${description ?? ''}`);
  return (
    words.some((text) => /\b(shelf|tray|drawer)\b/i.test(text)) ||
    words.every((text) => /\bhalf[- ]?(rack|width|wide|19)|(?:1\/2|½)[- ]?(rack|width|wide|u wide)/i.test(text))
  );
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
    ...of('duplicate-hardware-address', 'MAC address', ({ mac }) => (mac ? textToMac(mac) : null)),
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
  const read = named(index.plan, 'address').flatMap((setting) =>
    cellToAddresses(setting.value).flatMap((said) => {
      const value = textToAddress(said);
      const at = wordsOf(index, setting);
      const about = { rows: [setting.origin], places: [at] };
      const wrong = (kind: DeskKind, why: string, severity: Severity = 'service') =>
        void found.push(makeFinding(kind, severity, `${at} has the address ${said}${why}.`, about));
      if (value.type === 'bad') {
        wrong('address-wrong', `: ${value.why}`);
        return [];
      }
      const own =
        value.prefix === null ? maskedSubnet(index, setting, value.value) : subnetOf(value.value, value.prefix);
      const home = own ?? subnets.find((subnet) => isWithin(value.value, subnet)) ?? null;
      const fault = hostFault(value.value, home);
      if (fault) wrong('address-wrong', `, which ${fault}`);
      else if (isLinkLocal(value.value))
        wrong('address-wrong', ', which a unit gives itself when it gets none', 'record');
      else if (subnets.length > 0 && !subnets.some((subnet) => isWithin(value.value, subnet)))
        wrong('address-outside', `, which is in none of ${subnets.map(({ name }) => name).join(', ')}`);
      const gateway = own && setting.place === undefined ? settingOf(index, setting, 'gateway') : null;
      const way = gateway ? textToAddress(gateway) : null;
      if (own && way?.type === 'address' && !isWithin(way.value, own))
        wrong('address-outside', ` and the gateway ${gateway}, which is outside its subnet`);
      return [{ setting, value: value.value, at }];
    }),
  );
  for (const same of shared(read, ({ value }) => String(value)).values()) {
    if (new Set(same.map(({ setting }) => setting.unit)).size < 2) continue;
    const at = same.map(({ at: words }) => words);
    const line = `${addressToText(same[0]!.value)} is given to ${at.join(' and ')}.`;
    found.push(
      makeFinding('duplicate-address', 'on-air', line, { rows: same.map(({ setting }) => setting.origin), places: at }),
    );
  }
  return found;
}

const settingOf = ({ settings }: PlanIndex, { unit }: PlanSetting, name: string) =>
  settings.get(settingKey({ unit, name }))?.value.trim() ?? '';

/** The subnet that a unit's own mask makes of its address; null where no mask is written. */
function maskedSubnet(index: PlanIndex, setting: PlanSetting, value: number): Subnet | null {
  const prefix = maskToPrefix(settingOf(index, setting, 'mask'));
  return prefix === null ? null : subnetOf(value, prefix);
}

/**
 * Addresses of a cell, which may hold two of them, or a page's (`http://192.0.2.7/`). Words such as DHCP and addresses
 * of IPv6 are none that can be judged here.
 */
function cellToAddresses(text: string): string[] {
  return text
    .replace(/\([^)]*\)/g, ' ')
    .split(/\s*[,;|&\n]\s*|\s+(?:\/|and|or)\s+|\s{2,}/)
    .map((part) =>
      part
        .trim()
        .replace(/^https?:\/\//i, '')
        .replace(/\/+$/, '')
        .replace(/^([\d.]+):\d+$/, '$1'),
    )
    .filter((part) => /\d/.test(part) && !/^[0-9a-f]*:[0-9a-f:.]*:[0-9a-f:.]*(%\w+)?(\/\d+)?$/i.test(part))
    .filter((part) => !/^[a-z]/i.test(part));
}

/** Left and right of one input share its channel. */
function isOtherLeg(index: PlanIndex, one: PlanSetting, other: PlanSetting): boolean {
  const [a, b] = [one, other].map(({ place }) => index.jacks.get(place ?? '')?.label.trim() ?? '');
  const bare = (label: string) => label.replace(/[\s\-_.]?(l|r|left|right)$/i, '').toUpperCase();
  return one.unit === other.unit && a !== undefined && b !== undefined && a !== b && bare(a) === bare(b);
}

function channels(index: PlanIndex, rules: SiteRules): DeskFinding[] {
  const found: DeskFinding[] = [];
  const given = named(index.plan, 'channel').map((setting) => ({
    setting,
    number: setting.value.trim(),
    at: wordsOf(index, setting),
  }));
  const firsts = shared(given, ({ number }) => number);
  const read = given.filter(({ setting, number }) => {
    const unit = index.units.get(setting.unit);
    // Where a signal merely passes, its channel is told once more.
    if (unit && passesThrough(unit)) return false;
    const first = firsts.get(number)?.[0]?.setting;
    return first === undefined || first === setting || !isOtherLeg(index, first, setting);
  });
  for (const same of shared(read, ({ number }) => number).values()) {
    const at = same.map(({ at: words }) => words);
    const line = `Channel ${same[0]!.number} is given to ${at.join(' and ')}.`;
    found.push(
      makeFinding('duplicate-channel', 'on-air', line, { rows: same.map(({ setting }) => setting.origin), places: at }),
    );
  }
  const judged = read.map((one) => ({ ...one, wanted: channelsByRule(index, rules, one.setting) }));
  const off = judged.filter(
    ({ number, wanted }) =>
      wanted.length > 0 &&
      !wanted.includes(Number(number)) &&
      !rules.channelExceptions.some(({ first, last }) => Number(number) >= first && Number(number) <= last),
  );
  const byRule = judged.filter(({ wanted }) => wanted.length > 0).length;
  if (off.length >= MANY_OFF && off.length > byRule / 2) {
    const line = `${off.length} of ${byRule} channels do not follow the station’s rule: another rule may be meant here.`;
    const about = { rows: off.map(({ setting }) => setting.origin), places: off.map(({ at }) => at) };
    return [...found, makeFinding('channel-off-rule', 'record', line, about)];
  }
  for (const { setting, number, at, wanted } of off) {
    const line = `${at} has channel ${number}; by the station’s rule it is ${wanted[0]}.`;
    found.push(makeFinding('channel-off-rule', 'record', line, { rows: [setting.origin], places: [at] }));
  }
  return found;
}

/** So many channels off the rule, and more than follow it, are one finding: the rule is not this station's. */
const MANY_OFF = 8;

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
