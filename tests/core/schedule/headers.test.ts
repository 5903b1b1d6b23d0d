// Titles of columns as stations write them, each to its meaning. The titles are common practice, no published source.
import { describe, expect, it } from 'vitest';
import { findColumns } from '../../../src/core/schedule/columns.ts';
import type { ListKind } from '../../../src/core/schedule/meanings.ts';

/** Titles that mean the same, tried one by one in a header that has the others of its list. */
const CABLES: [string, string[]][] = [
  [
    'number',
    [
      'Cable No',
      'Cable ID',
      'Cbl #',
      'Wire #',
      'Wire No.',
      'Tag',
      'Run',
      'Ref',
      'Line',
      'CN',
      'Label',
      'Cable',
      'N° câble',
    ],
  ],
  ['signal', ['Signal', 'Function', 'Service', 'Format', 'Level', 'Class']],
  ['circuit', ['Description', 'Signal Name', 'Name', 'Service name', 'Circuit']],
  ['leg', ['L/R', 'Ch', 'Pair', 'Leg', 'Side']],
  ['cableType', ['Cable Type', 'Type', 'P/N', 'Spec', 'Cat', 'Jacket', 'Type / Jkt']],
  ['colour', ['Color', 'Colour', 'Jkt', 'Boot', 'Pair color']],
  ['length', ['Len', 'Length', 'L (m)', 'ft', 'Cut', 'Length (ft)']],
  ['status', ['Status', 'Stat', 'Installed', 'Pulled']],
  ['via', ['Via', 'Panel', 'Trunk', 'Tray', 'Route', 'Conduit', 'Multicore/Pair']],
  ['notes', ['Notes', 'Remarks', 'Comment', 'Misc']],
  ['onAir', ['On air']],
];
const ENDS: [string, string[]][] = [
  ['fromLocation', ['From Loc', 'Source Location', 'Origin Location', 'Near Loc']],
  ['fromRoom', ['Source Room', 'From Room', 'Room A']],
  ['fromRack', ['A-End Rack', 'Rack A', 'From Rack', 'Near Rack']],
  ['fromUnit', ['From Equip', 'Source Unit', 'Device A', 'Src Dev', 'From Equipment', 'From Block']],
  [
    'fromJack',
    ['From Port', 'From Conn', 'From Jack', 'Source Output', 'From Pin', 'A-End Port', 'From Terminal', 'Position A'],
  ],
  ['fromPair', ['From Pair', 'Pair A']],
  ['fromConnector', ['From Plug', 'From Gender', 'Source Connector']],
  ['toLocation', ['To Loc', 'Dest Location', 'Destination Loc', 'Far Loc']],
  ['toRoom', ['Dest Room', 'To Room', 'Room B']],
  ['toRack', ['B-End Rack', 'Rack B', 'To Rack', 'Far Rack']],
  ['toUnit', ['To Equip', 'Dest Unit', 'Device B', 'Dst Dev', 'Destination Equipment', 'To Block']],
  ['toJack', ['To Port', 'To Conn', 'To Jack', 'Dest Input', 'To Pin', 'B-End Port', 'To Termination', 'Position B']],
];
const JACKS: [string, string[]][] = [
  ['unit', ['Panel', 'Device', 'Panel/Device', 'Block', 'Unit']],
  ['jack', ['Jack No', 'Physical jack', 'Port', 'Input no', 'Output no', 'Pair', 'Printed legend']],
  ['connector', ['Type/gender', 'Connector', 'Type']],
  ['direction', ['Direction', 'In/Out', 'I/O']],
  ['signal', ['Signal class', 'Signal']],
  ['leg', ['Channel L/R', 'Leg']],
  ['normalled', ['Normalled to']],
  ['normal', ['Normal kind', 'Normal']],
  ['cable', ['Rear cable', 'Cable']],
  ['spare', ['Spare?']],
  ['tip', ['Tip colour', 'Tip']],
  ['ring', ['Ring colour', 'Ring']],
  ['strip', ['Strip text']],
  ['name', ['Source name', 'Name']],
  ['longName', ['Long name']],
  ['channel', ['Channel no', 'Channel']],
  ['multicast', ['Multicast address']],
  ['format', ['Format', 'Packet type']],
  ['gain', ['Mic gain', 'Gain']],
  ['phantom', ['Phantom', '+48']],
  ['pad', ['Pad']],
  ['mode', ['Mode']],
  ['logic', ['Logic port']],
  ['studios', ['Studio(s) allowed']],
  ['share', ['Share']],
  ['fader', ['Fader default']],
  ['backfeed', ['Backfeed/mix-minus']],
  ['subscribed', ['Subscribed channel']],
  ['address', ['Address', 'IP']],
  ['notes', ['Notes']],
];
const UNITS: [string, string[]][] = [
  ['unit', ['Unit', 'Device ID', 'Equipment', 'Device', 'Tag']],
  ['rack', ['Rack', 'Cabinet', 'Bay']],
  ['room', ['Room', 'Location']],
  ['u', ['U', 'RU', 'U (bottom)', 'Slot']],
  ['uTop', ['U (top)', 'Top U']],
  ['height', ['Height', 'HU', 'Size (U)']],
  ['mounted', ['Face', 'Front/rear']],
  ['description', ['Description/function', 'Description', 'Function']],
  ['maker', ['Maker', 'Manufacturer']],
  ['model', ['Model', 'Model no.']],
  ['serial', ['Serial', 'S/N', 'Serial No.']],
  ['mac', ['MAC', 'MAC address', 'Hardware address']],
  ['address', ['Address', 'IP address']],
  ['mask', ['Mask', 'Subnet mask']],
  ['gateway', ['Gateway']],
  ['host', ['Host name', 'Hostname']],
  ['firmware', ['Firmware']],
  ['notes', ['Notes']],
];
const RACKS: [string, string[]][] = [
  ['rack', ['Rack ID', 'Rack', 'Cabinet']],
  ['room', ['Room', 'Location']],
  ['height', ['Units', 'Height']],
  ['numbering', ['Numbered from bottom?', 'Numbering']],
];
const CIRCUITS: [string, string[]][] = [
  ['circuit', ['Circuit', 'Service', 'Programme']],
  ['role', ['Main/standby', 'Role']],
  ['carrier', ["Carrier's number", 'Carrier no', 'Carrier']],
  ['hops', ['Hops', 'Cables', 'Route']],
];

function cases(kind: ListKind, lists: [string, string[]][], around: string[]) {
  return lists.flatMap(([meaning, titles]) => titles.map((title) => ({ kind, meaning, title, around })));
}

const CASES = [
  ...cases('cables', CABLES.slice(0, 1), ['From Unit', 'From Jack', 'To Unit', 'To Jack']),
  ...cases('cables', CABLES.slice(1), ['Cable No', 'From Unit', 'From Jack', 'To Unit', 'To Jack']),
  ...cases('cables', ENDS, ['Cable No', 'From', 'To', 'Signal']),
  ...cases('jacks', JACKS.slice(1, 2), ['Unit', 'Connector', 'Direction']),
  ...cases('jacks', JACKS.slice(0, 1), ['Jack', 'Connector', 'Signal']),
  ...cases('jacks', JACKS.slice(2), ['Unit', 'Jack', 'Mult']),
  ...cases('units', UNITS.slice(0, 1), ['Rack', 'Serial', 'Layout']),
  ...cases('units', UNITS.slice(1), ['Unit', 'Jacks', 'Layout']),
  ...cases('racks', RACKS.slice(0, 1), ['Room', 'Height']),
  ...cases('racks', RACKS.slice(1), ['Rack', 'Rack']),
  ...cases('circuits', CIRCUITS.slice(0, 1), ['Hops', 'Notes']),
  ...cases('circuits', CIRCUITS.slice(1, 3), ['Circuit', 'Hops']),
  ...cases('circuits', CIRCUITS.slice(3), ['Circuit', 'Notes']),
];

describe('titles of columns', () => {
  it.each(CASES)('$kind: $title is $meaning', ({ kind, meaning, title, around }) => {
    const found = findColumns([[...around, title]]);
    // Where the header around has this very title already, that one counts.
    const own = around.indexOf(title);
    expect({ kind: found?.kind, column: found?.at.get(meaning) }).toEqual({
      kind,
      column: own >= 0 ? own : around.length,
    });
  });

  it('that stand twice without a side are the from and the to end', () => {
    const found = findColumns([['Cable', 'Rack', 'Equip', 'Jack', 'Rack', 'Equip', 'Jack']]);
    expect(Object.fromEntries(found?.at ?? [])).toMatchObject({
      fromRack: 1,
      fromUnit: 2,
      fromJack: 3,
      toRack: 4,
      toUnit: 5,
      toJack: 6,
    });
  });

  it('Source, Output, Destination, Input are unit and jack of the two ends', () => {
    const found = findColumns([['Wire #', 'Source', 'Output', 'Destination', 'Input']]);
    expect(Object.fromEntries(found?.at ?? [])).toMatchObject({ number: 0, from: 1, fromJack: 2, to: 3, toJack: 4 });
  });

  it('that no list knows make no list', () => {
    expect(findColumns([['Milk', 'Eggs', 'Bread', 'Price']])).toBeNull();
  });
});
