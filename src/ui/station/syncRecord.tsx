// What of the record does not fit: shown where phones exchange, and only when there is something to show.
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { Ahead } from '../../core/record/clocks.ts';
import type { Stand, Whole } from '../../core/rules/station.ts';
import type { LogTrouble } from '../../store/record/asideView.ts';
import { errorToWhy, useServices } from '../context.ts';
import { ErrorBox, SectionHead } from '../parts/rows.tsx';
import { dayAndClock } from '../times.ts';
import { count } from '../words.ts';
import { aheadWords, logToTrouble, standToTrouble, type Trouble } from './recordWords.ts';

const WHOLES: Whole[] = ['plan', 'name', 'rules'];

interface Shown {
  logs: LogTrouble[];
  ahead: Ahead[];
  standing: Record<Whole, Stand> | null;
  /** Why the record did not answer. */
  failed: string | null;
}

export function RecordPart() {
  const services = useServices();
  const shown = useSignal<Shown>({ logs: [], ahead: [], standing: null, failed: null });
  const changed = services.changed.value;
  useEffect(() => {
    let over = false;
    void (async () => {
      const logs = await services.logTroubles();
      const now = await services.presentTime();
      // What the database knows is shown all the same.
      const asked = Promise.all([services.ask('ahead', { now }), services.ask('standing', {})]);
      const answered = await asked.then(
        ([ahead, standing]) => ({ ahead, standing, failed: null }),
        (error: unknown) => ({ ahead: [], standing: null, failed: errorToWhy(error) }),
      );
      if (!over) shown.value = { logs, ...answered };
    })();
    return () => {
      over = true;
    };
  }, [changed]);
  const { logs, ahead, standing, failed } = shown.value;
  const aside = logs.reduce((sum, log) => sum + log.aside, 0);
  const disputes = standing ? WHOLES.flatMap((whole) => standToTrouble(whole, standing[whole], dayAndClock) ?? []) : [];
  return (
    <>
      {logs.length > 0 && (
        <>
          <SectionHead
            strong
            title="Entries that do not fit"
            right={aside > 0 ? `${count(aside, 'entry', 'entries')} kept aside` : undefined}
          />
          {logs.map((log) => (
            <TroublePart key={log.log} trouble={logToTrouble(log)} />
          ))}
        </>
      )}
      {failed !== null && (
        <ErrorBox
          what="The app cannot tell whether two phones disagree."
          where={failed}
          todo="Reload the app and check here again. What waits is sent all the same."
        />
      )}
      {disputes.length > 0 && (
        <>
          <SectionHead strong title="Two phones disagree" right={String(disputes.length)} />
          {disputes.map((trouble) => (
            <TroublePart key={trouble.title} trouble={trouble} />
          ))}
        </>
      )}
      {ahead.length > 0 && (
        <>
          <SectionHead strong title="Clocks that run ahead" right={String(ahead.length)} />
          <div class="desk-part">
            {ahead.slice(0, 20).map((one) => (
              <p key={one.author}>{aheadWords(one, dayAndClock)}</p>
            ))}
            {ahead.length > 20 && <p>And {ahead.length - 20} more people.</p>}
            <p class="quiet">Set the clock of that phone, or of this one. The entries stay as they are.</p>
          </div>
        </>
      )}
    </>
  );
}

function TroublePart({ trouble }: { trouble: Trouble }) {
  return (
    <div class="desk-part">
      <h3>
        <strong>{trouble.title}</strong>
      </h3>
      {trouble.lines.map((line) => (
        <p key={line}>{line}</p>
      ))}
      <p class="quiet">{trouble.todo}</p>
    </div>
  );
}
