// What else can be said or done at the jack in hand, in groups. Opens sheets and moves; records nothing by itself and
// never says that anything can be done without risk.

import type { ComponentChildren } from 'preact';
import type { PlaceId } from '../../../core/plan/identity.ts';
import { PERMISSION_WORDS } from '../../../core/report/words/recordWords.ts';
import { MoreParts } from '../../describe/partMore.tsx';
import { count } from '../../home/homeWords.ts';
import { Dialog } from '../../parts/dialog.tsx';
import { Row } from '../../parts/rows.tsx';
import { go } from '../../router.ts';
import type { SheetProps } from '../walkSheetProps.ts';
import { MorePhotos } from './walkMorePhotos.tsx';
import type { PhotoSheetState, Sheet } from './walkSheet.ts';
import { placeOf } from './walkSheetsText.tsx';
import { TwinsRow } from './walkTwins.tsx';

function Group(props: { title: string; children: ComponentChildren }) {
  return (
    <section class="walk-group" aria-label={props.title}>
      <h3>{props.title}</h3>
      {props.children}
    </section>
  );
}

/** Sheets that need nothing but their name. */
type PlainSheet = Exclude<
  Sheet['type'],
  'candidates' | 'named' | 'unlikely' | 'earlier' | 'follow' | 'change' | 'note' | 'photo' | PhotoSheetState['type']
>;

type GroupName = 'say' | 'photos' | 'go' | 'build' | 'relabel' | 'labels' | 'describe' | 'audit';
const USUAL_ORDER: readonly GroupName[] = ['say', 'go', 'photos', 'labels', 'describe', 'audit'];
/** What the occasion is about stands first; what is not of it stays away or comes later. */
const ORDER: Partial<Record<string, readonly GroupName[]>> = {
  inherit: ['say', 'labels', 'describe', 'photos', 'go', 'audit'],
  relabel: ['relabel', 'say', 'go', 'photos', 'labels', 'describe', 'audit'],
  build: ['build', 'say', 'go', 'photos', 'labels', 'describe', 'audit'],
};

export function MoreSheet({ flow, camera, close }: SheetProps) {
  const view = flow.view.value;
  const at = placeOf(flow);
  if (!view || view === 'loading' || !at) return null;
  const open = (type: PlainSheet) => () => {
    flow.sheet.value = { type };
  };
  const state = (said: 'plugged' | 'blanked') => () => {
    close();
    void flow.sayState(said);
  };
  const jump = (place: PlaceId | null) => () => {
    close();
    void flow.moveTo(place);
  };
  const renaming = (
    <Row
      title="Renaming"
      second="The list of old and new names, what is half done, bring one in."
      onPress={() => go({ screen: 'renaming', audit: flow.audit, place: at.place })}
    />
  );
  const groups: Record<GroupName, ComponentChildren> = {
    say: (
      <Group key="say" title="Say it">
        <Row
          title="A row at once"
          second="Several jacks that are all empty, without label, or out of sight: one act, one undo."
          onPress={() => {
            close();
            flow.mode.value = 'range';
          }}
        />
        <Row title="Plugged, label not in view" onPress={state('plugged')} />
        <Row title="Blanked" second="A blanking plug or plate: nothing can be plugged in." onPress={state('blanked')} />
        <Row title="Not opened" second="You may not or will not; say why." onPress={open('refused')} />
        <Row title="Hazard seen" second="Mains, earth, strain, fibre, height and more." onPress={open('hazard')} />
      </Group>
    ),
    photos: <MorePhotos key="photos" flow={flow} camera={camera} close={close} />,
    go: (
      <Group key="go" title="Go elsewhere">
        <Row
          title="Which way?"
          second="Along the jacks or along the cables; racks, front or rear, from the top, from the left."
          onPress={open('way')}
        />
        <Row
          title="Which ends are left?"
          second="The nearest open end, and how long the rest may take."
          onPress={open('ends')}
        />
        <Row
          title="Far end by radio"
          second="One question at a time for a helper; the answer is recorded as told, by name."
          onPress={open('radio')}
        />
        <Row
          title="Label first"
          second="Read any cable in the bundle, then touch the jack where it goes."
          onPress={() => {
            close();
            flow.labelFirst(true);
          }}
        />
        {view.next && <Row title="Next jack, nothing said" onPress={jump(view.next)} />}
        {view.previous && <Row title="Previous jack" onPress={jump(view.previous)} />}
        <Row title="Go to another unit" second={`${count(view.leftAll, 'jack')} left in all`} onPress={open('jump')} />
      </Group>
    ),
    build: (
      <Group key="build" title="Build">
        <Row title="Work on this end" second="Pulled, landed, tested, labelled." onPress={open('work')} />
        <Row
          title="What is left to build"
          second="Ends that want something, nearest first; changes and lash-ups."
          onPress={open('left-to-build')}
        />
      </Group>
    ),
    relabel: (
      <Group key="relabel" title="Renaming">
        {renaming}
      </Group>
    ),
    labels: (
      <Group key="labels" title="Labels">
        <TwinsRow flow={flow} onPress={open('twins')} />
        <Row
          title="Jacket and metre mark"
          second="Text and running number along the cable: which other end fits, without touching."
          onPress={open('jacket')}
        />
      </Group>
    ),
    describe: (
      <Group key="describe" title="Describe">
        <MoreParts flow={flow} close={close} view={view} />
        <Row
          title="A unit or rack that the plan does not have"
          second="Its place and its jacks; then they are walked like the others."
          onPress={() => {
            close();
            go({ screen: 'describe', audit: flow.audit, what: null, label: null });
          }}
        />
        <Row title="Unit here" second="What sits at a rack position." onPress={open('unit-here')} />
        <Row title="Loose end" second="A cable that is in no jack." onPress={open('loose')} />
        <Row
          title={`Read off ${at.unitLabel}`}
          second="A setting from its page, screen or knobs."
          onPress={open('setting')}
        />
      </Group>
    ),
    audit: (
      <Group key="audit" title="This audit">
        <Row
          title="For the window"
          second="What needs a hand, a key or another time, with why."
          onPress={open('window')}
        />
        <Row title="What you may do" right={PERMISSION_WORDS[view.permission].text} onPress={open('permission')} />
        {view.occasion !== 'relabel' && renaming}
        <Row
          title="Add a rack, room or unit"
          second="This audit covers more from now on; the report says who added it."
          onPress={open('scope')}
        />
        <Row title="Close the audit" onPress={open('finish')} />
      </Group>
    ),
  };
  return (
    <Dialog title={`More at ${at.words}`} onClose={close} rows={[[{ big: 'Back out', onPress: close }]]}>
      {(ORDER[view.occasion] ?? USUAL_ORDER).map((name) => groups[name])}
    </Dialog>
  );
}
