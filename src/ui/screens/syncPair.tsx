// Pairing: the one-time code is typed, or read with the camera inside the app, because a code opened by the phone's own
// camera would land in the browser, which keeps another store.
import { useSignal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import { useServices } from '../context.ts';
import { pairFailureToMessage, scanFailureToMessage } from '../messages.ts';
import { Field, PlainButton } from '../parts/form.tsx';
import { ErrorBox, SectionHead } from '../parts/rows.tsx';

export function PairPart() {
  const services = useServices();
  const code = useSignal('');
  const phone = useSignal(
    services.settings.peek().author ? `Phone of ${services.settings.peek().author}` : 'This phone',
  );
  const trouble = useSignal<{ what: string; todo: string } | null>(null);
  const working = useSignal(false);
  const reading = useSignal(false);

  async function pair(text: string): Promise<void> {
    if (working.value) return;
    working.value = true;
    trouble.value = null;
    const result = await services.sync.pair(text, phone.value.trim() || 'Phone');
    working.value = false;
    if (result.type === 'not-paired') trouble.value = pairFailureToMessage(result.why);
  }

  return (
    <>
      <SectionHead title="Pair with a server" />
      <div class="desk-part">
        <p>
          The server prints a code when it starts, and a new one with <span class="ident">npm run pair</span>. A phone
          that is paired can make one too.
        </p>
        {trouble.value && <ErrorBox what={trouble.value.what} todo={trouble.value.todo} />}
        <Field
          label="Code"
          ident
          value={code.value}
          hint="Ten letters and digits."
          onInput={(value) => {
            code.value = value;
          }}
          onEnter={() => void pair(code.value)}
        />
        <Field
          label="Name of this phone"
          value={phone.value}
          hint="So that a lost one can be told from the others."
          onInput={(value) => {
            phone.value = value;
          }}
        />
        <PlainButton primary disabled={working.value || code.value.trim() === ''} onPress={() => void pair(code.value)}>
          {working.value ? 'Pairing' : 'Pair'}
        </PlainButton>
        <PlainButton
          onPress={() => {
            reading.value = !reading.value;
          }}
        >
          {reading.value ? 'Close the camera' : 'Read the code with the camera'}
        </PlainButton>
        {reading.value && (
          <CodeReader
            onCode={(text) => {
              reading.value = false;
              code.value = text.replace(/^ASFOUND-PAIR:/i, '');
              void pair(text);
            }}
            onTrouble={(message) => {
              reading.value = false;
              trouble.value = message;
            }}
          />
        )}
      </div>
    </>
  );
}

function CodeReader(props: {
  onCode: (text: string) => void;
  onTrouble: (message: { what: string; todo: string }) => void;
}) {
  const services = useServices();
  const place = useRef<HTMLDivElement>(null);
  useEffect(() => {
    let ended = false;
    const camera = services.camera(place.current!);
    void camera.then(async (scanner) => {
      if (ended) return;
      scanner.onReading((reading) => props.onCode(reading.text));
      const result = await scanner.start();
      if (result.type === 'failed') props.onTrouble(scanFailureToMessage(result.failure));
    });
    return () => {
      ended = true;
      void camera.then((scanner) => scanner.stop());
    };
  }, []);
  return <div ref={place} style={{ height: '260px', overflow: 'hidden', background: 'var(--finder-ground)' }} />;
}
