// What a walk offers to its screen: signals to show, acts to press. Types only; createFlow (walkFlow.ts) makes it.

import type { Signal } from '@preact/signals';
import type { AuditId, EventId, PlaceId } from '../../core/plan/identity.ts';
import type { ReadLabel, Sighting } from '../../core/record/events.ts';
import type { Verdict } from '../../core/report/walk/verdict.ts';
import type { WalkView } from '../../core/report/walk/walkView.ts';
import type { EarlierAnswer } from '../../core/walk/earlier.ts';
import type { Said, WalkMemory } from '../../core/walk/memory.ts';
import type { By, LabelQuestion } from '../../core/walk/question.ts';
import type { Slip } from '../../core/walk/slip.ts';
import type { Reading } from '../../scan/scanner.ts';
import type { Sheet } from './sheets/walkSheet.ts';

/** What may lie over the walk while something is described. */
export type PartMode = 'part' | 'panel' | 'power' | 'colour' | 'lead';

export interface WalkFlow {
  audit: AuditId;
  memory: Signal<WalkMemory>;
  view: Signal<WalkView | null | 'loading'>;
  verdict: Signal<Verdict | null>;
  /** The verdict on what was just said: new with each statement, while `verdict` is asked anew with the record. */
  said: Signal<Verdict | null>;
  /** A plain line in the verdict's place, for what is not a verdict: undone, photo kept, what failed. */
  line: Signal<string | null>;
  sheet: Signal<Sheet | null>;
  mode: Signal<'walk' | 'range' | 'details' | PartMode>;
  slip: Signal<Slip | null>;
  lastRead: Signal<string | null>;
  failed: Signal<string | null>;
  begin(place: PlaceId | null): Promise<void>;
  refresh(): Promise<void>;
  /** The record changed, by this page or elsewhere. */
  recordChanged(): void;
  moveTo(place: PlaceId | null): Promise<void>;
  read(reading: Reading): void;
  readText(text: string, by: By): Promise<void>;
  sayLabel(text: string, by: By, more?: Omit<ReadLabel, 'text'>): Promise<void>;
  /** What the label in question is, recorded of whatever it was said of. */
  answerLabel(question: Pick<LabelQuestion, 'by' | 'of'>, label: ReadLabel): Promise<void>;
  sayState(state: Said['state'], more?: Partial<Said>): Promise<void>;
  /** Says whether something was recorded: it may be asked about first. */
  say(said: Said): Promise<boolean>;
  state(sighting: Sighting): Promise<boolean>;
  /** Said by somebody else at another place; the sheet that asked stays open. */
  tell(said: Said): Promise<void>;
  answerEarlier(answer: EarlierAnswer): Promise<void>;
  answerSlip(who: 'me' | 'cables'): Promise<void>;
  note(place: PlaceId | null, text: string): Promise<void>;
  labelFirst(on: boolean): void;
  /** The label that waits goes into this jack. */
  placeHeld(place: PlaceId, words: string): Promise<void>;
  hazard(id: string, note: string): Promise<void>;
  /** Something was recorded beside the flow: it can be undone like the rest, and a line tells it. */
  acted(act: { event: EventId; also?: string[]; place: PlaceId; words: string; line: string }): Promise<void>;
  /** The number offered at this jack is put off. */
  notNow(place: PlaceId): void;
  /** The label act of a renaming that is due at the jack in hand. */
  labelAct(): Promise<void>;
  /** A picture or voice note was kept; one undo takes it back. */
  did(event: EventId, place: PlaceId | null, words: string): void;
  undo(): Promise<void>;
  pause(paused: boolean): void;
}
