// What the screen adds to the report's document: the strokes of all cables and jacks at a glance, and the way from
// photos to reading them. It says nothing that the document does not say.
import type { Reconciliation } from '../../core/report/reconciliation.ts';
import type { AuditSummary } from '../../core/report/walk/homeView.ts';
import { CableStrokes, JackStrokes } from '../parts/cable-strokes.tsx';
import { PlainButton } from '../parts/form.tsx';
import { go } from '../router.ts';
import { count } from '../words.ts';

export function Strokes({ report, summary }: { report: Reconciliation; summary: AuditSummary | undefined }) {
  const { coverage: c } = report;
  const said = `${c.bothEnds} as planned, ${c.differ} differ, ${c.oneEnd} seen at one end, ${c.notSeen} not seen`;
  if (!summary || summary.strokes.length + summary.jacks.length === 0) return null;
  return (
    <section class="report-strokes" aria-label="Cables at a glance">
      {summary.strokes.length > 0 && <CableStrokes label={said} cables={summary.strokes} />}
      {summary.jacks.length > 0 && (
        <JackStrokes label={`${c.seen} of ${c.places} jacks looked at`} jacks={summary.jacks} />
      )}
    </section>
  );
}

export function ToRead({ report }: { report: Reconciliation }) {
  const { photos } = report.media;
  const waits = new Set(photos.flatMap(({ pins }) => pins.filter((pin) => pin.open).map(({ place }) => place))).size;
  if (waits === 0) return null;
  return (
    <div class="desk-part no-print">
      <PlainButton onPress={() => go({ screen: 'photos', audit: report.audit })}>
        Read labels from photos: {count(waits, 'jack')} to read
      </PlainButton>
    </div>
  );
}
