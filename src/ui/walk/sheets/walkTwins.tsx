// Twins in the walk: one tap puts the next number on a plug that says nothing, a list asks for the other ends, and a
// number given twice is changed at the cable with fewer labels. With permission to look alone nothing is offered.

import { useSignal } from '@preact/signals';
import { type ComponentChildren, Fragment } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import type { AuditId } from '../../../core/plan/identity.ts';
import type { TwinsView } from '../../../core/report/walk/twinsView.ts';
import type { Verdict } from '../../../core/report/walk/verdict.ts';
import type { WalkView } from '../../../core/report/walk/walkView.ts';
import { blockToWords, type NextNumber, numberToText } from '../../../core/rules/numbers.ts';
import { useAsked, useServices } from '../../context.ts';
import { Dialog } from '../../parts/dialog.tsx';
import { Field, PlainButton } from '../../parts/form.tsx';
import { Row, SectionHead } from '../../parts/rows.tsx';
import { count, list, timeToWords } from '../../words.ts';
import type { WalkFlow } from '../walkFlowType.ts';
import type { SheetProps } from '../walkSheetProps.ts';
import { putTwin, renumberTwin, stripToBlock } from './twinActs.ts';
import { MarksPairs } from './walkMarksPairs.tsx';

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
    <Seen>
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

/** On a low screen it would wait under the verdict, where nobody looks for it. */
function Seen({ children }: { children: ComponentChildren }) {
  const box = useRef<HTMLDivElement>(null);
  useEffect(() => box.current?.scrollIntoView({ block: 'nearest' }), []);
  return (
    <div class="walk-ask" ref={box}>
      {children}
    </div>
  );
}

function PutTwin(props: { flow: WalkFlow; at: At; next: NextNumber; onPut: () => void }) {
  const { flow, at, next, onPut } = props;
  const services = useServices();
  return (
    <>
      <p>
        {next.spent &&
          `${next.spent.old} are used up or belong to another phone. A new block starts: ${next.spent.next}. `}
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
              words: `tag ${next.text}`,
              line: `${next.text} is on ${at.words}.`,
            }),
          );
        }}
      >
        {next.text} is on it
      </PlainButton>
    </>
  );
}

/** The way to the twins from More, with what is still wanted. */
export function TwinsRow({ flow, onPress }: { flow: WalkFlow; onPress: () => void }) {
  const asked = useAsked('twins', { audit: flow.audit, place: null, log: '' });
  const known = asked.type === 'ready' ? asked.value : null;
  const [open, owed] = [known?.open.length ?? 0, known?.owedCount ?? 0];
  const parts = [
    known?.given.length ? count(known.given.length, 'duplicate tag') : '',
    open > 0 ? `${count(open, 'other end')} to find` : '',
    owed > 0 ? `${count(owed, 'plug')} without a tag` : '',
  ].filter(Boolean);
  return (
    <Row
      title="Temporary tags"
      right={open + owed > 0 ? `${open + owed} to do` : undefined}
      second={parts.length > 0 ? `${parts.join(', ')}.` : 'Numbered tags, in pairs, for cables without a label.'}
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
    const words = `${next.text} instead of ${old}`;
    const line = `${next.text} is on ${list(ends.map((end) => end.words))}, ${old} is off.`;
    if (event === '') flow.line.value = `${next.text} was not saved: nothing has changed.`;
    else await flow.acted({ event, also, place: ends[0]?.place ?? '', words, line });
  };
  return (
    <Dialog title="Temporary tags: which ends are left?" onClose={close} rows={[[{ big: 'Cancel', onPress: close }]]}>
      {offer && mayPut && <PutTwin flow={flow} at={offer} next={next} onPut={close} />}
      {open.length + both.length + given.length + owedCount === 0 && (
        <p>
          No temporary tag is on a cable yet. Record “No label” at a jack, then put one on. You need permission to
          touch.
        </p>
      )}
      {given.map((one) => (
        <Fragment key={one.text}>
          <SectionHead title={`${one.text} is a duplicate`} />
          {one.issuers.map((giver, i) => (
            <Row
              key={giver.places[0]?.place}
              title={<span class="ident">{list(giver.places.map(({ words }) => words))}</span>}
              second={`By ${giver.author}, ${timeToWords(giver.at, services.now())}.${i === 0 ? toChange(one.issuers) : ''}`}
            />
          ))}
          {one.unclear.length > 0 && (
            <p>It is also on {list(one.unclear)}; nothing shows which of the cables that is. Follow it from there.</p>
          )}
          <p>They count as two cables until somebody follows the cable from one place to the other and records it.</p>
          {mayPut && one.issuers[0] && (
            <PlainButton onPress={() => void renumber(one)}>
              At {list(one.issuers[0].places.map(({ words }) => words))}: {next.text} is on, {one.text} is off
            </PlainButton>
          )}
        </Fragment>
      ))}
      {open.length > 0 && <SectionHead title="One end known, nearest first" right={String(open.length)} />}
      {open.map((one) => (
        <Row
          key={`${one.text} ${one.places[0]?.place}`}
          title={<span class="ident">{one.text}</span>}
          second={`On ${one.places[0]?.words}. The other end has no tag yet: look for a bare plug.`}
          onPress={to(one.places[0]?.place ?? '')}
        />
      ))}
      {owedCount > 0 && <SectionHead title="Plugs without label or tag, nearest first" right={String(owedCount)} />}
      {!mayPut && owedCount > 0 && <p>You may only look: put a tag on when touching is allowed.</p>}
      {owed.map((one) => (
        <Row
          key={one.place}
          title={<span class="ident">{one.words}</span>}
          second={one.place === place ? 'This jack.' : mayPut ? 'Go there and put one on.' : 'Go there.'}
          onPress={() => void flow.moveTo(one.place)}
        />
      ))}
      {owedCount > owed.length && <p>And {count(owedCount - owed.length, 'plug')} more.</p>}
      {both.length > 0 && <SectionHead title="Both ends known" right={String(both.length)} />}
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

/** A printed strip is given out from its first number on, instead of the phone's own block. */
function StripInHand(props: { flow: WalkFlow; foreign: TwinsView['foreign']; close: () => void }) {
  const { flow, foreign, close } = props;
  const services = useServices();
  const typed = useSignal('');
  const block = stripToBlock(typed.value);
  const taken = block && foreign.find(({ first, last }) => first <= block.last && block.first <= last);
  const error = taken
    ? `${blockToWords(taken)} belong to another phone. Use another strip, or start higher.`
    : typed.value.trim() !== '' && !block
      ? 'Type the number as printed: 351.'
      : undefined;
  const take = async () => {
    if (!block) return;
    close();
    const { event } = await services.record('numbers-taken', block, { audit: flow.audit });
    if (event === '') {
      flow.line.value = 'The strip was not saved: the next number stays as it was.';
      return;
    }
    const words = `the strip from ${numberToText(block, block.first)}`;
    const line = `Your next numbers: ${blockToWords(block)}.`;
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
        <PlainButton onPress={() => void take()}>Start at {numberToText(block, block.first)}</PlainButton>
      )}
    </>
  );
}

function toChange([first, second]: TwinsView['given'][number]['issuers']): string {
  const fewer = (first?.places.length ?? 0) < (second?.places.length ?? 0);
  return fewer ? ' Fewer tags are on here: change this one.' : ' Given later: change this one.';
}

/** "3 twins have one end only", "2 plugs bear nothing" where an audit is about to be left. */
export function TwinsLeft({ audit, owed = false }: { audit: AuditId; owed?: boolean }) {
  const asked = useAsked('twins', { audit, place: null, log: '' });
  const known = asked.type === 'ready' ? asked.value : null;
  const open = known?.open ?? [];
  const rest = Math.max(0, open.length - 4);
  const texts = [...open.slice(0, 4).map(({ text }) => text), ...(rest > 0 ? [`${rest} more`] : [])];
  return (
    <>
      {open.length > 0 && (
        <p>
          {count(open.length, 'temporary tag has', 'temporary tags have')} one end only: {list(texts)}.
        </p>
      )}
      {owed && known && known.owedCount > 0 && (
        <p>{count(known.owedCount, 'plug has', 'plugs have')} no label and no tag: see More, Temporary tags.</p>
      )}
    </>
  );
}
