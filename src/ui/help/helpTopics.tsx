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
          Import the cable schedule as it is: XLSX, ODS, CSV or a web page’s table (some .xls files are one), ordinary
          column names. You see how every row was read before it becomes the plan.
        </li>
        <li>Begin an audit: why you walk, which racks and rooms, what you leave out and why, and what you may do.</li>
        <li>
          Stand at the rack. The app names the next jack. Aim at its label. Or read it yourself and press Reads with the
          planned label, Empty, No label, Can’t read it or Can’t see it.
        </li>
        <li>
          A difference does not stop you. One line says what it is; More opens it; Photo and Note stay with the jack.
        </li>
        <li>Going live pauses camera and sound. The place is kept.</li>
        <li>
          Settings has tones, spoken words and vibration for each verdict, gloves, left or right hand, themes for sun
          and dark, and keys of a small remote. All sound is off until you turn it on; “Sound on” in the bar silences it
          beside a live microphone.
        </li>
        <li>Differences lists what differs, worst first. Report makes the record to pass on.</li>
      </Steps>
      <Picture name="walk" alt="The walk at a jack, with the verdict above the thumb zone" />
      <p>Every entry is saved on the phone the moment you make it. You need no network at the racks.</p>
      <p>
        With a network, the walk shows who else is in this audit and at which unit; if somebody is at your jack, it says
        so before you check it too.
      </p>
    </div>
  );
}

function Phones() {
  return (
    <div class="desk-part">
      <p>
        The camera, offline use and lasting storage need an address that begins with https and a certificate the phone
        trusts. Two ways:
      </p>
      <Steps>
        <li>
          A public name that points to the server’s address in the house, with a certificate obtained over DNS and
          renewed automatically. Phones need nothing. This is the better way.
        </li>
        <li>
          The station’s own certificate authority. Install its root on every phone; on iOS also switch it on under
          certificate trust settings.
        </li>
      </Steps>
      <p>
        The server takes both files by ASFOUND_TLS_CERT and ASFOUND_TLS_KEY. Never change the name or port: at another
        address a phone finds an empty app.
      </p>
      <p>An expired certificate locks nobody out of what is on the phone; only sending stops, and says so.</p>
      <p>
        Remove a lost phone on the phone that began the station, under Send and receive, or at the server with npm run
        phones.
      </p>
    </div>
  );
}

function Install({ platform, installed }: PageProps) {
  const ios = (
    <>
      <SectionHead strong title="iPhone and iPad" />
      <div class="desk-part">
        <p>The phone does not offer it; do it by hand.</p>
        <Steps>
          <li>Open the station’s address in Safari.</li>
          <li>Press the share button in the browser’s bar.</li>
          <li>Choose Add to Home Screen, then Add.</li>
          <li>Open the app from the home screen and pair it there.</li>
        </Steps>
        <p>
          The browser tab and the installed app have separate storage. A code read with the system camera opens the tab:
          read it inside the installed app. Before iOS 18.4 the screen may go dark during a walk; set auto-lock to a
          longer time.
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
        {installed ? 'You are using the installed app.' : 'You are using the app in a browser tab.'} Removing it, or
        clearing site data, deletes everything that was not sent.
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
        The app asks for the camera when you press Start, never before. Pictures stay on the phone; only photos you take
        are kept.
      </p>
      <SectionHead title="If you refused it" level={3} />
      <ul class="help-list">
        <li>iPhone, iPad: Settings, the browser or the app, Camera, Allow. Then open the app again.</li>
        <li>
          Android: press the sign in front of the address, or hold the app’s icon and open its information; Permissions,
          Camera.
        </li>
      </ul>
      <SectionHead title="In the walk" level={3} />
      <ul class="help-list">
        <li>Only the label in the circle is read, and it gets an outline; a label beside the circle is not read.</li>
        <li>After a minute without use the camera rests. Touch it, or record what you see, and it comes back.</li>
        <li>Camera has zoom, torch and the choice of lens, where the phone offers them.</li>
      </ul>
      <p>Without a camera you can still type, tap, or use a hand scanner that types.</p>
      <p>A label without a code is plain text: read it yourself and press what is here.</p>
    </div>
  );
}

function Marks() {
  const rows: [JSX.Element, string, string][] = [
    [<TickSymbol key="t" size={1.5} />, 'As planned', 'What was seen is what the plan says.'],
    [<DiffersSymbol key="d" size={1.5} />, 'Differs', 'The plan and what was seen are not the same.'],
    [
      <UndecidedSymbol key="u" size={1.5} />,
      'Air impact unknown',
      'Labels alone cannot tell; a check is still to do. Treated as on-air.',
    ],
    [<WarningSign key="w" size={1.5} />, 'Hazard', 'People or equipment can come to harm. Do what the line says.'],
    [<NotSeenSymbol key="n" size={1.5} />, 'Not seen', 'Nobody has looked at this jack.'],
    [
      <CouldNotSeeSymbol key="c" size={1.5} />,
      'Could not be seen, or not checked',
      'Somebody was there and could not look. It does not count as checked.',
    ],
    [<EmptySymbol key="e" size={1.5} />, 'Empty', 'No plug in it.'],
    [<NoLabelSymbol key="l" size={1.5} />, 'No label', 'There is a cable in it, without a label.'],
    [<UnreadableSymbol key="r" size={1.5} />, 'Cannot be read', 'There is a label that nobody could read.'],
    [<CableLabel key="f" text="1003" />, 'A boxed number', 'A cable’s label as it was read. Jacks are never boxed.'],
    [<CableLabel key="p" text="1003" variant="plan" />, 'In dashes', 'What the plan expects.'],
    [
      <CableLabel key="q" text="1003" variant="predicted" />,
      'In blue dashes',
      'What would be there if a cause is right; nobody has seen it.',
    ],
  ];
  return (
    <>
      {rows.map(([symbol, title, second]) => (
        <Row key={title} symbol={<span class="help-mark">{symbol}</span>} title={title} second={second} />
      ))}
      <p class="desk-note">
        In the bar of strokes, one vertical line is one cable: from end on top, to end below. Filled: seen as planned.
        Open: not seen. Red knot: differs. Blue diamond: air impact unknown. A slash alone: left out.
      </p>
    </>
  );
}

function Cautions() {
  return (
    <>
      <p class="desk-note">
        The app never says that something may be pulled, plugged or touched. Local codes, site permits and licensed
        trades come first.
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
  { id: 'desk-check', title: 'The desk check', line: 'What is wrong on paper.', Page: Desk },
  { id: 'revisions', title: 'A newer schedule', line: 'What it changes, and what stays.', Page: Revisions },
  { id: 'marks', title: 'What the marks mean', line: 'Every symbol with its word.', Page: Marks },
  { id: 'ways', title: 'Ways to walk', line: 'Jack by jack, label first, by radio, from photos.', Page: WaysToWalk },
  { id: 'no-plan', title: 'A place with no paperwork', line: 'From nothing to a plan.', Page: NoPlan },
  { id: 'twins', title: 'Cables without a label', line: 'Temporary tags, in pairs.', Page: Twins },
  { id: 'build', title: 'Build', line: 'Plug and record in one go.', Page: Building },
  { id: 'work', title: 'Work to do', line: 'Steps in order, and how to roll back.', Page: WorkToDo },
  { id: 'parts', title: 'Adapters, blocks, power', line: 'What is between plug and jack.', Page: PartsHelp },
  { id: 'decisions', title: 'Causes and decisions', line: 'What happened, and what to do.', Page: Decisions },
  { id: 'renaming', title: 'Give cables new names', line: 'Both ends first, then the plan.', Page: Renaming },
  { id: 'photos', title: 'Photos and voice notes', line: 'Mark them, pin jacks, read labels later.', Page: Photos },
  { id: 'sending', title: 'Sending and receiving', line: 'What waits, and why.', Page: Sending },
  { id: 'cautions', title: 'Cautions', line: 'What a walk can meet, and who decides.', Page: Cautions },
  { id: 'install', title: 'Put it on the home screen', line: 'iPhone, iPad, Android.', Page: Install },
  { id: 'camera', title: 'The camera', line: 'Permission, and how to do without.', Page: Camera },
  { id: 'phones', title: 'On phones over HTTPS', line: 'For whoever runs the server.', Page: Phones },
];
