// A file that was read and is not taken yet: how every row was read, what a person may say otherwise, and the one press
// that makes it the plan. Nothing is recorded before that.
import { useSignal } from '@preact/signals';
import { useServices } from '../context.ts';
import { Field, PlainButton } from '../parts/form.tsx';
import { Plate, Screen, TitleBlock } from '../parts/frame.tsx';
import { ErrorBox } from '../parts/rows.tsx';
import { isOvertaken, RevisionSection } from '../plan/revisionSection.tsx';
import { go } from '../router.ts';
import type { SheetProgress } from '../services.ts';
import { count, timeToWords } from '../words.ts';
import { SheetAllRows } from './sheetAllRows.tsx';
import { SheetColumns } from './sheetColumns.tsx';
import { SheetPreview } from './sheetPreview.tsx';
import type { RowAsked } from './sheetRow.tsx';
import { type Settled, useSettling } from './sheetSettling.ts';
import { progressToWords, restToWords } from './sheetWords.ts';

export function BringInPreview(props: {
  read: Settled;
  file: string;
  progress: SheetProgress;
  onBack: () => void;
  onLost: (why: string, todo: string) => void;
}) {
  const services = useServices();
  const settling = useSettling(props.read, props.file, props.onLost);
  const { read, busy } = settling;
  const name = useSignal(services.stationName.peek());
  const saving = useSignal(false);
  const failed = useSignal<string | null>(null);
  /** All rows are looked at, from this one. */
  const rows = useSignal<RowAsked | null>(null);

  async function adopt(): Promise<void> {
    if (read.type !== 'read' || saving.peek() || busy) return;
    saving.value = true;
    if (await isOvertaken(services, read.compared)) {
      saving.value = false;
      return;
    }
    const wanted = name.value.trim() || read.name;
    if (wanted !== services.stationName.peek()) await services.record('station-named', { name: wanted });
    const result = await services.adoptSheet(read.session);
    saving.value = false;
    if (result.type === 'saved') {
      await settling.drop();
      go({ screen: 'home' }, 'replace');
    } else failed.value = result.why;
  }

  if (rows.value !== null) {
    return (
      <SheetAllRows
        settling={settling}
        at={rows.value}
        onBack={() => {
          rows.value = null;
        }}
      />
    );
  }
  const toRow = (sheet: string, row: number) => {
    rows.value = { sheet, row };
  };
  // Whoever has to say what the columns mean stays there while the rest of the preview comes up beneath.
  const byHand = props.read.type === 'unmapped';
  const open = settling.guesses.openCount;
  return (
    <Screen
      plate={
        <Plate
          back={{ label: 'Back to the station', onPress: () => go({ screen: 'home' }) }}
          cells={[{ small: services.stationName.value || 'Station', big: 'Import a schedule', heading: true }]}
        />
      }
      foot={
        <TitleBlock
          rows={[
            [
              { small: 'Nothing is changed', big: 'Cancel', onPress: props.onBack },
              ...(read.type === 'read'
                ? [
                    {
                      small: `${count(read.plan.cables, 'cable')}, ${count(open, 'open guess', 'open guesses')}`,
                      after:
                        read.type === 'read' ? restToWords(settling.questions.openCount, read.coverage) : undefined,
                      big: busy ? 'Reading again' : saving.value ? 'Saving' : 'Use as the plan',
                      primary: true,
                      share: 2,
                      disabled: busy,
                      onPress: () => void adopt(),
                    },
                  ]
                : []),
            ],
          ]}
        />
      }
    >
      {failed.value && (
        <ErrorBox
          what="The plan could not be saved."
          where={failed.value}
          todo="Free some space on the phone, then press again. What was read is still here."
        />
      )}
      {read.type === 'unmapped' && (
        <ErrorBox
          what={read.what}
          where={read.where ?? undefined}
          todo="Say below what the sheet lists and what its columns mean, or cancel and choose another file."
        />
      )}
      <p class="only-spoken" role="status">
        {busy ? `Reading again. ${progressToWords(props.progress)}` : ''}
      </p>
      {settling.resumed !== null && (
        <p class="desk-note">
          Your answers from {timeToWords(settling.resumed, services.now())} for this file are filled in again.
        </p>
      )}
      {(byHand || read.type === 'unmapped') && <SheetColumns settling={settling} open />}
      {read.type === 'unmapped' && (
        <div class="desk-part">
          <PlainButton onPress={() => toRow(read.sheets[0]?.sheet ?? '', 1)}>Look at all rows</PlainButton>
        </div>
      )}
      {read.type === 'read' && (
        <>
          <div class="desk-part">
            <Field
              label="Name of the station"
              value={name.value}
              hint="Printed on every report. Import a sheet again to change it."
              onInput={(value) => {
                name.value = value;
              }}
            />
          </div>
          <RevisionSection compared={read.compared} />
          <SheetPreview read={read} settling={settling} columns={!byHand} onRow={toRow} />
        </>
      )}
    </Screen>
  );
}
