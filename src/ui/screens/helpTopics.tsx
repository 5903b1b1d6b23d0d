// The texts of the help, as parts. Facts of the trade come from core/trade.
import type { ComponentChildren } from 'preact';
import { HAZARDS } from '../../core/trade/hazards.ts';
import { Caution } from '../parts/hazard.tsx';
import { CableLabel } from '../parts/label.tsx';
import {
  CouldNotSeeSymbol,
  DiffersSymbol,
  EmptySymbol,
  NoLabelSymbol,
  NotSeenSymbol,
  TickSymbol,
  UndecidedSymbol,
  UnreadableSymbol,
  WarningSign,
} from '../parts/symbols.tsx';

export interface Topic {
  id: string;
  title: string;
  line: string;
  body: (platform: 'ios' | 'android' | 'other') => ComponentChildren;
}

function Picture({ file, alt }: { file: string; alt: string }) {
  return (
    <img
      src={`/help/${file}.png`}
      alt={alt}
      style={{ maxWidth: '260px', border: '1px solid var(--line)' }}
      onError={(e) => {
        e.currentTarget.hidden = true;
      }}
    />
  );
}

const MARKS: [ComponentChildren, string][] = [
  [<TickSymbol size={1.4} />, 'As planned.'],
  [<DiffersSymbol size={1.4} />, 'Differs from the plan.'],
  [<UndecidedSymbol size={1.4} />, 'Undecided, or a look still owed.'],
  [<WarningSign size={1.4} />, 'Hazard to people or equipment.'],
  [<NotSeenSymbol size={1.4} />, 'Jack not looked at yet.'],
  [<CouldNotSeeSymbol size={1.4} />, 'Could not be seen, or not opened.'],
  [<EmptySymbol size={1.4} />, 'Empty.'],
  [<NoLabelSymbol size={1.4} />, 'Something is plugged, and it bears no label.'],
  [<UnreadableSymbol size={1.4} />, 'A label that cannot be read.'],
  [<CableLabel text="1003" variant="found" />, 'A label that was found.'],
  [<CableLabel text="1003" variant="plan" />, 'A label as planned.'],
];

export const TOPICS: readonly Topic[] = [
  {
    id: 'first-steps',
    title: 'First steps',
    line: 'From the sheet to the report.',
    body: () => (
      <>
        <p>1. Bring in the cable schedule. You see how every row was read before it counts.</p>
        <p>2. Begin an audit: which racks, what is left out and why, and what you may do.</p>
        <p>
          3. Walk. At each jack scan the label, press “Reads …” when it says what the plan says, or say what you see:
          empty, no label, cannot read it, cannot see it.
        </p>
        <Picture file="walk" alt="The walk at one jack" />
        <p>
          4. What differs is kept with photos and notes; it never stops the walk. A range of empty jacks is one act.
        </p>
        <p>
          5. The report says what was checked, what differs, and what was not looked at. It sends itself when the
          network is back.
        </p>
      </>
    ),
  },
  {
    id: 'install',
    title: 'On the home screen',
    line: 'So that the phone keeps the record.',
    body: (platform) => (
      <>
        {platform === 'ios' ? (
          <>
            <p>1. Open the app’s address in the phone’s own browser.</p>
            <p>2. Press the share button, then “Add to Home Screen”, then Add.</p>
            <p>
              3. Open it from the home screen from now on. It keeps a store of its own: what was recorded in the browser
              tab stays in the tab. Send it, or take it over as a file.
            </p>
          </>
        ) : (
          <>
            <p>1. Open the app’s address in the phone’s browser.</p>
            <p>2. Choose “Install app” or “Add to home screen” in its menu.</p>
            <p>3. Open it from there from now on.</p>
          </>
        )}
        <p>
          A tab that is not used for some days may be cleared by the browser; an app on the home screen is kept better.
          Ask for it under Settings, and send or take away what matters.
        </p>
      </>
    ),
  },
  {
    id: 'https',
    title: 'Reaching the server from phones',
    line: 'Trusted HTTPS, one address for ever.',
    body: () => (
      <>
        <p>
          Camera and offline use work over trusted HTTPS only. Give the server a public name with a certificate whose
          private address it points to, or a certificate of your own authority that every phone trusts.
        </p>
        <p>
          Start it with <span class="ident">ASFOUND_TLS_CERT</span> and <span class="ident">ASFOUND_TLS_KEY</span>. Keep
          name and port for ever: another address is an empty phone.
        </p>
        <p>An expired certificate locks nobody out of what is on the phone; sending waits until it is renewed.</p>
      </>
    ),
  },
  {
    id: 'camera',
    title: 'Camera',
    line: 'Permission, small labels, a black picture.',
    body: () => (
      <>
        <p>Allow the camera when asked. If it was refused once, allow it in the phone’s settings for this app.</p>
        <p>
          Hold the label inside the circle. For a small one stay a hand’s width away and use zoom rather than coming
          closer. Code 128 needs the phone held square to the bars.
        </p>
        <p>
          A picture that stays black is started again by itself; if not, press Start the camera again. Typing and a hand
          scanner with a keyboard plug always work.
        </p>
      </>
    ),
  },
  {
    id: 'marks',
    title: 'What the marks mean',
    line: 'Plan is thin and dashed, found is solid.',
    body: () => (
      <dl class="desk-facts">
        {MARKS.map(([mark, words]) => (
          <>
            <dt>{mark}</dt>
            <dd>{words}</dd>
          </>
        ))}
      </dl>
    ),
  },
  {
    id: 'schedule',
    title: 'Columns of a schedule',
    line: 'What is understood, and what a unit list adds.',
    body: () => (
      <>
        <p>
          A cable list needs a number and both ends: Cable, From, From Jack, To, To Jack, or From Rack, From Unit, From
          Jack and the same for To. Signal, Type, Length, Status, Circuit and Notes are taken when they are there.
        </p>
        <p>
          A unit list adds where units are: Unit, Room, Rack, U, Height, Jacks (P01-P24), Layout (one row, two rows, odd
          over even).
        </p>
        <p>A jack list adds what the sockets are: Unit, Jack, Connector, Direction, Signal, Spare.</p>
        <p>Numbers are text always: 0101 and 101 are two cables. Every guess is listed before you take the plan.</p>
      </>
    ),
  },
  {
    id: 'cautions',
    title: 'Cautions',
    line: 'What belongs to other trades, and what hurts.',
    body: () => (
      <>
        <p>
          The app tells what would be touched and how old the evidence is. It never says that anything may be pulled,
          plugged or touched without risk. Local codes, permits of the premises and licensed trades come first.
        </p>
        {HAZARDS.map((hazard) => (
          <Caution key={hazard.id} word={hazard.severity === 'people' ? 'People' : 'Equipment'}>
            <strong>{hazard.title}.</strong> {hazard.caution}
          </Caution>
        ))}
      </>
    ),
  },
];
