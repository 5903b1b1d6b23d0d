// Brings in a schedule: choose, read in a worker, show how every row was read, and adopt only on a press. Nothing is
// recorded before that, and a file that cannot be read costs nothing.
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { useAsked, useServices } from '../context.ts';
import { Field, PlainButton } from '../parts/form.tsx';
import { Plate, Screen, TitleBlock } from '../parts/frame.tsx';
import { ErrorBox, Row, SectionHead } from '../parts/rows.tsx';
import { go } from '../router.ts';
import type { SheetRead } from '../services.ts';
import { isOvertaken, RevisionSection } from './revisionSection.tsx';
import { SheetPreview } from './sheetPreview.tsx';
import '../look/desk.css';

type Step =
  | { type: 'choose'; trouble: { what: string; where: string | null; todo: string } | null }
  | { type: 'reading'; share: number; stop: AbortController }
  | { type: 'preview'; read: Extract<SheetRead, { type: 'read' }>; trouble: string | null; saving: boolean };

export default function BringIn() {
  const services = useServices();
  const step = useSignal<Step>({ type: 'choose', trouble: null });
  const name = useSignal(services.stationName.peek());
  useEffect(() => () => step.peek().type === 'reading' && (step.peek() as { stop: AbortController }).stop.abort(), []);

  async function take(files: FileList | File[] | null): Promise<void> {
    const chosen = [...(files ?? [])];
    if (chosen.length === 0) return;
    const [first] = chosen;
    if (chosen.length === 1 && first && /\.asfound\.zip$|\.zip$/i.test(first.name)) return takeBundle(first);
    const stop = new AbortController();
    step.value = { type: 'reading', share: 0, stop };
    const bytes = await Promise.all(chosen.map(async (file) => ({ name: file.name, bytes: await file.arrayBuffer() })));
    const read = await services.readSheet(
      bytes,
      (share) => {
        if (step.peek().type === 'reading') step.value = { type: 'reading', share, stop };
      },
      stop.signal,
    );
    step.value =
      read.type === 'read'
        ? { type: 'preview', read, trouble: null, saving: false }
        : { type: 'choose', trouble: { what: read.what, where: read.where, todo: read.nextStep } };
  }

  async function takeBundle(file: File): Promise<void> {
    const taken = await services.takeBundle(file);
    if (taken.type === 'taken') {
      go({ screen: 'home' }, 'replace');
      return;
    }
    step.value = { type: 'choose', trouble: { what: taken.what, where: file.name, todo: taken.nextStep } };
  }

  async function adopt(): Promise<void> {
    const now = step.peek();
    if (now.type !== 'preview' || now.saving) return;
    step.value = { ...now, saving: true };
    if (await isOvertaken(services, now.read.compared)) {
      step.value = now;
      return;
    }
    const wanted = name.value.trim() || now.read.plan.name;
    if (wanted !== services.stationName.peek()) await services.record('station-named', { name: wanted });
    const result = await services.adoptPlan(now.read.plan);
    if (result.type === 'saved') go({ screen: 'home' }, 'replace');
    else step.value = { ...now, saving: false, trouble: result.why };
  }

  // Only an empty phone may open the demo: elsewhere it would put another plan in force.
  const home = useAsked('home', {});
  const empty = home.type === 'ready' && home.value.plan === null && home.value.audits.length === 0;
  async function openDemo(): Promise<void> {
    const opened = await services.openDemo();
    if (opened.type === 'saved') return go({ screen: 'home' }, 'replace');
    const todo = 'Open it on an empty phone, with a connection the first time.';
    step.value = {
      type: 'choose',
      trouble: { what: 'The demo station could not be opened.', where: opened.why, todo },
    };
  }

  const at = step.value;
  const plate = (
    <Plate
      back={{ label: 'Back to the station', onPress: () => go({ screen: 'home' }) }}
      cells={[{ small: services.stationName.value || 'Station', big: 'Bring in a schedule', heading: true }]}
    />
  );

  if (at.type === 'reading') {
    return (
      <Screen
        plate={plate}
        foot={<TitleBlock rows={[[{ small: 'Nothing is changed', big: 'Cancel', onPress: () => at.stop.abort() }]]} />}
      >
        <div class="desk-part" role="status">
          <p>Reading the file. The app stays usable meanwhile.</p>
          <div
            class="desk-progress"
            role="progressbar"
            aria-valuenow={Math.round(at.share * 100)}
            aria-valuemin={0}
            aria-valuemax={100}
            aria-label="Read so far"
          >
            <div style={{ width: `${Math.max(4, at.share * 100)}%` }} />
          </div>
        </div>
      </Screen>
    );
  }

  if (at.type === 'preview') {
    return (
      <Screen
        plate={plate}
        foot={
          <TitleBlock
            rows={[
              [
                {
                  small: 'Nothing is changed',
                  big: 'Back out',
                  onPress: () => {
                    step.value = { type: 'choose', trouble: null };
                  },
                },
                {
                  small: `${at.read.plan.cables.length} cables, ${at.read.guesses.length} guesses`,
                  big: at.saving ? 'Saving' : 'Take it as the plan',
                  primary: true,
                  share: 2,
                  onPress: () => void adopt(),
                },
              ],
            ]}
          />
        }
      >
        {at.trouble && (
          <ErrorBox
            what="The plan could not be saved."
            where={at.trouble}
            todo="Free some space on the phone, then press again. The reading is still here."
          />
        )}
        <div class="desk-part">
          <Field
            label="Name of the station"
            value={name.value}
            hint="It stands on every report. It can be changed by bringing in a sheet again."
            onInput={(value) => {
              name.value = value;
            }}
          />
        </div>
        <RevisionSection compared={at.read.compared} />
        <SheetPreview read={at.read} />
      </Screen>
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
        <p>
          A cable list with ordinary column names, as XLSX or CSV. A list of units and a list of jacks may come with it,
          as further sheets or further files.
        </p>
        <label class="plain-button plain-primary">
          Choose files
          <input
            type="file"
            class="only-spoken"
            multiple
            accept=".csv,.tsv,.txt,.xlsx,.zip,text/csv,application/vnd.openxmlformats-officedocument.spreadsheetml.sheet,application/zip"
            onChange={(e) => {
              const { files } = e.currentTarget;
              void take(files);
            }}
          />
        </label>
        <p>
          You see how every row was read before anything is taken. A file made by this app ({'.asfound.zip'}) is brought
          in the same way.
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
