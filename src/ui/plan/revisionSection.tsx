// What a newer sheet changes against the plan in force, before it is adopted. Reading only.
import type { Compared, RevisionView } from '../../core/report/plan/revisionView.ts';
import { useAsked } from '../context.ts';
import { Fold } from '../parts/fold.tsx';
import { ErrorBox, SectionHead } from '../parts/rows.tsx';
import type { Services } from '../services.ts';
import { cablesToSentence, groupToTitle } from './revisionWords.ts';
import '../look/desk.css';

/** Has another plan come into force since the sheet was compared? Then it must not be adopted upon the old one. */
export async function isOvertaken(services: Services, compared: Compared | null): Promise<boolean> {
  const force = await services.ask('planInForce', {});
  return (force?.revision ?? null) !== revisionOf(compared);
}

function revisionOf(compared: Compared | null): string | null {
  if (!compared) return null;
  return compared.type === 'compared' ? compared.view.revision : compared.revision;
}

export function RevisionSection({ compared }: { compared: Compared | null }) {
  const force = useAsked('planInForce', {});
  const overtaken = force.type === 'ready' && (force.value?.revision ?? null) !== revisionOf(compared);
  return (
    <>
      {overtaken && (
        <ErrorBox
          what="Another plan has come into force since this sheet was read."
          where={force.value?.name || undefined}
          todo="Cancel and choose the file again to see what it changes now. Nothing was changed."
        />
      )}
      {compared?.type === 'compared' && (
        <section aria-label="What changes">
          <SectionHead strong title="What changes against the plan in force" right={toTotal(compared.view)} />
          <RevisionChanges view={compared.view} />
        </section>
      )}
      {compared?.type === 'not-here' && (
        <section aria-label="What changes">
          <SectionHead strong title="What changes against the plan in force" right="not known" />
          <p class="desk-note">
            The plan in force{compared.name && `, ${compared.name},`} has not arrived on this phone, so nothing can be
            compared. Send and receive first. Used now, this sheet starts from scratch: its cables are not matched to
            those of the plan before.
          </p>
        </section>
      )}
    </>
  );
}

function toTotal(view: RevisionView): string {
  const n = view.groups.reduce((sum, group) => sum + group.n, 0);
  return n === 0 ? 'nothing' : String(n);
}

/** Counts by kind, each list behind its own line. */
export function RevisionChanges({ view }: { view: RevisionView }) {
  return (
    <>
      <p class="desk-note">
        {view.groups.length === 0 ? 'Nothing changes: it says the same as the plan in force.' : cablesToSentence(view)}
      </p>
      {view.groups.map((group) => (
        <Fold key={`${group.item} ${group.kind}`} title={`${groupToTitle(group)}: ${group.n}`}>
          {() => (
            <>
              <ul class="desk-changes">
                {group.lines.map((line, i) => (
                  <li key={i}>
                    <span class="ident">{line.what}</span> {line.words}
                  </li>
                ))}
              </ul>
              {moreOf(group) > 0 && <p class="desk-note">And {moreOf(group)} more.</p>}
            </>
          )}
        </Fold>
      ))}
    </>
  );
}

/** A pair of exchanged numbers is one line for two cables. */
function moreOf({ kind, n, lines }: RevisionView['groups'][number]): number {
  return n - lines.length * (kind === 'exchanged' ? 2 : 1);
}
