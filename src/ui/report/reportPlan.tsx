// The plan that a walk counts over: where it may be moved to another revision, what that changes, and what is not here
// yet or in dispute. Nothing is moved before a person has seen what changes and pressed.

import { useSignal } from '@preact/signals';
import type { AuditId } from '../../core/plan/identity.ts';
import type { BoundView, MoveEffects, VerdictGroup } from '../../core/report/plan/boundView.ts';
import { useAsked, useServices } from '../context.ts';
import { Dialog } from '../parts/dialog.tsx';
import { Ident } from '../parts/label.tsx';
import { ErrorBox, Row, SectionHead } from '../parts/rows.tsx';
import { RevisionChanges } from '../plan/revisionSection.tsx';
import { dayAndClock } from '../times.ts';
import { count } from '../words.ts';

type Target = BoundView['targets'][number];

const WHY: Record<Target['why'], string> = {
  'in-force': 'This plan is in force now.',
  disputed: 'One of the two plans it was moved to.',
  before: 'The plan it was on before.',
};

export function ReportPlan({ audit }: { audit: AuditId }) {
  const asked = useAsked('bound', { audit });
  const open = useSignal<Target | null>(null);
  const view = asked.type === 'ready' ? asked.value : null;
  if (!view || (view.targets.length === 0 && !view.awaited && !view.disputed)) return null;
  const { over, awaited, disputed, moves, closed } = view;
  const name = (one: { revision: string; name: string }) => (
    <>
      {one.name || 'Plan without a name'} <Ident text={one.revision.slice(0, 10)} />
    </>
  );
  return (
    <section aria-label="The plan of this walk">
      <SectionHead title="The plan of this walk" strong />
      <p class="desk-note">
        This walk is compared with {over ? name(over) : 'no plan'}.{' '}
        {awaited && (
          <>
            It was moved to {name(awaited)}, which has not arrived on this phone. Send and receive fetches it; until
            then the plan before it counts.
          </>
        )}
      </p>
      {disputed && (
        <ErrorBox
          what="Two phones moved this walk to different plans."
          where={moves
            .map((move) => `${move.name || 'Plan without a name'}: ${move.author}, ${dayAndClock(move.at)}`)
            .join('; ')}
          todo="The later move counts on every phone. Move it once more to settle it."
        />
      )}
      {!closed &&
        view.targets.map((target) => (
          <Row
            key={target.revision}
            title={<>Move it to {name(target)}</>}
            second={
              target.here
                ? `${WHY[target.why]} You see what changes before it is moved.`
                : `${WHY[target.why]} It has not arrived on this phone: send and receive first.`
            }
            onPress={
              target.here
                ? () => {
                    open.value = target;
                  }
                : undefined
            }
          />
        ))}
      {open.value && (
        <MoveDialog
          audit={audit}
          target={open.value}
          after={view.after}
          onClose={() => {
            open.value = null;
          }}
        />
      )}
    </section>
  );
}

function MoveDialog(props: { audit: AuditId; target: Target; after: string[]; onClose: () => void }) {
  const services = useServices();
  const { audit, target } = props;
  const asked = useAsked('moveEffects', { audit, revision: target.revision });
  const state = useSignal<{ type: 'asking' | 'saving' } | { type: 'failed'; why: string }>({ type: 'asking' });
  const effects = asked.type === 'ready' ? asked.value : null;

  async function move(): Promise<void> {
    if (state.value.type === 'saving') return;
    state.value = { type: 'saving' };
    const done = await services.record(
      'audit-bound',
      { plan: target.revision, name: target.name, after: props.after },
      { audit },
    );
    if (done.type === 'saved') props.onClose();
    else state.value = { type: 'failed', why: done.why };
  }

  return (
    <Dialog
      title={`Move this walk to ${target.name || 'the other plan'}`}
      onClose={props.onClose}
      rows={[
        [
          { big: 'Leave it', onPress: props.onClose },
          {
            small: 'Every entry stays',
            big: state.value.type === 'saving' ? 'Moving' : 'Move it',
            primary: true,
            share: 2,
            disabled: !effects || state.value.type === 'saving',
            onPress: () => void move(),
          },
        ],
      ]}
    >
      {asked.type === 'loading' && <p role="status">Comparing every entry with the other plan.</p>}
      {asked.type === 'failed' && <p class="red">It could not be compared: {asked.why}</p>}
      {asked.type === 'ready' && !effects && <p class="red">The plan has not arrived on this phone.</p>}
      {effects && <Effects effects={effects} />}
      {state.value.type === 'failed' && (
        <p class="red" role="alert">
          Not saved on this phone: {state.value.why}. Try again, or see the bar above.
        </p>
      )}
    </Dialog>
  );
}

function Effects({ effects }: { effects: MoveEffects }) {
  const { changes, places, cables, appear, vanish } = effects;
  const none = cables.length + appear.length + vanish.length === 0;
  return (
    <>
      <p>
        {none ? 'Nothing changes.' : 'Every entry stays; these results change.'}{' '}
        {places.before === places.after
          ? `${count(places.after, 'jack')} in scope, as before.`
          : `${count(places.after, 'jack')} in scope, ${places.before} before.`}
      </p>
      <Groups title="Cables" groups={cables} />
      <Groups title="New differences" groups={appear} />
      <Groups title="Differences that disappear" groups={vanish} />
      <SectionHead level={3} title="What the plan changes" />
      <RevisionChanges view={changes} />
    </>
  );
}

function Groups({ title, groups }: { title: string; groups: readonly VerdictGroup[] }) {
  if (groups.length === 0) return null;
  return (
    <>
      <SectionHead level={3} title={title} right={String(groups.reduce((sum, { n }) => sum + n, 0))} />
      {groups.map(({ what, n, lines }) => (
        <details key={what} class="desk-fold">
          <summary>
            {what}: {n}
          </summary>
          <ul class="desk-changes">
            {lines.map((line, i) => (
              <li key={i}>{line}</li>
            ))}
          </ul>
          {n > lines.length && <p class="desk-note">And {n - lines.length} more.</p>}
        </details>
      ))}
    </>
  );
}
