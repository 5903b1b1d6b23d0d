// Brings in a schedule: choose, read in a worker, show how every row was read, and adopt only on a press. Nothing is
// recorded before that, and a file that cannot be read costs nothing.
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { errorToWhy, useAsked, useServices } from '../context.ts';
import { BRING_IN } from '../drafts/deskDrafts.ts';
import { PlainButton } from '../parts/form.tsx';
import { Plate, Screen, TitleBlock } from '../parts/frame.tsx';
import { Progress } from '../parts/progress.tsx';
import { ErrorBox, Row, SectionHead } from '../parts/rows.tsx';
import { go } from '../router.ts';
import type { SheetProgress, SheetRead } from '../services.ts';
import { BringInPreview } from './bringInPreview.tsx';
import { type BringInDraft, DRAFT, isSettled, knownShapes, type Settled } from './sheetSettling.ts';
import { progressToWords } from './sheetWords.ts';
import '../look/desk.css';
import '../look/sheets.css';

type Trouble = { what: string; where: string | null; todo: string };
type Step =
  | { type: 'choose'; trouble: Trouble | null }
  | { type: 'reading'; stop: AbortController }
  | { type: 'preview'; read: Settled; file: string };

const BEGINNING: SheetProgress = { share: 0, rows: 0, of: 0 };

export default function BringIn() {
  const services = useServices();
  const step = useSignal<Step>({ type: 'choose', trouble: null });
  const progress = useSignal(BEGINNING);
  const left = useSignal<BringInDraft | null>(null);
  const choose = (trouble: Trouble | null = null) => {
    step.value = { type: 'choose', trouble };
    void services.draft(DRAFT, BRING_IN).then((kept) => {
      left.value = kept && isSettled(kept) ? kept : null;
    });
  };
  useEffect(() => {
    choose();
    return () => {
      const now = step.peek();
      if (now.type === 'reading') now.stop.abort();
    };
  }, []);

  /** Something is always answered: a screen that waits for a reading must not wait for ever. */
  async function readFiles(chosen: File[], signal: AbortSignal): Promise<SheetRead> {
    try {
      const bytes = await Promise.all(
        chosen.map(async (file) => ({ name: file.name, bytes: await file.arrayBuffer() })),
      );
      const onProgress = (now: SheetProgress) => {
        progress.value = now;
      };
      return await services.readSheet(bytes, await knownShapes(services), onProgress, signal);
    } catch (error) {
      const nextStep = 'Check that the file is still where it was, then choose it again.';
      return { type: 'refused', what: 'The file was not read.', where: errorToWhy(error), nextStep };
    }
  }

  async function take(files: FileList | File[] | null): Promise<void> {
    const chosen = [...(files ?? [])];
    if (chosen.length === 0) return;
    const [first] = chosen;
    if (chosen.length === 1 && first && /\.asfound\.zip$|\.zip$/i.test(first.name)) return takeBundle(first);
    const stop = new AbortController();
    progress.value = BEGINNING;
    step.value = { type: 'reading', stop };
    const read = await readFiles(chosen, stop.signal);
    if (read.type === 'refused') choose({ what: read.what, where: read.where, todo: read.nextStep });
    else step.value = { type: 'preview', read, file: chosen.map((file) => file.name).join(', ') };
  }

  async function takeBundle(file: File): Promise<void> {
    const taken = await services.takeBundle(file);
    if (taken.type === 'taken') {
      go({ screen: 'home' }, 'replace');
      return;
    }
    step.value = { type: 'choose', trouble: { what: taken.what, where: file.name, todo: taken.nextStep } };
  }

  // Only an empty phone may open the demo: elsewhere it would put another plan in force.
  const home = useAsked('home', {});
  const empty = home.type === 'ready' && home.value.plan === null && home.value.audits.length === 0;
  async function openDemo(): Promise<void> {
    const opened = await services.openDemo();
    if (opened.type === 'saved') return go({ screen: 'home' }, 'replace');
    const todo = 'Open it on an empty phone, with a network the first time.';
    step.value = {
      type: 'choose',
      trouble: { what: 'The demo station could not be opened.', where: opened.why, todo },
    };
  }

  const at = step.value;
  const plate = (
    <Plate
      back={{ label: 'Back to the station', onPress: () => go({ screen: 'home' }) }}
      cells={[{ small: services.stationName.value || 'Station', big: 'Import a schedule', heading: true }]}
    />
  );

  if (at.type === 'reading') {
    return (
      <Screen
        plate={plate}
        foot={<TitleBlock rows={[[{ small: 'Nothing is changed', big: 'Cancel', onPress: () => at.stop.abort() }]]} />}
      >
        <div class="desk-part" role="status">
          <p>{progressToWords(progress.value)} The app stays usable meanwhile.</p>
          <Progress label="Read so far" share={progress.value.share} />
        </div>
      </Screen>
    );
  }

  if (at.type === 'preview') {
    return (
      <BringInPreview
        read={at.read}
        file={at.file}
        progress={progress.value}
        onBack={() => choose()}
        onLost={(what, todo) => choose({ what, where: at.file, todo })}
      />
    );
  }

  return (
    <Screen plate={plate}>
      {at.trouble && (
        <ErrorBox
          what={at.trouble.what}
          where={at.trouble.where ?? undefined}
          todo={`${at.trouble.todo} Nothing was changed.`}
        />
      )}
      <section
        class="desk-part"
        aria-label="Choose files"
        onDragOver={(e) => e.preventDefault()}
        onDrop={(e) => {
          e.preventDefault();
          void take(e.dataTransfer?.files ?? null);
        }}
      >
        {left.value && (
          <p role="status">
            You were working on <strong>{left.value.file}</strong>. Your answers are kept, the file is not: choose it
            again to go on.
          </p>
        )}
        <p>
          The cable list as it is: XLSX, ODS, CSV, TSV or a web page’s table, with the header row anywhere, ditto marks,
          ranges and merged cells. Lists of units, racks, jacks, punch blocks, channels and circuits can come with it or
          later, as sheets or files.
        </p>
        <label class="plain-button plain-primary">
          Choose files
          <input
            type="file"
            class="only-spoken"
            multiple
            accept=".csv,.tsv,.txt,.xlsx,.xlsm,.ods,.xls,.htm,.html,.zip,text/csv,application/vnd.openxmlformats-officedocument.spreadsheetml.sheet,application/zip"
            onChange={(e) => {
              const { files } = e.currentTarget;
              void take(files);
            }}
          />
        </label>
        <p>
          You see how every row was read before it becomes the plan. A file made by this app ({'.asfound.zip'}) is
          imported the same way.
        </p>
      </section>
      {empty && (
        <>
          <SectionHead title="No schedule at hand?" />
          <Row
            title="Open the demo station"
            second="An invented community radio station with planted differences. Clearly marked as a demo."
            onPress={() => void openDemo()}
          />
        </>
      )}
      <div class="desk-part">
        <PlainButton onPress={() => go({ screen: 'help', topic: 'schedule' })}>
          Which columns are understood?
        </PlainButton>
      </div>
    </Screen>
  );
}
