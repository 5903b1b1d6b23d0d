// What the app failed at without anybody having expected it: said once for each kind, with the record as a file and a
// way on. Loaded only when that happens. It may end nothing by itself: the page goes on beneath.
import { useSignal } from '@preact/signals';
import { render } from 'preact';
import { Dialog } from './parts/dialog.tsx';
import { ErrorBox } from './parts/rows.tsx';
import type { Services } from './services.ts';

const told = new Set<string>();
let shown: HTMLElement | null = null;

/** @param error Anything that was thrown. A failure that was told before, or while another one stands, is left to the console. */
export function tellFailure(services: Services, error: unknown): void {
  const what = error instanceof Error ? `${error.name}: ${error.message}` : String(error);
  if (shown || told.has(what)) return;
  told.add(what);
  const place = document.createElement('div');
  document.body.append(place);
  shown = place;
  const close = () => {
    render(null, place);
    place.remove();
    shown = null;
  };
  render(<Failed services={services} what={what} close={close} />, place);
}

function Failed({ services, what, close }: { services: Services; what: string; close: () => void }) {
  const made = useSignal<
    { type: 'not-yet' | 'making' } | { type: 'ready'; file: File } | { type: 'failed'; why: string }
  >({
    type: 'not-yet',
  });
  const state = made.value;

  async function make(): Promise<void> {
    made.value = { type: 'making' };
    try {
      made.value = { type: 'ready', file: (await services.prepareBundle()).file };
    } catch (error) {
      made.value = { type: 'failed', why: error instanceof Error ? error.message : String(error) };
    }
  }

  async function hand(file: File): Promise<void> {
    try {
      await services.handOver(file);
    } catch (error) {
      made.value = { type: 'failed', why: error instanceof Error ? error.message : String(error) };
    }
  }

  const file =
    state.type === 'ready'
      ? {
          small: 'It is ready',
          big: 'Save the file',
          onPress: () => void hand(state.file),
        }
      : {
          small: 'Entries, photos, plans',
          big: state.type === 'making' ? 'Making the file' : 'Make a file',
          onPress: () => void make(),
        };
  return (
    <Dialog
      title="Something in the app failed."
      onClose={close}
      rows={[
        [file, { small: 'Restarts the app', big: 'Reload', onPress: () => location.reload() }],
        [{ big: 'Go on', primary: true, onPress: close }],
      ]}
    >
      <ErrorBox
        what="This is a fault of the app, not yours."
        where={what.slice(0, 300)}
        todo="What was recorded is kept on this phone. Check that your last entry is there; if not, enter it again."
      />
      {state.type === 'failed' && (
        <ErrorBox
          what="The file could not be made or saved."
          where={state.why.slice(0, 300)}
          todo="Reload, then make it under Send and receive."
        />
      )}
    </Dialog>
  );
}
