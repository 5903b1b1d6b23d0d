// What the home screen says before there is anything to go on with, and the calm lines about storage and updates.
// No account and no pairing is ever asked for here. Plain buttons: the file of all inputs is no part of the first load.
import { useSignal } from '@preact/signals';
import { useServices } from '../context.ts';
import { ErrorBox, Row, SectionHead } from '../parts/rows.tsx';
import { go } from '../router.ts';

export function HomeFirst() {
  const services = useServices();
  const state = useSignal<{ type: 'ready' } | { type: 'opening' } | { type: 'failed'; why: string }>({ type: 'ready' });
  const openDemo = async () => {
    if (state.value.type === 'opening') return;
    state.value = { type: 'opening' };
    const result = await services.openDemo();
    state.value = result.type === 'saved' ? { type: 'ready' } : { type: 'failed', why: result.why };
  };
  return (
    <>
      <SectionHead title="Begin" />
      <p class="home-line">
        Walk the racks with the plan in hand, and leave with a record of what is really there. Nothing is sent anywhere
        until you say so.
      </p>
      <div class="home-choices">
        <Row
          title="Import a schedule"
          second="A workbook or CSV, messy headings and all. You see how it was read before it counts."
          onPress={() => go({ screen: 'bring-in' })}
        />
        <Row
          title={state.value.type === 'opening' ? 'Opening the demo station' : 'Open the demo station'}
          second="An invented community station with a plan to walk."
          onPress={() => void openDemo()}
        />
        <Row
          title="Begin with no plan"
          second="A place with no paperwork: name its racks, check its jacks, then use the record as the plan."
          onPress={() => go({ screen: 'start-audit' })}
        />
        <Row
          title="Pair with a server"
          second="If somebody at the station gave you a code."
          onPress={() => go({ screen: 'sync' })}
        />
      </div>
      {state.value.type === 'failed' && (
        <ErrorBox
          what="The demo station could not be opened."
          where={state.value.why}
          todo="It comes with the app: open the app once with a network, then try again."
          action={{ text: 'Try again', onPress: () => void openDemo() }}
        />
      )}
      <Row
        title="Help"
        second="What this app does, and a first walk step by step."
        onPress={() => go({ screen: 'help', topic: null })}
      />
      <Row title="Settings" onPress={() => go({ screen: 'settings' })} />
    </>
  );
}

/** A new version waits for a word from the person; it never takes the page away by itself. */
export function UpdateLine() {
  const services = useServices();
  if (!services.update.ready.value) return null;
  return (
    <div class="home-ask">
      <p class="home-line">A new version is here.</p>
      <button type="button" class="plain-button" onClick={() => void services.update.apply()}>
        Update now
      </button>
    </div>
  );
}

/** Storage that the browser may clear, with the one step that changes it. */
export function StorageLine() {
  const services = useServices();
  const refused = useSignal(false);
  if (services.storage.value.persisted !== false) return null;
  const ask = async () => {
    refused.value = (await services.askPersistence()) !== true;
  };
  const home = services.platform() === 'ios' && !services.installed();
  return (
    <div class="home-ask">
      <p class="home-line" role="status">
        {home
          ? 'The browser may delete what is kept here after a few weeks. Use Share, then “Add to Home Screen”, and open it from there.'
          : refused.value
            ? 'The browser does not promise to keep it. Install the app from the browser’s menu, send what you have, or save it as a file under Send and receive.'
            : 'The browser may delete what is kept here when the phone runs short of space.'}
      </p>
      {!home && !refused.value && (
        <button type="button" class="plain-button" onClick={() => void ask()}>
          Ask the browser to keep it
        </button>
      )}
    </div>
  );
}
