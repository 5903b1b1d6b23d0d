// The pages of the help. Words only, and the app's own symbols; pictures show when they are on the phone.
import { useSignal } from '@preact/signals';
import type { ComponentChildren, JSX } from 'preact';
import { HAZARDS } from '../../core/trade/hazards.ts';
import { CableLabel } from '../parts/label.tsx';
import { Row, SectionHead } from '../parts/rows.tsx';
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
import { Decisions } from './helpDecisions.tsx';
import { WorkToDo } from './helpFixes.tsx';
import { Building, NoPlan, Twins, WaysToWalk } from './helpOccasions.tsx';
import { PartsHelp } from './helpParts.tsx';
import { Photos } from './helpPhotos.tsx';
import { Renaming } from './helpRenaming.tsx';
import { Revisions } from './helpRevisions.tsx';
import { Sending } from './helpSending.tsx';
import { Desk, Schedule } from './helpSheets.tsx';

interface PageProps {
  platform: 'ios' | 'android' | 'other';
  installed: boolean;
}

export interface Topic {
  id: string;
  title: string;
  line: string;
  Page: (props: PageProps) => JSX.Element;
}

function Steps({ children }: { children: ComponentChildren }) {
  return <ol class="help-steps">{children}</ol>;
}

/** Shown only once it has loaded, since the pictures are not kept for use without a network. */
function Picture({ name, alt }: { name: string; alt: string }) {
  const state = useSignal<'loading' | 'here' | 'missing'>('loading');
  if (state.value === 'missing') return null;
  return (
    <img
      class="help-picture"
      src={`/help/${name}.png`}
      alt={alt}
      hidden={state.value !== 'here'}
      onLoad={() => {
        state.value = 'here';
      }}
      onError={() => {
        state.value = 'missing';
      }}
    />
  );
}

function FirstSteps() {
  return (
    <div class="desk-part">
      <Steps>
        <li>
          Bring in the cable schedule as it is: XLSX or CSV, ordinary column names. You see how every row was read
          before it is taken.
        </li>
        <li>Begin an audit: why you walk, which racks and rooms, what is left out and why, and what you may do.</li>
        <li>
          Stand at the rack. The app names the next jack. Aim at its label, or press what stands there by plan if you
          read it yourself: Empty, No label, Can’t read it, Can’t see it.
        </li>
        <li>A difference does not stop you. One line tells; More opens it; Photo and Note hang on the jack.</li>
        <li>Going live pauses camera and sound. The place is kept.</li>
        <li>
          Settings has tones, spoken words and vibration for each verdict, gloves, the other hand, themes for sun and
          dark, and keys of a small remote. All sound is off until you turn it on; “Sound on” in the bar silences it
          beside a live microphone.
        </li>
        <li>Differences lists what differs, the worst first. Report makes the record to hand on.</li>
      </Steps>
      <Picture name="walk" alt="The walk at a jack, with the verdict above the thumb zone" />
      <p>Every statement is kept on the phone the moment it is made. No network is needed in the racks.</p>
      <p>
        Where there is a network, the walk names who else is in this audit and at which unit; at a jack that somebody
        else is at, it says so before you check it too.
      </p>
    </div>
  );
}

function Phones() {
  return (
    <div class="desk-part">
      <p>
        The camera, working without a network and lasting storage need an address that begins with https and a
        certificate that the phone trusts. Two ways:
      </p>
      <Steps>
        <li>
          A public name that points to the server’s address in the house, with a certificate got by a DNS challenge and
          renewed by itself. Phones need nothing. This is the better way.
        </li>
        <li>
          The station’s own certificate authority. Its root is installed on every phone; on iOS it has to be switched on
          once more under certificate trust settings.
        </li>
      </Steps>
      <p>
        The server takes both files by ASFOUND_TLS_CERT and ASFOUND_TLS_KEY. Keep one name and one port for ever:
        another address is an empty phone.
      </p>
      <p>
        A certificate that ran out does not lock anybody out of what is on the phone; only sending stops, and says so.
      </p>
      <p>
        A lost phone is removed on the phone that began the station, under Send and receive, or at the server with npm
        run phones.
      </p>
    </div>
  );
}

function Install({ platform, installed }: PageProps) {
  const ios = (
    <>
      <SectionHead strong title="iPhone and iPad" />
      <div class="desk-part">
        <p>There is no question to wait for; it is done by hand.</p>
        <Steps>
          <li>Open the station’s address in Safari.</li>
          <li>Press the share sign in the browser’s bar.</li>
          <li>Choose Add to Home Screen, then Add.</li>
          <li>Open the app from the home screen and pair it there.</li>
        </Steps>
        <p>
          Tab and installed app have separate storage. A code read with the system camera opens the tab: read it inside
          the installed app. Before iOS 18.4 the screen may go dark during a walk; set auto-lock to a longer time.
        </p>
      </div>
    </>
  );
  const android = (
    <>
      <SectionHead strong title="Android" />
      <div class="desk-part">
        <Steps>
          <li>Open the station’s address in the browser.</li>
          <li>Press Install when it is offered, or choose Add to home screen in the browser’s menu.</li>
          <li>Open the app from the home screen.</li>
        </Steps>
      </div>
    </>
  );
  return (
    <>
      <p class="desk-note">
        {installed ? 'This app runs installed.' : 'This app runs in a browser tab just now.'} Removing it, or clearing
        site data, removes everything that was not sent.
      </p>
      {platform === 'android' ? (
        <>
          {android}
          {ios}
        </>
      ) : (
        <>
          {ios}
          {android}
        </>
      )}
    </>
  );
}

function Camera() {
  return (
    <div class="desk-part">
      <p>
        The camera is asked for when you press Start, never before. Pictures stay on the phone; only photos you take are
        kept.
      </p>
      <SectionHead title="If it was refused" level={3} />
      <ul class="help-list">
        <li>iPhone, iPad: Settings, the browser or the app, Camera, Allow. Then open the app anew.</li>
        <li>
          Android: press the sign before the address, or hold the app’s icon and open its information; Permissions,
          Camera.
        </li>
      </ul>
      <SectionHead title="In the walk" level={3} />
      <ul class="help-list">
        <li>Only the label in the circle is taken, and it is outlined; a label beside the circle is not.</li>
        <li>Unused for a minute, the camera rests. Touch its place, or say what you see, and it comes back.</li>
        <li>Camera has zoom, torch and the choice of lens, where the phone offers them.</li>
      </ul>
      <p>Without a camera everything can still be typed, tapped, or read with a hand scanner that types.</p>
      <p>A label without a code is plain text to the app: read it with your eye and press what stands here.</p>
    </div>
  );
}

function Marks() {
  const rows: [JSX.Element, string, string][] = [
    [<TickSymbol key="t" size={1.5} />, 'As planned', 'What was seen is what the plan says.'],
    [<DiffersSymbol key="d" size={1.5} />, 'Differs', 'Plan and floor say different things.'],
    [
      <UndecidedSymbol key="u" size={1.5} />,
      'Air impact unknown',
      'Labels alone cannot tell; a look is owed. Treated as on-air.',
    ],
    [<WarningSign key="w" size={1.5} />, 'Hazard', 'People or equipment can come to harm. Do what the line says.'],
    [<NotSeenSymbol key="n" size={1.5} />, 'Not seen', 'Nobody has looked at this jack.'],
    [
      <CouldNotSeeSymbol key="c" size={1.5} />,
      'Could not be seen, or not opened',
      'Somebody was there and could not look. It is no look.',
    ],
    [<EmptySymbol key="e" size={1.5} />, 'Empty', 'No plug in it.'],
    [<NoLabelSymbol key="l" size={1.5} />, 'No label', 'A cable is in it and bears no label.'],
    [<UnreadableSymbol key="r" size={1.5} />, 'Cannot be read', 'It bears a label that nobody could read.'],
    [<CableLabel key="f" text="1003" />, 'A boxed number', 'A cable’s label as it was read. Jacks are never boxed.'],
    [<CableLabel key="p" text="1003" variant="plan" />, 'In dashes', 'What the plan expects.'],
    [
      <CableLabel key="q" text="1003" variant="predicted" />,
      'In blue dashes',
      'What would be there if an explanation holds; nobody has seen it.',
    ],
  ];
  return (
    <>
      {rows.map(([symbol, title, second]) => (
        <Row key={title} symbol={<span class="help-mark">{symbol}</span>} title={title} second={second} />
      ))}
      <p class="desk-note">
        In the strokes one vertical line is one cable: from end above, to end below. Filled: seen as planned. Open: not
        seen. Red knot: differs. Blue diamond: undecided. A slash alone: left out.
      </p>
    </>
  );
}

function Cautions() {
  return (
    <>
      <p class="desk-note">
        The app never says that something may be pulled, plugged or touched. Local codes, permits of the premises and
        licensed trades come first.
      </p>
      {HAZARDS.map((hazard) => (
        <Row
          key={hazard.id}
          symbol={<WarningSign size={1.5} />}
          title={hazard.title}
          second={
            <>
              <strong>{hazard.severity === 'people' ? 'Hazard to people.' : 'Hazard to equipment.'}</strong>{' '}
              {hazard.caution}
            </>
          }
        />
      ))}
    </>
  );
}

export const TOPICS: readonly Topic[] = [
  { id: 'first-steps', title: 'First steps', line: 'From the sheet to the report.', Page: FirstSteps },
  { id: 'schedule', title: 'What a schedule may look like', line: 'Columns that are understood.', Page: Schedule },
  { id: 'desk-check', title: 'The desk check', line: 'What a sheet gets wrong by itself.', Page: Desk },
  { id: 'revisions', title: 'A newer schedule', line: 'What it changes, and what is kept.', Page: Revisions },
  { id: 'marks', title: 'What the marks mean', line: 'Every symbol with its word.', Page: Marks },
  { id: 'ways', title: 'Ways to walk', line: 'Jack by jack, label first, by radio, from photos.', Page: WaysToWalk },
  { id: 'no-plan', title: 'A place that nobody wrote down', line: 'From nothing to a plan.', Page: NoPlan },
  { id: 'twins', title: 'Cables without a label', line: 'Temporary numbers, twice.', Page: Twins },
  { id: 'build', title: 'Build', line: 'Plugging and recording in one go.', Page: Building },
  { id: 'work', title: 'Work to do', line: 'Steps in order, and the way back.', Page: WorkToDo },
  { id: 'parts', title: 'Adapters, blocks, power', line: 'What is between plug and jack.', Page: PartsHelp },
  { id: 'decisions', title: 'Causes and decisions', line: 'What happened, and what is to be done.', Page: Decisions },
  { id: 'renaming', title: 'Give cables new names', line: 'Both ends first, then the plan.', Page: Renaming },
  { id: 'photos', title: 'Photos and voice notes', line: 'Mark them, pin jacks, read labels later.', Page: Photos },
  { id: 'sending', title: 'Sending and receiving', line: 'What waits, and why.', Page: Sending },
  { id: 'cautions', title: 'Cautions', line: 'What a walk can meet, and who decides.', Page: Cautions },
  { id: 'install', title: 'Put it on the home screen', line: 'iPhone, iPad, Android.', Page: Install },
  { id: 'camera', title: 'The camera', line: 'Permission, and how to do without.', Page: Camera },
  { id: 'phones', title: 'On phones over HTTPS', line: 'For whoever runs the server.', Page: Phones },
];
