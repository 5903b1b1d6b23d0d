// Pairing by a code, typed or read with the app's own camera. The system's camera would open a browser tab with
// another storage, so the code is never a link.
import { useSignal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import type { ScanFailure, Scanner } from '../../scan/scanner.ts';
import { useServices } from '../context.ts';
import { pairFailureToMessage, scanFailureToMessage } from '../messages.ts';
import { Field, PlainButton } from '../parts/form.tsx';
import { ErrorBox, SectionHead } from '../parts/rows.tsx';
import { textToCode } from './syncCode.ts';

type Trouble = { what: string; todo: string };

export function PairPart({ paired }: { paired: boolean }) {
  const services = useServices();
  const code = useSignal('');
  const phone = useSignal(phoneName(services.settings.peek().author, services.platform()));
  const name = useSignal('');
  const at = useSignal<
    { type: 'idle' } | { type: 'pairing' } | { type: 'failed'; trouble: Trouble } | { type: 'paired'; name: string }
  >({
    type: 'idle',
  });

  async function pair(): Promise<void> {
    if (at.peek().type === 'pairing') return;
    at.value = { type: 'pairing' };
    if (name.value.trim() !== '' && services.stationName.peek() === '')
      await services.record('station-named', { name: name.value.trim() });
    const result = await services.sync.pair(textToCode(code.value), phone.value.trim() || 'phone');
    if (result.type === 'paired') {
      code.value = '';
      at.value = { type: 'paired', name: result.station.name };
    } else at.value = { type: 'failed', trouble: pairFailureToMessage(result.why) };
  }

  if (paired)
    return at.value.type === 'paired' ? (
      <p class="desk-note" role="status">
        Paired with {at.value.name || 'the station'}. Sending begins by itself.
      </p>
    ) : null;
  return (
    <>
      <SectionHead strong title="Pair with the station’s server" />
      <div class="desk-part">
        <p>
          The server prints a code when it starts; a phone that is already paired can make one too. Each works once.
        </p>
        {at.value.type === 'failed' && <ErrorBox what={at.value.trouble.what} todo={at.value.trouble.todo} />}
        <CodeFromCamera
          onCode={(text) => {
            code.value = text;
          }}
        />
        <Field
          label="Code"
          ident
          value={code.value}
          onInput={(text) => {
            code.value = text;
          }}
          onEnter={() => void pair()}
        />
        <Field
          label="Name of this phone"
          hint="So that you can tell it from others, and remove it if it is lost."
          value={phone.value}
          onInput={(text) => {
            phone.value = text;
          }}
        />
        {services.stationName.value === '' && (
          <Field
            label="Name of the station"
            hint="Only if the server has none yet. To join a station, leave it blank."
            value={name.value}
            onInput={(text) => {
              name.value = text;
            }}
          />
        )}
        <PlainButton
          primary
          disabled={at.value.type === 'pairing' || code.value.trim() === ''}
          onPress={() => void pair()}
        >
          {at.value.type === 'pairing' ? 'Asking the server' : 'Pair'}
        </PlainButton>
      </div>
    </>
  );
}

function phoneName(author: string, platform: 'ios' | 'android' | 'other'): string {
  return author ? `${author}’s phone` : platform === 'other' ? 'this computer' : 'phone';
}

function CodeFromCamera({ onCode }: { onCode: (text: string) => void }) {
  const on = useSignal(false);
  const turn = (to: boolean) => () => {
    on.value = to;
  };
  if (!on.value) return <PlainButton onPress={turn(true)}>Read the code with the camera</PlainButton>;
  return (
    <CodeCamera
      onCode={(text) => {
        onCode(text);
        on.value = false;
      }}
      onStop={turn(false)}
    />
  );
}

function CodeCamera(props: { onCode: (text: string) => void; onStop: () => void }) {
  const services = useServices();
  const place = useRef<HTMLDivElement>(null);
  const trouble = useSignal<ScanFailure | null>(null);
  const other = useSignal<string | null>(null);
  useEffect(() => {
    let scanner: Scanner | null = null;
    let live = true;
    const start = async () => {
      if (!place.current) return;
      const made = await services.camera(place.current);
      if (!live) return;
      scanner = made;
      made.onReading(({ text, show }) => {
        if (/^ASFOUND-PAIR:/i.test(text.trim())) props.onCode(textToCode(text));
        else other.value = show.slice(0, 60);
      });
      made.state.subscribe((state) => {
        trouble.value = state.type === 'failed' ? state.failure : null;
      });
      const started = await made.start();
      if (started.type === 'failed') trouble.value = started.failure;
    };
    void start();
    return () => {
      live = false;
      void scanner?.stop();
    };
  }, []);
  const message = trouble.value ? scanFailureToMessage(trouble.value) : null;
  return (
    <div class="code-camera">
      <div ref={place} class="code-camera-picture" />
      {message ? (
        <ErrorBox what={message.what} todo={message.todo} />
      ) : (
        <p role="status">
          {other.value ? `“${other.value}” is not a pairing code. ` : ''}Hold the code in the picture.
        </p>
      )}
      <PlainButton onPress={props.onStop}>Stop the camera</PlainButton>
    </div>
  );
}
