// The window agreed for the work: its name, what may be done in it and where, with whom it was agreed. It is entered,
// changed and taken back here; whether it is open is never decided by the app.

import { useSignal } from '@preact/signals';
import { useMemo } from 'preact/hooks';
import type { RackId } from '../../core/plan/identity.ts';
import { MAX_NAME, MAX_WORDS } from '../../core/record/eventLimits.ts';
import type { Permission } from '../../core/record/events.ts';
import type { FixesView } from '../../core/report/fixesView.ts';
import { PERMISSION_WORDS } from '../../core/report/words/recordWords.ts';
import { useAsked, useServices } from '../context.ts';
import { useDraft } from '../drafts/useDraft.ts';
import { WINDOW } from '../drafts/workDrafts.ts';
import { Dialog } from '../parts/dialog.tsx';
import { CheckRow, Choice, Field } from '../parts/form.tsx';
import { ErrorBox, Row, SectionHead } from '../parts/rows.tsx';
import type { Recorded } from '../services.ts';
import { dayAndClock } from '../times.ts';

export function WindowRow({ view }: { view: FixesView }) {
  const open = useSignal(false);
  const { window } = view;
  return (
    <section aria-label="Maintenance window">
      <SectionHead title="Maintenance window" />
      <Row
        title={window ? window.name : 'No maintenance window is agreed'}
        second={
          window
            ? `${PERMISSION_WORDS[window.permission].text}, ${window.where}. Agreed with ${window.by}; written down by ${window.author}, ${dayAndClock(window.at)}.`
            : 'With one, the work that needs an agreed time is grouped in the list.'
        }
        right={window ? 'Change' : 'Agree one'}
        onPress={() => {
          open.value = true;
        }}
      />
      {open.value && (
        <WindowSheet
          view={view}
          onClose={() => {
            open.value = false;
          }}
        />
      )}
    </section>
  );
}

interface WindowDraft {
  name: string;
  permission: Permission;
  racks: RackId[];
  rooms: string[];
  by: string;
}

/** The window as it is typed, and the acts that agree it or take it back. */
function useWindow({ audit, window }: FixesView, onClose: () => void) {
  const services = useServices();
  const fresh = useMemo<WindowDraft>(
    () =>
      window
        ? { name: window.name, permission: window.permission, ...window.scope, by: window.by }
        : { name: '', permission: 'disconnect', racks: [], rooms: [], by: '' },
    [],
  );
  const { now: d, set, drop } = useDraft<WindowDraft>(`window ${audit}`, WINDOW, fresh);
  const missing = useSignal(false);
  const failed = useSignal<string | null>(null);
  const busy = useSignal(false);
  const takeBack = () =>
    window ? services.record('withdrawn', { target: { event: window.event }, why: 'undo' }, { audit }) : null;
  async function keep(acts: readonly (() => Promise<Recorded> | null)[]): Promise<void> {
    busy.value = true;
    for (const act of acts) {
      const result = await act();
      if (result?.type !== 'not-saved') continue;
      failed.value = result.why;
      busy.value = false;
      return;
    }
    drop();
    onClose();
  }
  return {
    d,
    set,
    failed: failed.value,
    busy: busy.value,
    missing: missing.value,
    withdraw: () => void keep([takeBack]),
    agree: () => {
      missing.value = d.name.trim() === '' || d.by.trim() === '';
      if (missing.value) return;
      const { permission, racks, rooms } = d;
      const payload = { name: d.name.trim(), permission, scope: { racks, rooms }, by: d.by.trim() };
      // The window before goes with it: taking the new one back must not bring the old one up again.
      void keep([() => services.record('window-agreed', payload, { audit }), takeBack]);
    },
  };
}

function WindowSheet({ view, onClose }: { view: FixesView; onClose: () => void }) {
  const { d, set, failed, busy, missing, withdraw, agree } = useWindow(view, onClose);
  return (
    <Dialog
      title="Maintenance window"
      onClose={onClose}
      rows={[
        [
          { big: 'Cancel', onPress: onClose },
          ...(view.window
            ? [{ small: 'No longer agreed', big: 'Withdraw it', disabled: busy, onPress: withdraw }]
            : []),
          { small: 'Signed', big: 'Agreed', primary: true, share: 2, disabled: busy, onPress: agree },
        ],
      ]}
    >
      {failed !== null && (
        <ErrorBox
          what="The maintenance window was not saved."
          where={failed}
          todo="What you typed is still here. Free some room on the phone, then press Agreed again."
        />
      )}
      <p>Agree it with whoever is responsible for the air. The app does not watch the clock: they say when it opens.</p>
      <Field
        label="When, as agreed"
        value={d.name}
        placeholder="Thursday night, 02:00 to 04:00"
        error={missing && d.name.trim() === '' ? 'Type when it is.' : undefined}
        onInput={(name) => set({ name: name.slice(0, MAX_WORDS) })}
      />
      <Field
        label="Agreed with"
        value={d.by}
        hint="Name as typed."
        error={missing && d.by.trim() === '' ? 'Type who agreed to it.' : undefined}
        onInput={(by) => set({ by: by.slice(0, MAX_NAME) })}
      />
      <Choice
        legend="During the window you may"
        stacked
        options={(['touch', 'disconnect'] as const).map((value) => ({ value, ...PERMISSION_WORDS[value] }))}
        value={d.permission === 'look' ? undefined : d.permission}
        onChoose={(permission) => set({ permission })}
      />
      <Where d={d} set={set} />
    </Dialog>
  );
}

function Where({ d, set }: { d: WindowDraft; set: (change: Partial<WindowDraft>) => void }) {
  const places = useAsked('scope', {});
  if (places.type !== 'ready' || places.value.racks.length + places.value.rooms.length === 0) return null;
  const toggled = (list: string[], one: string, on: boolean) =>
    on ? [...list, one] : list.filter((other) => other !== one);
  return (
    <fieldset class="choice">
      <legend class="field-label">Where</legend>
      <p class="field-hint">Nothing ticked means everywhere.</p>
      {places.value.racks.map((rack) => (
        <CheckRow
          key={rack.id}
          text={`Rack ${rack.label}`}
          second={rack.room ?? undefined}
          checked={d.racks.includes(rack.id)}
          onChange={(on) => set({ racks: toggled(d.racks, rack.id, on) })}
        />
      ))}
      {places.value.rooms.map((room) => (
        <CheckRow
          key={room.name}
          text={`Room ${room.name}`}
          checked={d.rooms.includes(room.name)}
          onChange={(on) => set({ rooms: toggled(d.rooms, room.name, on) })}
        />
      ))}
    </fieldset>
  );
}
