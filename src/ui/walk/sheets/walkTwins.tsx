// Twins in the walk: one tap puts the next number on a plug that says nothing, a list asks for the other ends, and a
// number given twice is changed at the cable with fewer labels. With permission to look alone nothing is offered.

import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { AuditId } from '../../../core/plan/identity.ts';
import type { TwinsView } from '../../../core/report/walk/twinsView.ts';
import type { Verdict } from '../../../core/report/walk/verdict.ts';
import type { WalkView } from '../../../core/report/walk/walkView.ts';
import { blockToWords, type NextNumber, numberToText } from '../../../core/rules/numbers.ts';
import { useAsked, useServices } from '../../context.ts';
import { Dialog } from '../../parts/dialog.tsx';
import { Field, PlainButton } from '../../parts/form.tsx';
import { Row, SectionHead } from '../../parts/rows.tsx';
import { list } from '../../words.ts';
import type { WalkFlow } from '../walkFlowType.ts';
import type { SheetProps } from '../walkSheetProps.ts';
import { putTwin, renumberTwin, stripToBlock } from './twinActs.ts';
import {
  alsoOn,
  bareLeft,
  changedAct,
  changedTag,
  changeTag,
  isDuplicate,
  isOn,
  isOnIt,
  issuedBy,
  morePlugs,
  newBlock,
  nextNumbers,
  notChanged,
  oneEndOnly,
  otherEndBare,
  otherPhones,
  startAt,
  stripAct,
  TWIN_WORDS,
  tagAct,
  tagsLeft,
  tagsToDo,
} from './twinWords.ts';
import { MarksPairs } from './walkMarksPairs.tsx';
import { Seen } from './walkSeen.tsx';

/** This phone's log; empty until it is known, which is before anything was recorded here. */
export function useLog(): string {
  const services = useServices();
  const log = useSignal('');
  useEffect(() => {
    void services.log().then((known) => {
      log.value = known ?? '';
    });
  }, []);
  return log.value;
}

/** Under the drawing, right after "No label" was said. Put off, it comes by More until the walk is resumed. */
export function TwinOffer({ flow, view }: { flow: WalkFlow; view: WalkView }) {
  const verdict = flow.verdict.value;
  // Only a plug that says nothing is worth a question to the record.
  if (!verdict || !asksForNumber(verdict) || view.permission === 'look') return null;
  return <Offer flow={flow} said={verdict.place} />;
}

type At = NonNullable<TwinsView['offer']>;

/** A plug that says nothing, or something that may be no number of the plan's. */
function asksForNumber({ state, variant }: Verdict): boolean {
  if (state === 'unlabelled' || state === 'illegible') return true;
  return variant === 'differs' && (state === 'label' || state === 'conflict');
}

function Offer({ flow, said }: { flow: WalkFlow; said: string }) {
  const log = useLog();
  const asked = useAsked('twins', { audit: flow.audit, place: said, log });
  const putOn = useSignal<string | null>(null);
  if (asked.type !== 'ready' || !asked.value?.offer || log === '') return null;
  const at = asked.value.offer;
  if (at.place !== said || putOn.value === said || flow.memory.value.notNow?.includes(said)) return null;
  return (
    <Seen label={TWIN_WORDS.title}>
      <PutTwin
        flow={flow}
        at={at}
        next={asked.value.next}
        onPut={() => {
          putOn.value = said;
        }}
      />
      <PlainButton onPress={() => flow.notNow(said)}>Not now</PlainButton>
    </Seen>
  );
}

function PutTwin(props: { flow: WalkFlow; at: At; next: NextNumber; onPut: () => void }) {
  const { flow, at, next, onPut } = props;
  const services = useServices();
  return (
    <>
      <p>
        {next.spent && `${newBlock(next.spent)} `}
        {at.words} has no readable label. Put tag <span class="ident">{next.text}</span> on it, and keep the second one
        for the other end.
      </p>
      <PlainButton
        primary
        onPress={() => {
          onPut();
          void putTwin(services, flow.audit, next, at).then((event) =>
            flow.acted({
              event,
              place: at.place,
              words: tagAct(next.text),
              line: isOn(next.text, at.words),
            }),
          );
        }}
      >
        {isOnIt(next.text)}
      </PlainButton>
    </>
  );
}

/** The way to the twins from More, with what is still wanted. */
export function TwinsRow({ flow, onPress }: { flow: WalkFlow; onPress: () => void }) {
  const asked = useAsked('twins', { audit: flow.audit, place: null, log: '' });
  const known = asked.type === 'ready' ? asked.value : null;
  return (
    <Row
      title={TWIN_WORDS.title}
      right={tagsToDo((known?.open.length ?? 0) + (known?.owedCount ?? 0))}
      second={known ? tagsLeft(known) : TWIN_WORDS.whatTheyAre}
      onPress={onPress}
    />
  );
}

export function TwinsSheet({ flow, close }: SheetProps) {
  const services = useServices();
  const log = useLog();
  const { place } = flow.memory.value;
  const asked = useAsked('twins', { audit: flow.audit, place, log });
  const view = flow.view.value;
  if (asked.type !== 'ready' || !asked.value || !view || view === 'loading') return null;
  const { open, both, given, owed, owedCount, offer, next } = asked.value;
  const mayPut = view.permission !== 'look' && log !== '';
  const to = (target: string) => () => {
    close();
    void flow.moveTo(target);
  };
  const renumber = async ({ text: old, issuers }: TwinsView['given'][number]) => {
    const ends = issuers[0]?.places ?? [];
    close();
    const [event = '', ...also] = await renumberTwin(services, flow.audit, next, old, ends);
    const words = changedAct(next.text, old);
    const line = changedTag(
      ends.map((end) => end.words),
      next.text,
      old,
    );
    if (event === '') flow.line.value = notChanged(next.text);
    else await flow.acted({ event, also, place: ends[0]?.place ?? '', words, line });
  };
  return (
    <Dialog title={TWIN_WORDS.whichLeft} onClose={close} rows={[[{ big: 'Cancel', onPress: close }]]}>
      {offer && mayPut && <PutTwin flow={flow} at={offer} next={next} onPut={close} />}
      {open.length + both.length + given.length + owedCount === 0 && <p>{TWIN_WORDS.none}</p>}
      {given.map((one) => (
        <Given key={one.text} given={one} next={next} mayPut={mayPut} onChange={() => void renumber(one)} />
      ))}
      {open.length > 0 && <SectionHead title={TWIN_WORDS.oneEnd} right={String(open.length)} />}
      {open.map((one) => (
        <Row
          key={`${one.text} ${one.places[0]?.place}`}
          title={<span class="ident">{one.text}</span>}
          second={otherEndBare(one.places[0]?.words ?? '')}
          onPress={to(one.places[0]?.place ?? '')}
        />
      ))}
      {owedCount > 0 && <SectionHead title={TWIN_WORDS.bare} right={String(owedCount)} />}
      {!mayPut && owedCount > 0 && <p>{TWIN_WORDS.mayLook}</p>}
      {owed.map((one) => (
        <Row
          key={one.place}
          title={<span class="ident">{one.words}</span>}
          second={one.place === place ? TWIN_WORDS.thisJack : mayPut ? TWIN_WORDS.goAndPut : TWIN_WORDS.goThere}
          onPress={() => void flow.moveTo(one.place)}
        />
      ))}
      {owedCount > owed.length && <p>{morePlugs(owedCount - owed.length)}</p>}
      {both.length > 0 && <SectionHead title={TWIN_WORDS.bothEnds} right={String(both.length)} />}
      {both.map((one) => (
        <Row
          key={`${one.text} ${one.places[0]?.place}`}
          title={<span class="ident">{one.text}</span>}
          second={list(one.places.map(({ words }) => words))}
        />
      ))}
      {mayPut && <StripInHand flow={flow} foreign={asked.value.foreign} close={close} />}
      <MarksPairs flow={flow} close={close} />
    </Dialog>
  );
}

/** A tag that is on two cables: who put it where, and which of them to change. */
function Given(props: { given: TwinsView['given'][number]; next: NextNumber; mayPut: boolean; onChange: () => void }) {
  const { given, next, mayPut, onChange } = props;
  const services = useServices();
  const { text, issuers, unclear } = given;
  const [first] = issuers;
  return (
    <>
      <SectionHead title={isDuplicate(text)} />
      {issuers.map((giver, i) => (
        <Row
          key={giver.places[0]?.place}
          title={<span class="ident">{list(giver.places.map(({ words }) => words))}</span>}
          second={issuedBy(issuers.slice(i), i === 0, services.now())}
        />
      ))}
      {unclear.length > 0 && <p>{alsoOn(unclear)}</p>}
      <p>{TWIN_WORDS.twoCables}</p>
      {mayPut && first && (
        <PlainButton onPress={onChange}>
          {changeTag(
            first.places.map(({ words }) => words),
            next.text,
            text,
          )}
        </PlainButton>
      )}
    </>
  );
}

/** A printed strip is given out from its first number on, instead of the phone's own block. */
function StripInHand(props: { flow: WalkFlow; foreign: TwinsView['foreign']; close: () => void }) {
  const { flow, foreign, close } = props;
  const services = useServices();
  const typed = useSignal('');
  const block = stripToBlock(typed.value);
  const taken = block && foreign.find(({ first, last }) => first <= block.last && block.first <= last);
  const error = taken
    ? otherPhones(blockToWords(taken))
    : typed.value.trim() !== '' && !block
      ? 'Type the number as printed: 351.'
      : undefined;
  const take = async () => {
    if (!block) return;
    close();
    const { event } = await services.record('numbers-taken', block, { audit: flow.audit });
    if (event === '') {
      flow.line.value = TWIN_WORDS.stripNotSaved;
      return;
    }
    const words = stripAct(numberToText(block, block.first));
    const line = nextNumbers(blockToWords(block));
    await flow.acted({ event, place: flow.memory.value.place ?? '', words, line });
  };
  return (
    <>
      <SectionHead title="If you have a printed strip" />
      <Field
        label="My strip starts at"
        inputMode="numeric"
        value={typed.value}
        hint="Your next 50 numbers are then those of the strip."
        error={error}
        onInput={(text) => {
          typed.value = text;
        }}
      />
      {block && !taken && (
        <PlainButton onPress={() => void take()}>{startAt(numberToText(block, block.first))}</PlainButton>
      )}
    </>
  );
}

/** "3 twins have one end only", "2 plugs bear nothing" where an audit is about to be left. */
export function TwinsLeft({ audit, owed = false }: { audit: AuditId; owed?: boolean }) {
  const asked = useAsked('twins', { audit, place: null, log: '' });
  const known = asked.type === 'ready' ? asked.value : null;
  const open = known?.open ?? [];
  return (
    <>
      {open.length > 0 && <p>{oneEndOnly(open.map(({ text }) => text))}</p>}
      {owed && known && known.owedCount > 0 && <p>{bareLeft(known.owedCount)}</p>}
    </>
  );
}
