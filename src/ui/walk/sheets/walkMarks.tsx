// Which other end jacket and marks fit, under the drawing: an estimate with two ways to settle it. It never says that two
// ends are one cable; a twin at both or a trace does.

import { useSignal } from '@preact/signals';
import { isJack, type PlaceId } from '../../../core/plan/identity.ts';
import type { MarkedEnd, MarksHere } from '../../../core/report/walk/marksView.ts';
import { leadToSighting } from '../../../core/report/walk/partPayloads.ts';
import type { WalkView } from '../../../core/report/walk/walkView.ts';
import { useAsked, useServices } from '../../context.ts';
import { Dialog } from '../../parts/dialog.tsx';
import { PlainButton } from '../../parts/form.tsx';
import { Row } from '../../parts/rows.tsx';
import type { WalkFlow } from '../walkFlowType.ts';
import type { SheetProps } from '../walkSheetProps.ts';
import { putTwin } from './twinActs.ts';
import type { Sheet } from './walkSheet.ts';
import { TwinOffer, useLog } from './walkTwins.tsx';

/** What jackets say of the jack in hand and of the one just spoken about; the next twin where they say nothing. */
export function MarksOrTwin({ flow, view }: { flow: WalkFlow; view: WalkView }) {
  return view.marks ? <Marks flow={flow} view={view} /> : <TwinOffer flow={flow} view={view} />;
}

function Marks({ flow, view }: { flow: WalkFlow; view: WalkView }) {
  const said = flow.verdict.value?.place;
  const places = [...new Set([view.current.place, said ?? view.current.place])];
  const asked = useAsked('marks', { audit: flow.audit, places });
  if (asked.type !== 'ready') return null;
  const here = (asked.value?.here ?? []).filter(({ end }) => places.includes(end.place));
  return (
    <>
      {here.map((one) => (
        <MarksLine key={one.end.place} flow={flow} view={view} here={one} />
      ))}
      {/* An end that fits another gets that one's number, never the next. */}
      {!here.some(({ end, fits }) => end.place === said && fits?.far) && <TwinOffer flow={flow} view={view} />}
    </>
  );
}

function MarksLine({ flow, view, here }: { flow: WalkFlow; view: WalkView; here: MarksHere }) {
  const { end, fits, differ, readings } = here;
  const inHand = end.place === view.current.place;
  if (differ) {
    const marks = readings.map(({ print, mark, unit }) => (mark === null ? print : `${print} ${mark} ${unit}`));
    return (
      <section class="walk-ask" aria-label="Jacket and mark">
        <p>
          <strong>{end.said}.</strong> Two different entries for this jacket: {marks.join('; ')}. Read it again.
        </p>
        {inHand && (
          <PlainButton
            onPress={() => {
              flow.sheet.value = { type: 'jacket' };
            }}
          >
            Read it again
          </PlainButton>
        )}
      </section>
    );
  }
  if (!fits) return null;
  return (
    <section class="walk-ask" aria-label="Jacket and mark">
      <p>
        <strong>{end.said}.</strong> {fits.line}
      </p>
      {fits.far && <Settle flow={flow} view={view} end={end} far={fits.far} />}
    </section>
  );
}

/** The two ways to settle it. */
function Settle(props: { flow: WalkFlow; view: WalkView; end: MarkedEnd; far: MarkedEnd }) {
  const { flow, view, end, far } = props;
  const services = useServices();
  const putting = useSignal(false);
  const sameTwin = () =>
    void putTwin(services, flow.audit, { text: far.twin ?? '', take: null }, end).then((event) =>
      flow.acted({
        event,
        place: end.place,
        words: `tag ${far.twin}`,
        line: `${far.twin} is on ${end.said} and on ${far.words}.`,
      }),
    );
  const mayPut = view.permission !== 'look' && end.bare && end.twin === null;
  if (putting.value && mayPut && far.twin === null) {
    return (
      <PutBoth
        {...props}
        onBack={() => {
          putting.value = false;
        }}
      />
    );
  }
  return (
    <>
      {mayPut && far.twin === null && (
        <PlainButton
          primary
          onPress={() => {
            putting.value = true;
          }}
        >
          Put a tag on both ends
        </PlainButton>
      )}
      {mayPut && far.twin !== null && (
        <PlainButton primary onPress={sameTwin}>
          {far.twin} is on this end too
        </PlainButton>
      )}
      {end.twin !== null && far.twin === null && isJack(far.place) && (
        <PlainButton primary onPress={() => void flow.moveTo(far.place)}>
          Go to {far.words}
        </PlainButton>
      )}
      {view.permission !== 'look' && !end.bare && end.twin === null && (
        <p>Record “No label” first, then put a tag on both ends.</p>
      )}
      <PlainButton
        onPress={() => {
          flow.sheet.value = { type: 'follow', end, far };
        }}
      >
        Follow it to be sure
      </PlainButton>
    </>
  );
}

/** One half here now; the other is recorded where it is stuck, by whoever stands there. */
function PutBoth(props: { flow: WalkFlow; end: MarkedEnd; far: MarkedEnd; onBack: () => void }) {
  const { flow, end, far } = props;
  const services = useServices();
  const log = useLog();
  const asked = useAsked('twins', { audit: flow.audit, place: end.place, log });
  if (asked.type !== 'ready' || !asked.value || log === '') return null;
  const { next } = asked.value;
  const put = () =>
    void putTwin(services, flow.audit, next, end).then((event) =>
      flow.acted({
        event,
        place: end.place,
        words: `tag ${next.text}`,
        line: `${next.text} is on ${end.said}. Its pair goes on ${far.words}.`,
      }),
    );
  return (
    <>
      <p class="walk-ask-whole">
        Stick <span class="ident">{next.text}</span> on this end and take its pair to {far.words}.
      </p>
      <PlainButton primary onPress={put}>
        {next.text} is on it
      </PlainButton>
      <PlainButton onPress={props.onBack}>Not now</PlainButton>
    </>
  );
}

/** As the walk says a place, without its rack. */
function saidOf({ place, said }: MarkedEnd): { place: PlaceId; words: string } {
  return { place, words: said };
}

/** A trace is told at both ends by one act. */
export function FollowSheet({ flow, close, sheet }: SheetProps & { sheet: Extract<Sheet, { type: 'follow' }> }) {
  const { end, far } = sheet;
  return (
    <Dialog
      title={`Follow the cable from ${end.said}`}
      onClose={close}
      rows={[
        [
          { small: 'Don’t record', big: 'Cancel', onPress: close },
          {
            small: 'Followed from end to end',
            big: `Record: it ends at ${far.words}`,
            primary: true,
            share: 2,
            onPress: () => void flow.state(leadToSighting(saidOf(end), saidOf(far), 'followed')),
          },
        ],
      ]}
    >
      <p>
        By eye, by hand, by tone or by signal, as far as you are allowed. Do not unplug it to see where it goes. Record
        it only when you have followed it all the way.
      </p>
      <Row
        title="It ends elsewhere"
        second="Record both its ends under Patch lead."
        onPress={() => {
          close();
          flow.mode.value = 'lead';
        }}
      />
    </Dialog>
  );
}
