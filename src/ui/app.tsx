// The shell: one screen at a time by route, the NOT SAVED bar above everything, and a way out when a screen fails.
// Screens but the home are loaded when they are first opened; the service worker has them all on the phone by then.
import { useSignal } from '@preact/signals';
import { Component, type ComponentChildren, type ComponentType } from 'preact';
import { useEffect } from 'preact/hooks';
import { useServices } from './context.ts';
import Home from './home/home.tsx';
import { counted } from './inHand.ts';
import { Empty, ErrorBox, NotSavedBar } from './parts/rows.tsx';
import { go, type Route, route } from './router.ts';
import { count } from './words.ts';

type Screens = { [S in Route['screen']]: () => Promise<{ default: ComponentType<never> }> };

const screens: Omit<Screens, 'home'> = {
  'bring-in': () => import('./bring-in/bringIn.tsx'),
  'desk-check': () => import('./bring-in/deskCheck.tsx'),
  'site-rules': () => import('./settings/siteRules.tsx'),
  plan: () => import('./plan/plan.tsx'),
  search: () => import('./plan/search.tsx'),
  cable: () => import('./plan/cable.tsx'),
  'start-audit': () => import('./home/startAudit.tsx'),
  walk: () => import('./walk/walk.tsx'),
  differences: () => import('./differences/differences.tsx'),
  fixes: () => import('./fixes/fixes.tsx'),
  report: () => import('./report/report.tsx'),
  photos: () => import('./photos/photosRead.tsx'),
  renaming: () => import('./renaming/renaming.tsx'),
  describe: () => import('./describe/describe.tsx'),
  'make-plan': () => import('./plan/makePlan.tsx'),
  labels: () => import('./renaming/labels.tsx'),
  sync: () => import('./station/sync.tsx'),
  help: () => import('./help/help.tsx'),
  settings: () => import('./settings/settings.tsx'),
  'not-found': () => import('./notFound.tsx'),
};

export function App() {
  const services = useServices();
  const { theme, hand, feel } = services.settings.value;
  useEffect(() => {
    const root = document.documentElement;
    if (theme === 'auto') root.removeAttribute('data-theme');
    else root.dataset.theme = theme;
    root.dataset.hand = hand;
    root.dataset.gloves = String(feel?.gloves);
  }, [theme, hand, feel]);
  const notSaved = services.notSaved.value;
  return (
    <>
      <NotSavedBar
        text={notSaved.count > 0 ? notSavedText(notSaved) : undefined}
        actions={[
          { text: 'Try again', onPress: () => void services.retrySaving() },
          { text: 'Save as file', onPress: () => void services.exportUnsaved() },
        ]}
      />
      <Boundary key={route.value.screen}>
        <Current />
      </Boundary>
    </>
  );
}

function notSavedText({ count: n, why, copied }: { count: number; why: string | null; copied: boolean }): string {
  const what = count(n, 'entry is', 'entries are');
  const full = why === 'full' ? ': the phone is full' : '';
  return copied
    ? `${what} not in this phone’s record yet${full}. A copy is kept and goes in at the next start.`
    : `${what} only in memory${full}. Do not close the app.`;
}

function Current() {
  const { screen, ...props } = route.value;
  if (screen === 'home') return <Home />;
  return <Lazy key={screen} screen={screen} load={screens[screen]} props={props} />;
}

const loaded = new Map<string, ComponentType<never>>();

function Lazy({
  screen,
  load,
  props,
}: {
  screen: string;
  load: () => Promise<{ default: ComponentType<never> }>;
  props: object;
}) {
  const failed = useSignal(false);
  const here = useSignal(loaded.get(screen) ?? null);
  useEffect(() => {
    if (here.value) return;
    counted(load()).then(
      (module) => {
        loaded.set(screen, module.default);
        here.value = module.default;
      },
      () => {
        failed.value = true;
      },
    );
  }, [screen]);
  if (failed.value) {
    return (
      <ErrorBox
        what="This screen could not be loaded."
        where="It is not on the phone, and the server does not answer."
        todo="Go back, or reload where there is a network. Nothing recorded is lost."
        action={{ text: 'Reload', onPress: () => location.reload() }}
      />
    );
  }
  const Found = here.value as ComponentType<object> | null;
  return Found ? <Found {...props} /> : <Empty what="Loading" />;
}

/** A bug in a screen must not hide the record: say so, offer the way home and the unsaved statements as a file. */
class Boundary extends Component<{ children: ComponentChildren }, { error: string | null }> {
  override state = { error: null };
  static override getDerivedStateFromError(error: unknown) {
    return { error: error instanceof Error ? error.message : String(error) };
  }
  override componentDidCatch(error: unknown) {
    console.error(error);
  }
  override render() {
    if (this.state.error === null) return this.props.children;
    return (
      <ErrorBox
        what="This screen failed."
        where={this.state.error}
        todo="What was recorded is kept on this phone. Go on from the first screen."
        action={{
          text: 'First screen',
          onPress: () => {
            this.setState({ error: null });
            go({ screen: 'home' }, 'replace');
          },
        }}
      />
    );
  }
}
