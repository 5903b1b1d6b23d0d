// The rules of a walk, free of screen and store: which event a statement makes, what belongs to one visit, what one
// undo takes back, what is offered at the thumb. It never records anything itself.
import type { AuditId, EventId, PlaceId, UnitId } from '../../core/plan/identity.ts';
import type { Payload, Plug, State, Withdrawal } from '../../core/record/events.ts';
import type { StatementKind } from '../../core/report/walk/statementsAt.ts';
import type { JackView, WalkView } from '../../core/report/walk/walkView.ts';
import { hiddenShown } from '../bidi.ts';
import type { KeyOf } from '../drafts/draftNames.ts';
import { WALK } from '../drafts/walkDrafts.ts';
import type { Services } from '../services.ts';
import type { OwedSheet } from './sheets/walkSheet.ts';
import type { By, Earlier, Sighting } from './walkSaid.ts';

/** One thing that was said on this page, and where to go back to when it is taken back. */
export interface Act {
  event: EventId;
  kind: 'sighting' | 'note' | 'hazard' | 'photo' | 'label' | 'slip' | 'described';
  places: PlaceId[];
  back: string;
  words: string;
  /** Events that were made by the same act and are taken back with it. */
  also?: string[];
  /** How a label was taken, for saying it again elsewhere. */
  by?: string;
  /** What the act moved: undo says it again where it was, instead of these events. */
  again?: Again[];
}

/** One event of an act of several: what it was before, and the event that stands for it now. */
export type Again = { instead: string } & {
  [K in StatementKind]: { kind: K; payload: Payload<K> };
}[StatementKind];

/** Standing at one unit, without leaving it: what was said there before may be said anew, and replaces itself. */
export interface Visit {
  unit: UnitId;
  looks: { event: EventId; places: PlaceId[] }[];
}

/** Kept as a draft, so that a reload in mid-jack loses neither the place nor the undo. */
export interface WalkMemory {
  place: PlaceId | null;
  paused: boolean;
  visit: Visit | null;
  acts: Act[];
  /** Label first: a cable is read anywhere in the bundle, then the jack is touched. `text` is what waits for its jack. */
  first?: { text: string | null; by: By } | null;
  /** First jack of a run of equal steps that the person said is the cables' own. */
  cables?: PlaceId | null;
  /** Jacks where a temporary number was offered and put off: not asked again before the walk is resumed. */
  notNow?: string[];
  /** A question on which something said waits: it is asked again after a restart, or what was said would be lost. */
  asked?: OwedSheet | null;
  /** Places where hands were at work: what is said of them next is as left, and stands beside what was found. */
  worked?: string[];
  /** When it was last written. */
  at: number;
}

export const NEW_MEMORY: WalkMemory = { place: null, paused: false, visit: null, acts: [], at: 0 };
/** Away for longer than this, and things may have been moved: what was said before is another visit's look. */
export const VISIT_MS = 30 * 60_000;
const ACTS_KEPT = 50;

export interface Said {
  places: readonly { place: PlaceId; words: string }[];
  state: State;
  plugs?: readonly Plug[];
  by: By;
  reason?: string;
  basis?: Sighting['basis'];
  /** Name of the helper who told it. */
  teller?: string;
  /** Put here against the plan on purpose. */
  change?: Sighting['change'];
}

/** Comes back to a walk after a reload or a pause: to the same jack, but only a short absence is the same visit. */
export function resumed(memory: WalkMemory, now: number): WalkMemory {
  return now - memory.at > VISIT_MS ? { ...memory, visit: null, notNow: [] } : memory;
}

/** A visit ends when another unit is begun; statements made before that are then another day's looks. */
export function visitAt(memory: WalkMemory, unit: UnitId): Visit {
  return memory.visit?.unit === unit ? memory.visit : { unit, looks: [] };
}

/** What the visit said about these places before. Only there is it taken back: a range stays where it was right. */
export function withdrawalsAt(visit: Visit, places: readonly PlaceId[]): Withdrawal[] {
  return visit.looks.flatMap(({ event, places: covered }) => {
    const shared = covered.filter((place) => places.includes(place));
    if (shared.length === 0) return [];
    return [shared.length === covered.length ? { event } : { event, places: shared }];
  });
}

export function toSighting(said: Said, visit: Visit): Sighting {
  const places = said.places.map(({ place }) => place);
  const withdraws = withdrawalsAt(visit, places);
  return {
    places,
    said: said.places.map(({ words }) => words),
    state: said.state,
    plugs: [...(said.plugs ?? [])],
    basis: said.basis ?? 'seen',
    by: said.by,
    ...(said.reason ? { reason: said.reason } : {}),
    ...(said.teller ? { teller: said.teller } : {}),
    ...(said.change ? { change: said.change } : {}),
    ...(withdraws.length > 0 ? { withdraws } : {}),
  };
}

const PLUGGED: ReadonlySet<string> = new Set(['label', 'unlabelled', 'illegible', 'plugged']);
const BARE: ReadonlySet<string> = new Set(['empty', 'blanked']);

/** Looks of another visit that what is said now would contradict: the person has to say which of the two it was. */
export function earlierDiffering(looks: readonly Earlier[], visit: Visit, sighting: Sighting): Earlier[] {
  const mine = new Set(visit.looks.map(({ event }) => event));
  return looks.filter((look) => !mine.has(look.event) && contradicts(look, sighting));
}

function contradicts(look: Earlier, { state, plugs }: Sighting): boolean {
  if (BARE.has(look.state)) return PLUGGED.has(state);
  if (!PLUGGED.has(look.state)) return false;
  if (BARE.has(state)) return true;
  if (look.state !== 'label' || state !== 'label') {
    // "No label" against a label read; a plug whose label is not in view contradicts nothing.
    return (
      (look.state === 'unlabelled') !== (state === 'unlabelled') && look.state !== 'plugged' && state !== 'plugged'
    );
  }
  return look.label?.trim() !== plugs[0]?.labels[0]?.text.trim();
}

/** The person's answer to "Misread before, or changed since?"; the two are kept apart for the as-left record. */
export function resolveEarlier(
  sighting: Sighting,
  earlier: readonly Earlier[],
  answer: 'misread' | 'changed' | 'unsure',
): Sighting {
  const place = sighting.places[0];
  if (answer === 'unsure' || place === undefined) return sighting;
  if (answer === 'changed') return { ...sighting, changedSince: earlier.map(({ event }) => event) };
  const more = earlier.map(({ event }) => ({ event, places: [place] }));
  return { ...sighting, withdraws: [...(sighting.withdraws ?? []), ...more] };
}

export function afterSighting(memory: WalkMemory, event: EventId, sighting: Sighting, unit: UnitId): WalkMemory {
  const visit = visitAt(memory, unit);
  const [first = ''] = sighting.places;
  const act: Act = {
    event,
    kind: 'sighting',
    places: sighting.places,
    back: first,
    words: actToWords(sighting),
    ...(sighting.by ? { by: sighting.by } : {}),
  };
  const gone = new Set(sighting.withdraws?.filter(({ places }) => !places).map(({ event: id }) => id));
  // What was replaced cannot be taken back a second time.
  const acts = memory.acts.filter(({ event: id }) => !gone.has(id));
  return {
    ...memory,
    ...(memory.worked ? { worked: memory.worked.filter((place) => !sighting.places.includes(place)) } : {}),
    visit: { unit, looks: [...withoutPlaces(visit, sighting.places).looks, { event, places: sighting.places }] },
    acts: [...acts, act].slice(-ACTS_KEPT),
  };
}

/** `SW1 P03, 1004`; of a row its first and last jack. */
function actToWords({ said, plugs, state }: Sighting): string {
  const [first = ''] = said;
  const where = said.length > 2 ? `${first} to ${said.at(-1)}` : said.join(', ');
  const label = plugs[0]?.labels[0]?.text;
  return `${where}, ${label === undefined ? STATE_WORDS[state] : labelToShow(label)}`;
}

const STATE_WORDS: Record<State, string> = {
  label: 'label read',
  unlabelled: 'no label',
  illegible: 'cannot be read',
  plugged: 'plugged',
  empty: 'empty',
  blanked: 'blanked',
  'not-visible': 'cannot be seen',
  refused: 'not opened',
};

export function afterAct(memory: WalkMemory, act: Act): WalkMemory {
  return { ...memory, acts: [...memory.acts, act].slice(-ACTS_KEPT) };
}

/** Something said on another screen of this audit: the walk's undo takes it back like the rest. */
export async function noteAct(
  services: Pick<Services, 'draft' | 'saveDraft'>,
  audit: AuditId,
  event: EventId,
  words: string,
): Promise<void> {
  const kept = { ...NEW_MEMORY, ...(await services.draft(walkDraft(audit), WALK)) };
  const act: Act = { event, kind: 'described', places: [], back: kept.place ?? '', words };
  void services.saveDraft(walkDraft(audit), afterAct(kept, act), WALK);
}

/** Name of the draft that a walk is kept under. */
/** Hands were at work at these places: looks of before are another visit's, and the next ones are as left. */
export async function noteWork(services: Services, audit: AuditId, places: readonly PlaceId[]): Promise<void> {
  const kept = { ...NEW_MEMORY, ...(await services.draft(walkDraft(audit), WALK)) };
  const worked = [...new Set([...(kept.worked ?? []), ...places])];
  void services.saveDraft(walkDraft(audit), { ...kept, visit: null, worked }, WALK);
}

export function walkDraft(audit: AuditId): KeyOf<'walk'> {
  return `walk:${audit}`;
}

/** One undo takes back one act, a range of twenty jacks included. */
export function undoLast(memory: WalkMemory): { act: Act; payload: Payload<'withdrawn'>; memory: WalkMemory } | null {
  const act = memory.acts.at(-1);
  if (!act) return null;
  const looks = memory.visit?.looks.filter(({ event }) => event !== act.event) ?? [];
  return {
    act,
    payload: { target: { event: act.event }, why: 'undo' },
    memory: { ...memory, acts: memory.acts.slice(0, -1), visit: memory.visit && { ...memory.visit, looks } },
  };
}

function withoutPlaces(visit: Visit, places: readonly PlaceId[]): Visit {
  const looks = visit.looks
    .map((look) => ({ ...look, places: look.places.filter((place) => !places.includes(place)) }))
    .filter((look) => look.places.length > 0);
  return { ...visit, looks };
}

/** What stands at the thumb. In a blind audit nothing does, and where the plan has no cable it is "Empty". */
export type Primary = { type: 'none' } | { type: 'reads'; label: string } | { type: 'empty' };

export function primaryAt(view: Pick<WalkView, 'blind' | 'current' | 'occasion'>): Primary {
  if (view.blind) return { type: 'none' };
  if (view.current.plan !== null) return { type: 'reads', label: view.current.plan };
  // Where nothing is planned an empty jack agrees with nothing: it is said like any other state.
  return view.occasion === 'inherit' ? { type: 'none' } : { type: 'empty' };
}

/** Leaves a jack as the drawing may show it: in a blind audit the plan goes until the jack was spoken about. */
export function withoutPlan(jack: JackView): JackView {
  const { plan: _, ...rest } = jack;
  return jack.state === 'unseen' ? { ...rest, mark: undefined } : jack;
}

const SHOWN_AT_MOST = 24;
/** No label on a cable is longer; what is, has its length told instead of its end. */
const LABEL_AT_MOST = 80;

/** Letters as the eye counts them: an accent of its own stays with its letter, where the browser knows. */
const eye = new Intl.Segmenter();
export const lettersOf = (text: string) => Array.from(eye.segment(text), ({ segment }) => segment);

const bareOf = (text: string) => hiddenShown(text.replace(/\s+/gu, ' ')).trim();

/** Both ends stay when a text is shortened: names of one series differ in the last letters. */
function shortened(text: string, atMost: number): string {
  const letters = lettersOf(text);
  if (letters.length <= atMost) return text;
  const head = Math.floor((atMost - 1) * 0.4);
  return `${letters.slice(0, head).join('')}…${letters.slice(letters.length - (atMost - 1 - head)).join('')}`;
}

/** A label for the screen: signs that nobody sees by their number, and a hostile length becomes words instead of a wall. */
export function labelToShow(text: string): string {
  const bare = bareOf(text);
  const letters = lettersOf(bare);
  if (letters.length <= LABEL_AT_MOST) return shortened(bare, SHOWN_AT_MOST);
  return `${letters.slice(0, 16).join('')}… (${letters.length} characters)`;
}

/** The same for a box in a drawing or a band, where a wall of text would push everything else away. */
export function labelToBox(text: string): string {
  const bare = bareOf(text);
  const letters = lettersOf(bare);
  return letters.length <= LABEL_AT_MOST ? shortened(bare, 14) : `${letters.slice(0, 10).join('')}…`;
}

/** A sentence from the record may quote a label of any length; the quote is shortened, the sentence stays. */
export function sentenceToShow(sentence: string, label: string | null): string {
  const quoted =
    label !== null && label !== labelToShow(label) ? sentence.split(label).join(labelToShow(label)) : sentence;
  return quoted.replace(/\S{41,}/g, (run) => `${run.slice(0, 16)}…`);
}

/** A text that no label in a rack has: it is shown and asked about before it becomes a statement. */
export function isUnlikelyLabel(text: string): boolean {
  return text.length > 40 || /[\n\r]|:\/\//.test(text);
}

/** A plug is there in these states, whether or not it says its name. */
export function plugsOf(state: Said['state']): NonNullable<Said['plugs']> {
  return state === 'unlabelled' || state === 'illegible' || state === 'plugged' ? [{ labels: [] }] : [];
}
