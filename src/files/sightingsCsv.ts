// The sightings list as a CSV file: rows to statements as data, errors with row and column. Nothing is judged and no
// event is made here; ids and hashes belong to whoever keeps the log.

import type { Plan } from '../core/plan/model.ts';
import { type PlaceNames, planToPlaceNames, textToPlaces } from '../core/plan/saidPlace.ts';
import type { Basis, Payload, Plug, State } from '../core/record/events.ts';
import { STATES } from '../core/record/events.ts';
import { titleToKey } from '../core/schedule/columns.ts';
import { readCsv } from './csv.ts';
import type { SheetError } from './sheetError.ts';

export const SIGHTINGS_HEADER = [
  'seen_at',
  'by',
  'place',
  'state',
  'label',
  'end',
  'basis',
  'joined_to',
  'note',
] as const;
type Column = (typeof SIGHTINGS_HEADER)[number];

export interface SightingRow {
  /** Row as a spreadsheet shows it. */
  row: number;
  author: string;
  /** Milliseconds since 1970; null when the row gives no time that can be read. */
  at: number | null;
  /** Minutes east of UTC as written; 0 when none is. */
  zone: number;
  payload: Payload<'sighting'>;
}

interface RowError {
  row: number;
  column: Column;
  said: string;
  why: string;
}

type SightingsRead =
  | { type: 'sightings'; sightings: SightingRow[]; errors: RowError[] }
  | { type: 'sheet-error'; error: SheetError }
  | { type: 'no-header'; missing: Column[] };

const BASES: readonly Basis[] = ['seen', 'followed', 'page', 'told', 'inferred'];

export function readSightingsCsv(bytes: Uint8Array, plan: Plan): SightingsRead {
  const read = readCsv(bytes);
  if (read.type === 'sheet-error') return read;
  const titles = (read.rows[0] ?? []).map((title) => titleToKey(title).replaceAll(' ', '_'));
  const at = new Map(SIGHTINGS_HEADER.map((column) => [column, titles.indexOf(column)]));
  const missing = (['place', 'state'] as const).filter((column) => (at.get(column) ?? -1) < 0);
  if (missing.length > 0) return { type: 'no-header', missing };
  const names = planToPlaceNames(plan);
  const sightings: SightingRow[] = [];
  const errors: RowError[] = [];
  read.rows.slice(1).forEach((cells, i) => {
    if (cells.every((cell) => cell.trim() === '')) return;
    const cell = (column: Column) => (cells[at.get(column) ?? -1] ?? '').trim();
    const result = rowToSighting(i + 2, cell, names);
    if ('why' in result) errors.push(result);
    else sightings.push(result);
  });
  return { type: 'sightings', sightings, errors };
}

function rowToSighting(row: number, cell: (column: Column) => string, names: PlaceNames): SightingRow | RowError {
  const wrong = (column: Column, why: string): RowError => ({ row, column, said: cell(column), why });
  const time = textToTime(cell('seen_at'));
  if (cell('seen_at') !== '' && time === null)
    return wrong('seen_at', 'not a date and time such as 2026-03-01T21:05:00+01:00');
  const place = textToPlaces(cell('place'), names);
  if (place.type === 'unreadable') return wrong('place', place.why);
  const state = STATES.find((one) => one === cell('state').toLowerCase());
  if (state === undefined) return wrong('state', `not one of ${STATES.join(', ')}`);
  const basis = BASES.find((one) => one === (cell('basis').toLowerCase() || 'seen'));
  if (basis === undefined) return wrong('basis', `not one of ${BASES.join(', ')}`);
  const label = cell('label');
  if (state === 'label' && label === '') return wrong('label', 'a label was read, but it is not given');
  let joinedTo: string | undefined;
  if (cell('joined_to') !== '') {
    const joined = textToPlaces(cell('joined_to'), names);
    if (joined.type === 'unreadable') return wrong('joined_to', joined.why);
    if (joined.places.length > 1) return wrong('joined_to', 'a cable is followed to one place, not to a range');
    joinedTo = joined.places[0];
  }
  const payload: Payload<'sighting'> = {
    places: place.places,
    said: place.said,
    state,
    plugs: toPlugs(state, label, cell('end')),
    basis,
    by: 'list',
    ...(joinedTo === undefined ? {} : { joinedTo }),
    ...(cell('note') === '' ? {} : { note: cell('note') }),
    ...(cell('note') !== '' && (state === 'refused' || state === 'not-visible') ? { reason: cell('note') } : {}),
  };
  return { row, author: cell('by'), at: time?.at ?? null, zone: time?.zone ?? 0, payload };
}

/** Several labels on one plug are joined by ` | `. An end letter is written behind a label that has none of its own. */
function toPlugs(state: State, label: string, end: string): Plug[] {
  if (state === 'illegible') return [{ labels: [], ...(label === '' ? {} : { pattern: label }) }];
  if (state === 'unlabelled' || state === 'plugged') return [{ labels: [] }];
  if (state !== 'label') return [];
  const texts = label.split(/\s+\|\s+/).filter((text) => text !== '');
  const mark = /^[A-Za-z]$/.test(end) ? end.toUpperCase() : '';
  const hasMark = (text: string) => /[\s\-_/.][A-Za-z]$/.test(text);
  return [{ labels: texts.map((text) => ({ text: mark === '' || hasMark(text) ? text : `${text}-${mark}` })) }];
}

/** ISO 8601 with or without seconds and zone; without a zone the time counts as UTC, so that all machines agree. */
export function textToTime(text: string): { at: number; zone: number } | null {
  const match =
    /^(\d{4})-(\d{2})-(\d{2})(?:[T ](\d{2}):(\d{2})(?::(\d{2})(?:\.(\d{1,3})\d*)?)?)?\s*(Z|[+-]\d{2}:?\d{2})?$/i.exec(
      text.trim(),
    );
  if (!match) return null;
  const [, year, month, day, hour = '0', minute = '0', second = '0', fraction = '0', offset = 'Z'] = match;
  const [y, mo, d, h, mi, s] = [year, month, day, hour, minute, second].map(Number) as [
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  if (mo < 1 || mo > 12 || h > 23 || mi > 59 || s > 59) return null;
  if (new Date(Date.UTC(y, mo - 1, d)).getUTCDate() !== d) return null;
  const sign = offset.startsWith('-') ? -1 : 1;
  const digits = offset.replace(/\D/g, '');
  const zone = digits === '' ? 0 : sign * (Number(digits.slice(0, 2)) * 60 + Number(digits.slice(2)));
  const at = Date.UTC(y, mo - 1, d, h, mi, s, Number(fraction.padEnd(3, '0'))) - zone * 60_000;
  return { at, zone };
}
