// This phone's own settings: name, look, hand, storage, version. Nothing here is part of the station's record except
// that the name typed here signs what is recorded next.
import { useSignal } from '@preact/signals';
import { useServices } from '../context.ts';
import { AsideSection } from '../drafts/draftsAside.tsx';
import { Choice, Field, PlainButton } from '../parts/form.tsx';
import { Plate, Screen } from '../parts/frame.tsx';
import { Row, SectionHead } from '../parts/rows.tsx';
import { toHome } from '../plan/planParts.tsx';
import { go } from '../router.ts';
import { bytesToWords } from '../words.ts';
import { RemoteSettings } from './settingsRemote.tsx';
import { HandSettings, WalkSettings } from './settingsWalk.tsx';
import '../look/desk.css';

export default function Settings() {
  const services = useServices();
  const settings = services.settings.value;
  const storage = services.storage.value;
  const answer = useSignal<string | null>(null);
  const set = (change: Partial<typeof settings>) => {
    services.settings.value = { ...services.settings.peek(), ...change };
  };
  async function keep(): Promise<void> {
    const persisted = await services.askPersistence();
    answer.value =
      persisted === true
        ? 'The browser agreed: it keeps everything until you remove it.'
        : persisted === false
          ? 'The browser refused. It often agrees once the app is on the home screen.'
          : 'This browser does not answer. Send what you record, or save it as a file.';
  }
  return (
    <Screen
      plate={
        <Plate
          back={{ label: 'Back to the first screen', onPress: toHome }}
          cells={[{ small: 'This phone', big: 'Settings', heading: true }]}
        />
      }
    >
      <SectionHead strong title="You" />
      <div class="desk-part">
        <Field
          label="Your name"
          hint="Shown beside every entry you make from now on. Name as typed; nobody checks it."
          value={settings.author}
          onInput={(author) => set({ author })}
        />
      </div>
      <SectionHead strong title="Appearance" />
      <div class="desk-part">
        <Choice
          legend="Theme"
          value={settings.theme}
          options={[
            { value: 'auto', text: 'As the phone' },
            { value: 'day', text: 'Day' },
            { value: 'night', text: 'Night' },
            { value: 'sunlight', text: 'Sunlight', second: 'highest contrast' },
            { value: 'black', text: 'Black', second: 'for eyes used to the dark' },
          ]}
          stacked
          onChoose={(theme) => set({ theme })}
        />
      </div>
      <HandSettings />
      <WalkSettings />
      <RemoteSettings />
      <SectionHead strong title="Storage on this phone" />
      <div class="desk-part">
        <p role="status">
          {storage.persisted === true
            ? 'The browser keeps everything until you remove it.'
            : storage.persisted === false
              ? 'The browser may delete this app’s storage when the phone runs short of space.'
              : 'This browser does not say whether it keeps the storage.'}
          {storage.usedBytes !== null && ` Used: ${roomToWords(storage.usedBytes)}`}
          {storage.usedBytes !== null && storage.quotaBytes !== null && ` of about ${roomToWords(storage.quotaBytes)}`}
          {storage.usedBytes !== null && '.'}
        </p>
        {answer.value && <p role="status">{answer.value}</p>}
        {storage.persisted !== true && (
          <PlainButton onPress={() => void keep()}>Ask the browser to keep it</PlainButton>
        )}
        {services.platform() === 'ios' && !services.installed() && (
          <p>In a tab, iOS deletes it after some days without a visit. Put the app on the home screen before a walk.</p>
        )}
      </div>
      <AsideSection services={services} />
      <SectionHead strong title="Version" />
      <div class="desk-part">
        <p class="ident">{services.update.version}</p>
        <p>
          {services.update.offlineReady.value
            ? 'The whole app is on this phone and works without a network.'
            : 'Part of the app is not on this phone yet. Stay online for a moment.'}
        </p>
        {services.update.ready.value ? (
          <>
            <p>A newer version is here. It starts only when you press Update now; drafts are kept.</p>
            <PlainButton primary onPress={() => void services.update.apply()}>
              Update now
            </PlainButton>
          </>
        ) : (
          <p class="quiet">No newer version is waiting.</p>
        )}
      </div>
      <Row
        title="The station’s rules"
        second="Channel numbers, subnets, left and right: used by the desk check, on every phone of the station."
        onPress={() => go({ screen: 'site-rules' })}
      />
      <Row
        title="Send and receive"
        second="Server, phones, the whole station as a file."
        onPress={() => go({ screen: 'sync' })}
      />
      <Row title="Help" onPress={() => go({ screen: 'help', topic: null })} />
    </Screen>
  );
}

function roomToWords(bytes: number): string {
  return bytes < 1_000_000_000 ? bytesToWords(bytes) : `${(bytes / 1_000_000_000).toFixed(1)} GB`;
}
