// Rooms and racks that rows call by several names: other spellings, and nicknames that a legend explains (`Prod 2 =
// Studio C`). Each is read under one name and said so; nothing else about a row is changed.
import { nameToKey, nameToLoose } from '../../trade/names.ts';
import type { Notebook, RawCable, RawRack, RawUnit, Table } from './readTypes.ts';

interface Alias {
  name: string;
  means: string;
  sheet: string;
  row: number;
  said: string;
}

/** `Prod 2 = Studio C` in one cell, or in three; wherever it stands in the file. */
export function findAliases(tables: readonly Table[]): Alias[] {
  const found: Alias[] = [];
  for (const table of tables) {
    table.rows.forEach((cells, i) => {
      const filled = cells.map((cell) => cell.trim()).filter((cell) => cell !== '');
      if (filled.length === 0 || filled.length > 3) return;
      const said = filled.join(' ');
      const match = /^(.{1,40}?)\s*(?:=|\baka\b|\ba\.k\.a\.|\bis also called\b|\bnow called\b)\s*(.{1,40})$/i.exec(
        said,
      );
      const [, name = '', means = ''] = match ?? [];
      if (name !== '') found.push({ name, means, sheet: table.name, row: (table.firstRow ?? 1) + i, said });
    });
  }
  return found;
}

interface Rows {
  racks: RawRack[];
  units: RawUnit[];
  cables: RawCable[];
}

/** Puts one name for each rack and room into the rows; lists of racks and units come before what cables say. */
export function unifyPlaces(rows: Rows, aliases: readonly Alias[], notebook: Notebook): void {
  const ends = rows.cables.flatMap((cable) =>
    [...cable.from, ...cable.to].map((end) => ({
      at: end,
      sheet: cable.sheet,
      row: cable.row,
      column: end.placeColumn ?? end.column,
    })),
  );
  type Held = { at: { rack?: string; room: string }; sheet: string; row: number; column: string | undefined };
  const held: Held[] = [
    ...rows.racks.map((rack) => ({ at: rack, sheet: '', row: 0, column: undefined })),
    ...rows.units.map((unit) => ({ at: unit, sheet: unit.sheet, row: unit.row, column: undefined })),
    ...ends,
  ];
  const listed = new Set([...rows.racks, ...rows.units].map(({ room }) => nameToLoose(room)));
  const used = new Set(held.map(({ at }) => nameToLoose(at.room)));
  const meant = new Map<string, Alias & { to: string }>();
  for (const alias of aliases) {
    if (!used.has(nameToLoose(alias.name)) && !used.has(nameToLoose(alias.means))) continue;
    // The lists' own name stays; else the one that is explained gives way to what explains it.
    const back = listed.has(nameToLoose(alias.name)) && !listed.has(nameToLoose(alias.means));
    const [from, to] = back ? [alias.means, alias.name] : [alias.name, alias.means];
    if (nameToLoose(from) !== nameToLoose(to)) meant.set(nameToLoose(from), { ...alias, to });
  }
  const names = { room: new Map<string, string>(), rack: new Map<string, string>() };
  const told = new Set<string>();
  const unify = (holder: Held, part: 'room' | 'rack') => {
    const text = holder.at[part] ?? '';
    if (text === '') return;
    const alias = part === 'room' ? meant.get(nameToLoose(text)) : undefined;
    const wanted = alias?.to ?? text;
    const known = names[part].get(nameToLoose(wanted));
    if (known === undefined) names[part].set(nameToLoose(wanted), wanted);
    const name = known ?? wanted;
    holder.at[part] = name;
    if (nameToKey(text) === nameToKey(name) || told.has(`${part} ${text}`) || holder.sheet === '') return;
    told.add(`${part} ${text}`);
    const why = alias ? `as ${alias.sheet}, row ${alias.row} explains` : 'spelled another way';
    notebook.guess('spelling', holder.sheet, holder.row, holder.column, text, `${name}, ${why}`);
  };
  for (const holder of held) {
    unify(holder, 'rack');
    unify(holder, 'room');
  }
}
