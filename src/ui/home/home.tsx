// The station's home: its name, and what a phone without any plan begins with. It is in the first load, so it stays small;
// audits and what is owed next (homeStation.tsx) come with the first of them.
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { HomeView } from '../../core/report/walk/homeView.ts';
import { useAsked, useServices } from '../context.ts';
import { counted } from '../inHand.ts';
import { Plate, Screen } from '../parts/frame.tsx';
import { ErrorBox } from '../parts/rows.tsx';
import { go } from '../router.ts';
import { HomeFirst, StorageLine, UpdateLine } from './homeFirst.tsx';
import type { HomeStation } from './homeStation.tsx';
import { planToShort, unsentCount } from './homeWords.ts';
import '../look/home.css';

export default function Home() {
  const services = useServices();
  const early = useSignal<HomeView | null>(null);
  useEffect(() => {
    void services.homeAtOnce().then((view) => {
      early.value = view;
    });
  }, []);
  const asked = useAsked('home', {});
  const view = asked.type === 'ready' ? asked.value : early.value;
  const unsent = services.unsent.value;
  const name = services.stationName.value || view?.name || '';
  const plate = (
    <Plate
      cells={[
        { small: 'Station', big: name || 'No name yet', heading: true, wide: true },
        { small: 'Plan', big: planToShort(view?.plan ?? null), onPress: () => go({ screen: 'plan' }) },
        { small: 'Not sent', big: String(unsentCount(unsent)), onPress: () => go({ screen: 'sync' }) },
      ]}
    />
  );
  if (asked.type === 'failed') {
    return (
      <Screen plate={plate}>
        <ErrorBox
          what="The record could not be read."
          where={asked.why}
          todo="Nothing is lost: what you recorded is on this phone. Load the page again; if that does not help, see Settings."
          action={{ text: 'Load again', onPress: () => location.reload() }}
        />
      </Screen>
    );
  }
  if (view !== null && isNew(view)) {
    return (
      <Screen plate={plate}>
        <UpdateLine />
        <HomeFirst />
        <StorageLine />
      </Screen>
    );
  }
  return <Station plate={plate} view={view} />;
}

const isNew = (view: HomeView) => !view.plan && view.audits.length === 0;

/** Name and plan stand without what comes after the first answer. */
function Station(props: Parameters<typeof HomeStation>[0]) {
  const part = useSignal<{ Shown: typeof HomeStation } | null>(null);
  const wanted = props.view !== null;
  useEffect(() => {
    if (!wanted) return;
    void counted(import('./homeStation.tsx')).then(({ HomeStation: Shown }) => {
      part.value = { Shown };
    });
  }, [wanted]);
  const loaded = part.value;
  return loaded ? (
    <loaded.Shown {...props} />
  ) : (
    <Screen plate={props.plate}>
      <p class="home-line">Opening the record.</p>
    </Screen>
  );
}
