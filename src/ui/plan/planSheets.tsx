// The schedule as a sheet: made first, handed over on a second tap, since sharing needs a fresh one. What the columns of
// the sheet cannot say is told. Nothing is changed here.
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { errorToWhy, useAsked, useServices } from '../context.ts';
import { PlainButton } from '../parts/form.tsx';
import { Progress } from '../parts/progress.tsx';
import { ErrorBox, Row, SectionHead } from '../parts/rows.tsx';
import type { PlanFiles } from '../services.ts';
import { bytesToWords, count, handedToWords } from '../words.ts';

type Made =
  | { type: 'none' }
  | { type: 'making'; stop: AbortController }
  | { type: 'cancelled' }
  | (Extract<PlanFiles, { type: 'files' }> & { of: string })
  | { type: 'failed'; why: string };

export function PlanSheets() {
  const services = useServices();
  const force = useAsked('planInForce', {});
  const made = useSignal<Made>({ type: 'none' });
  const told = useSignal<string | null>(null);
  const share = useSignal(0);
  const revision = force.type === 'ready' ? (force.value?.revision ?? '') : '';

  async function make(as: 'xlsx' | 'csv'): Promise<void> {
    if (made.value.type === 'making') return;
    const stop = new AbortController();
    made.value = { type: 'making', stop };
    told.value = null;
    share.value = 0;
    const onShare = (now: number) => {
      share.value = now;
    };
    const files = await services
      .planFiles(as, onShare, stop.signal)
      .catch((error: unknown) => ({ type: 'failed', why: errorToWhy(error) }) as const);
    made.value = files.type === 'files' ? { ...files, of: revision } : files;
  }
  // Nobody waits for it any more.
  useEffect(
    () => () => {
      const now = made.peek();
      if (now.type === 'making') now.stop.abort();
    },
    [],
  );

  async function hand(file: File): Promise<void> {
    told.value = handedToWords(await services.handOver(file), file.name);
  }

  // Files of a plan that is no longer in force are not handed over.
  const at: Made = made.value.type === 'files' && made.value.of !== revision ? { type: 'none' } : made.value;
  return (
    <section aria-label="The schedule as a sheet">
      <SectionHead title="The schedule as a sheet" />
      {at.type === 'files' && <Ready made={at} told={told.value} onFile={(file) => void hand(file)} />}
      {at.type === 'making' && (
        <div class="desk-part" role="status">
          <p>Making the sheet. The app stays usable meanwhile.</p>
          <Progress label="Made so far" share={share.value} />
        </div>
      )}
      {at.type !== 'files' && at.type !== 'making' && (
        <p class="desk-note" role="status">
          {at.type === 'cancelled' && 'Cancelled; no sheet was made. '}The file it was read from with only the changed
          cells touched and marked; otherwise a new one, in its columns or in the app’s own. Imported again, it gives
          the same plan.
        </p>
      )}
      {at.type === 'failed' && (
        <ErrorBox what="The sheet could not be made." where={at.why} todo="Try again. The plan is untouched." />
      )}
      <div class="desk-part">
        {at.type === 'making' ? (
          <PlainButton onPress={() => at.stop.abort()}>Cancel</PlainButton>
        ) : (
          <>
            <PlainButton onPress={() => void make('xlsx')}>Make XLSX</PlainButton>
            <PlainButton onPress={() => void make('csv')}>Make CSV</PlainButton>
          </>
        )}
      </div>
    </section>
  );
}

function Ready(props: {
  made: Extract<PlanFiles, { type: 'files' }>;
  told: string | null;
  onFile: (file: File) => void;
}) {
  const { files, form, kept, spoiled, amended, left, sourceMissing, settledElsewhere } = props.made;
  return (
    <>
      <p class="desk-note" role="status">
        {props.told ??
          (form === 'source'
            ? `In the columns of its own sheet, ${amended === 0 ? 'no cell changed' : count(amended, 'cell changed', 'cells changed')}. Ready: tap again to share or save it.`
            : 'In the app’s own columns. Ready: tap again to share or save it.')}
      </p>
      {form === 'source' && <p class="desk-note">{keptToWords(kept, files)}</p>}
      {spoiled.n > 0 && (
        <p class="desk-note">
          A spreadsheet changes {count(spoiled.n, 'cell', 'cells')} when it opens this CSV, such as{' '}
          {spoiled.first.map(({ text, row }) => `${text} in row ${row}`).join(', ')}. Import it there as text, or make
          XLSX.
        </p>
      )}
      {sourceMissing && (
        <p class="desk-note">
          The sheet the plan was read from is not on this phone. Send and receive fetches it; then its own columns can
          be used.
        </p>
      )}
      {settledElsewhere && (
        <p class="desk-note">
          The answers given to this sheet are not on this phone: it is read by its own column names, and what was read
          differently is marked as changed.
        </p>
      )}
      {files.length > 1 && <p class="desk-note">One file for each list. Import them together.</p>}
      {files.map((file) => (
        <Row
          key={file.name}
          title={file.name}
          right={bytesToWords(file.size)}
          second="Share or save it"
          onPress={() => props.onFile(file)}
        />
      ))}
      {left.n > 0 && (
        <details class="desk-fold">
          <summary>Does not fit in its columns: {count(left.n, 'item')}</summary>
          <ul class="desk-changes">
            {left.first.map((line, i) => (
              <li key={i}>{line}</li>
            ))}
          </ul>
          {left.n > left.first.length && <p class="desk-note">And {left.n - left.first.length} more.</p>}
        </details>
      )}
    </>
  );
}

function keptToWords(kept: Extract<PlanFiles, { type: 'files' }>['kept'], files: readonly File[]): string {
  switch (kept.type) {
    case 'original':
      return files.some(({ name }) => /\.xls[xm]$/i.test(name))
        ? 'Your own workbook: changed cells are tinted, rows no longer in the plan are struck through, new rows are at the end, and the column Amended says what stood there. Formats, comments, formulas and other sheets are as they were.'
        : 'Your own file: only changed cells differ, and the column Amended says what stood there.';
    case 'made':
      return 'A new file in its columns: formats and comments of the original are not in it.';
    case 'not-in-place':
      return `A new file in its columns, without the formats and comments of the original: that could not be changed in place (${kept.why}).`;
  }
}
