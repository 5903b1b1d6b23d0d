// Closing an audit: says what is still open before it asks, takes a remark, and records the act under the author's
// name. Closing deletes nothing and calls nothing finished that is not.
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { Reconciliation } from '../../core/report/reconciliation.ts';
import { counted } from '../../core/report/words/plain.ts';
import { coverageToWords } from '../../core/report/words/reportSentences.ts';
import { useServices } from '../context.ts';
import { TEXT } from '../drafts/draftKind.ts';
import { Dialog } from '../parts/dialog.tsx';
import { Field } from '../parts/form.tsx';
import { HalfDoneGuard, useLeftHalfDone } from '../renaming/renamingGuard.tsx';

/** What a closed audit would leave without an answer; empty when nothing is. */
function stillOpen({ coverage: c, lines }: Pick<Reconciliation, 'coverage' | 'lines'>): string[] {
  const unknown = lines.filter(({ severity }) => severity === 'undecided').length;
  return [
    c.seen < c.places && coverageToWords(c),
    c.oneEnd > 0 && `${counted(c.oneEnd, 'cable was', 'cables were')} seen at one end only.`,
    c.notSeen > 0 && `${counted(c.notSeen, 'cable was', 'cables were')} not seen at all.`,
    unknown > 0 && `The air impact of ${counted(unknown, 'difference')} is unknown, and treated as on-air.`,
  ].filter((words) => words !== false);
}

export function CloseAudit(props: { report: Reconciliation; onClose: () => void }) {
  const services = useServices();
  const { report } = props;
  const key = `close ${report.audit}` as const;
  const remark = useSignal('');
  const failed = useSignal<string | null>(null);
  const busy = useSignal(false);
  useEffect(() => {
    void services.draft(key, TEXT).then((kept) => {
      if (kept && remark.peek() === '') remark.value = kept;
    });
  }, [key]);
  const open = stillOpen(report);
  const left = useLeftHalfDone(report.audit);

  async function close(): Promise<void> {
    busy.value = true;
    const done = await services.record('audit-closed', { remark: remark.peek().trim() }, { audit: report.audit });
    busy.value = false;
    if (done.type === 'not-saved') {
      failed.value = `Not saved on this phone: ${done.why}. Try again, or see the bar above.`;
      return;
    }
    await services.dropDraft(key);
    props.onClose();
  }

  return (
    <Dialog
      title={`Close “${report.name}”`}
      onClose={props.onClose}
      rows={[
        [
          { big: 'Leave it open', onPress: props.onClose },
          {
            big: open.length > 0 ? 'Close it anyway' : 'Close the audit',
            primary: true,
            share: 2,
            disabled: busy.value || left?.length !== 0,
            onPress: () => void close(),
          },
        ],
      ]}
    >
      <HalfDoneGuard audit={report.audit} left={left} />
      {open.length > 0 ? (
        <>
          <p>
            <strong>Still open:</strong>
          </p>
          <ul class="report-open">
            {open.map((words) => (
              <li key={words}>{words}</li>
            ))}
          </ul>
        </>
      ) : (
        <p>Every jack in scope was looked at, and every cable was seen at both ends or differs.</p>
      )}
      <p class="quiet">Nothing is deleted. What is open stays listed in the report as not looked at.</p>
      <Field
        label="Remark"
        hint="Why it ends here, or who carries on."
        lines={3}
        value={remark.value}
        onInput={(text) => {
          remark.value = text;
          void services.saveDraft(key, text, TEXT);
        }}
      />
      {failed.value !== null && (
        <p class="red" role="alert">
          {failed.value}
        </p>
      )}
    </Dialog>
  );
}
