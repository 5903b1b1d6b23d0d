// Settings of this phone. They are saved as they are changed.
import { useServices } from '../context.ts';
import { Choice, Field, PlainButton } from '../parts/form.tsx';
import { Plate, Screen } from '../parts/frame.tsx';
import { SectionHead } from '../parts/rows.tsx';
import { go } from '../router.ts';
import type { PhoneSettings } from '../services.ts';
import '../look/desk.css';

export default function Settings() {
  const services = useServices();
  const settings = services.settings.value;
  const set = (change: Partial<PhoneSettings>) => {
    services.settings.value = { ...services.settings.value, ...change };
  };
  const { persisted, usedBytes, quotaBytes } = services.storage.value;
  return (
    <Screen
      plate={
        <Plate
          back={{ label: 'Back to the station', onPress: () => go({ screen: 'home' }) }}
          cells={[{ small: 'This phone', big: 'Settings', heading: true }]}
        />
      }
    >
      <div class="desk-part">
        <Field
          label="Your name"
          value={settings.author}
          hint="It stands beside everything you say. Typed, not proven."
          onInput={(author) => set({ author })}
        />
        <Choice
          legend="Light"
          options={[
            { value: 'auto', text: 'As the phone' },
            { value: 'day', text: 'Day' },
            { value: 'night', text: 'Night' },
          ]}
          value={settings.theme}
          onChoose={(theme) => set({ theme })}
        />
        <Choice
          legend="Thumb"
          options={[
            { value: 'right', text: 'Right hand' },
            { value: 'left', text: 'Left hand' },
          ]}
          value={settings.hand}
          onChoose={(hand) => set({ hand })}
        />
      </div>
      <SectionHead title="Storage" />
      <div class="desk-part">
        <p>
          {persisted === true
            ? 'The browser has promised to keep the record.'
            : persisted === false
              ? 'The browser has not promised to keep the record. It may clear it when space runs short or the app is not used for long.'
              : 'This browser does not say whether it keeps the record.'}{' '}
          {usedBytes !== null && `Used: ${megabytes(usedBytes)}`}
          {quotaBytes !== null && ` of ${megabytes(quotaBytes)}.`}
        </p>
        {persisted !== true && (
          <PlainButton onPress={() => void services.askPersistence()}>Ask the browser to keep it</PlainButton>
        )}
        {!services.installed() && (
          <PlainButton onPress={() => go({ screen: 'help', topic: 'install' })}>
            Put the app on the home screen
          </PlainButton>
        )}
      </div>
      <SectionHead title="Version" />
      <div class="desk-part">
        <p>
          <span class="ident">{services.update.version}</span>.{' '}
          {services.update.offlineReady.value
            ? 'Everything is on this phone; no network is needed.'
            : 'Not yet complete on this phone: keep it open with a network for a moment.'}
        </p>
        {services.update.ready.value && (
          <PlainButton primary onPress={() => void services.update.apply()}>
            Update now
          </PlainButton>
        )}
      </div>
    </Screen>
  );
}

function megabytes(bytes: number): string {
  return bytes < 1e9 ? `${(bytes / 1e6).toFixed(1)} MB` : `${(bytes / 1e9).toFixed(1)} GB`;
}
