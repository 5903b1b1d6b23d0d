// The window agreed for the work: its name, what may be done in it and where, with whom it was agreed. It is entered,
// changed and taken back here; whether it is open is never decided by the app.

import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { RackId } from '../../core/plan/identity.ts';
import { MAX_NAME, MAX_WORDS } from '../../core/record/eventLimits.ts';
import type { Permission } from '../../core/record/events.ts';
import type { FixesView } from '../../core/report/fixesView.ts';
import { PERMISSION_WORDS } from '../../core/report/words/recordWords.ts';
import { useAsked, useServices } from '../context.ts';
import { WINDOW } from '../drafts/workDrafts.ts';
import { Dialog } from '../parts/dialog.tsx';
import { CheckRow, Choice, Field } from '../parts/form.tsx';
import { ErrorBox, Row, SectionHead } from '../parts/rows.tsx';
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

function WindowSheet({ view, onClose }: { view: FixesView; onClose: () => void }) {
  const services = useServices();
  const { audit, window } = view;
  const places = useAsked('scope', {});
  const key = `window ${audit}` as const;
  const draft = useSignal<WindowDraft>(
    window
      ? { name: window.name, permission: window.permission, ...window.scope, by: window.by }
      : { name: '', permission: 'disconnect', racks: [], rooms: [], by: '' },
  );
  const missing = useSignal(false);
  const failed = useSignal<string | null>(null);
  const busy = useSignal(false);
  useEffect(() => {
    void services.draft(key, WINDOW).then((kept) => {
      if (kept) draft.value = kept;
    });
  }, [key]);
  const set = (change: Partial<WindowDraft>) => {
    draft.value = { ...draft.value, ...change };
    void services.saveDraft(key, draft.value, WINDOW);
  };
  const d = draft.value;
  const toggled = (list: string[], one: string, on: boolean) =>
    on ? [...list, one] : list.filter((other) => other !== one);

  const takeBack = () =>
    window ? services.record('withdrawn', { target: { event: window.event }, why: 'undo' }, { audit }) : null;
  /** The window before goes with it: taking the new one back must not bring the old one up again. */
  async function keep(acts: readonly (() => ReturnType<typeof services.record> | null)[]): Promise<void> {
    busy.value = true;
    for (const act of acts) {
      const result = await act();
      if (result?.type !== 'not-saved') continue;
      failed.value = result.why;
      busy.value = false;
      return;
    }
    await services.dropDraft(key);
    onClose();
  }
  function agree(): void {
    missing.value = d.name.trim() === '' || d.by.trim() === '';
    if (missing.value) return;
    const { permission, racks, rooms } = d;
    const payload = { name: d.name.trim(), permission, scope: { racks, rooms }, by: d.by.trim() };
    void keep([() => services.record('window-agreed', payload, { audit }), takeBack]);
  }

  return (
    <Dialog
      title="Maintenance window"
      onClose={onClose}
      rows={[
        [
          { big: 'Cancel', onPress: onClose },
          ...(window
            ? [
                {
                  small: 'No longer agreed',
                  big: 'Withdraw it',
                  disabled: busy.value,
                  onPress: () => void keep([takeBack]),
                },
              ]
            : []),
          { small: 'Signed', big: 'Agreed', primary: true, share: 2, disabled: busy.value, onPress: agree },
        ],
      ]}
    >
      {failed.value !== null && (
        <ErrorBox
          what="The maintenance window was not saved."
          where={failed.value}
          todo="What you typed is still here. Free some room on the phone, then press Agreed again."
        />
      )}
      <p>Agree it with whoever is responsible for the air. The app does not watch the clock: they say when it opens.</p>
      <Field
        label="When, as agreed"
        value={d.name}
        placeholder="Thursday night, 02:00 to 04:00"
        error={missing.value && d.name.trim() === '' ? 'Type when it is.' : undefined}
        onInput={(name) => set({ name: name.slice(0, MAX_WORDS) })}
      />
      <Field
        label="Agreed with"
        value={d.by}
        hint="Name as typed."
        error={missing.value && d.by.trim() === '' ? 'Type who agreed to it.' : undefined}
        onInput={(by) => set({ by: by.slice(0, MAX_NAME) })}
      />
      <Choice
        legend="During the window you may"
        stacked
        options={(['touch', 'disconnect'] as const).map((value) => ({ value, ...PERMISSION_WORDS[value] }))}
        value={d.permission === 'look' ? undefined : d.permission}
        onChoose={(permission) => set({ permission })}
      />
      {places.type === 'ready' && places.value.racks.length + places.value.rooms.length > 0 && (
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
      )}
    </Dialog>
  );
}
