// The whole station as one file: made first, handed over on a second tap, and brought in from another phone.
import { useSignal } from '@preact/signals';
import { useServices } from '../context.ts';
import { PlainButton } from '../parts/form.tsx';
import { ErrorBox, SectionHead } from '../parts/rows.tsx';
import type { BundleTaken } from '../services.ts';
import { bytesToWords, count, list } from '../words.ts';

type Out =
  | { type: 'none' }
  | { type: 'making' }
  | { type: 'ready'; file: File; canShare: boolean; told: string | null }
  | { type: 'failed'; why: string };

export function BundlePart() {
  const services = useServices();
  const out = useSignal<Out>({ type: 'none' });
  const taken = useSignal<BundleTaken | { type: 'reading' } | null>(null);

  async function prepare(): Promise<void> {
    out.value = { type: 'making' };
    try {
      out.value = { type: 'ready', ...(await services.prepareBundle()), told: null };
    } catch (error) {
      out.value = { type: 'failed', why: error instanceof Error ? error.message : String(error) };
    }
  }

  async function hand(file: File): Promise<void> {
    const how = await services.handOver(file);
    const now = out.peek();
    if (now.type !== 'ready') return;
    out.value = {
      ...now,
      told: how === 'cancelled' ? 'Not shared; the file is still ready.' : how === 'shared' ? 'Shared.' : 'Saved.',
    };
  }

  async function take(file: File | undefined): Promise<void> {
    if (!file) return;
    taken.value = { type: 'reading' };
    taken.value = await services.takeBundle(file);
  }

  const made = out.value;
  const read = taken.value;
  return (
    <>
      <SectionHead strong title="The whole station as a file" />
      <div class="desk-part">
        <p>
          Entries, photos and plans in one file. It needs no server and no network; any phone with this app can import
          it. Import the file of unsaved entries (not-saved.jsonl) here too.
        </p>
        {made.type === 'ready' ? (
          <>
            <p role="status">
              <span class="ident">{made.file.name}</span>, {bytesToWords(made.file.size)}. {made.told ?? 'It is ready.'}
            </p>
            <PlainButton primary onPress={() => void hand(made.file)}>
              {made.canShare ? 'Share or save it' : 'Save it'}
            </PlainButton>
            <PlainButton onPress={() => void prepare()}>Make it again</PlainButton>
          </>
        ) : (
          <PlainButton disabled={made.type === 'making'} onPress={() => void prepare()}>
            {made.type === 'making' ? 'Making the file' : 'Make the file'}
          </PlainButton>
        )}
        {made.type === 'failed' && (
          <ErrorBox
            what="The file could not be made."
            where={made.why}
            todo="Free some space on the phone, then try again. The record is untouched."
          />
        )}
        <label class="plain-button">
          {' '}
          Import a file{' '}
          <input
            type="file"
            class="only-spoken"
            accept=".zip,application/zip,.jsonl,text/plain"
            onChange={(e) => {
              const input = e.currentTarget;
              void take(input.files?.[0]).then(() => {
                input.value = '';
              });
            }}
          />
        </label>
        {read?.type === 'reading' && <p role="status">Reading the file.</p>}
        {read?.type === 'taken' && (
          <p role="status">
            Imported: {list([count(read.events, 'new entry', 'new entries'), count(read.documents, 'document')])}.
            {read.known > 0 && ` ${count(read.known, 'entry was', 'entries were')} here already.`}
            {read.events === 0 && read.known === 0 && ' Nothing in it belongs to this station.'}
            {read.damaged.length > 0 &&
              ` Damaged and left out: ${read.damaged.slice(0, 5).join('; ')}${read.damaged.length > 5 ? ' …' : ''}.`}
          </p>
        )}
        {read?.type === 'refused' && <ErrorBox what={read.what} todo={`${read.nextStep} Nothing was changed.`} />}
      </div>
    </>
  );
}
