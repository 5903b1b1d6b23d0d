// Sheets that change how the walk goes: what may be done, the end of the audit.

import { useSignal } from '@preact/signals';
import { PERMISSIONS, type Permission } from '../../../core/record/events.ts';
import { PERMISSION_WORDS } from '../../../core/report/words/recordWords.ts';
import { useAsked, useServices } from '../../context.ts';
import { useDraftText } from '../../drafts/useDraft.ts';
import { type Message, saveFailureToMessage } from '../../messages.ts';
import { Dialog } from '../../parts/dialog.tsx';
import { Field } from '../../parts/form.tsx';
import { ErrorBox, Row } from '../../parts/rows.tsx';
import { HalfDoneGuard, useLeftHalfDone } from '../../renaming/renamingGuard.tsx';
import { go } from '../../router.ts';
import { count } from '../../words.ts';
import type { SheetProps } from '../walkSheetProps.ts';
import { LINES } from '../walkWords.ts';
import { endToWords } from './walkEnd.tsx';
import { TwinsLeft } from './walkTwins.tsx';

export function PermissionSheet({ flow, close }: SheetProps) {
  const services = useServices();
  const wrong = useSignal<Message | null>(null);
  const set = async (permission: Permission) => {
    const result = await services.record('permission-set', { permission }, { audit: flow.audit });
    if (result.event === '') {
      wrong.value = { what: result.type === 'not-saved' ? result.why : '', todo: 'Nothing has changed. Choose again.' };
      return;
    }
    if (result.type === 'saved') close();
    else {
      const { what } = saveFailureToMessage(result.why);
      wrong.value = {
        what,
        todo: 'It applies on this phone for now. Press Cancel, free some space, then press Try again.',
      };
    }
    const may = PERMISSION_WORDS[permission].text.toLowerCase();
    flow.did(result.event, null, `permission: ${may}`);
    flow.line.value = LINES.youMay(may);
  };
  return (
    <Dialog title="What may be done here?" onClose={close} rows={[[{ big: 'Cancel', onPress: close }]]}>
      {wrong.value !== null && <ErrorBox {...wrong.value} />}
      <p>Whoever is responsible for what is on air decides this, not the phone.</p>
      {PERMISSIONS.map((one) => (
        <Row
          key={one}
          title={PERMISSION_WORDS[one].text}
          second={PERMISSION_WORDS[one].second}
          onPress={() => void set(one)}
        />
      ))}
    </Dialog>
  );
}

export function FinishSheet({ flow, close }: SheetProps) {
  const services = useServices();
  const view = flow.view.value;
  const remark = useDraftText(`finish:${flow.audit}`);
  const left = view && view !== 'loading' ? view.leftAll : 0;
  const unseen = view && view !== 'loading' ? view.notLooked : 0;
  const half = useLeftHalfDone(flow.audit);
  const ask = { audit: flow.audit, place: flow.memory.value.place, author: services.settings.value.author };
  const ends = useAsked('endsLeft', ask);
  const pace = left > 0 && ends.type === 'ready' ? (ends.value?.pace ?? null) : null;
  const finish = async () => {
    const result = await services.record('audit-closed', { remark: remark.text.trim() }, { audit: flow.audit });
    if (result.type === 'not-saved') {
      flow.line.value = LINES.notClosed(result.why);
      close();
      return;
    }
    remark.drop();
    go({ screen: 'report', audit: flow.audit });
  };
  return (
    <Dialog
      title="Close the audit?"
      onClose={close}
      rows={[
        [
          { big: 'Cancel', onPress: close },
          { big: 'Close it', primary: true, share: 2, disabled: half?.length !== 0, onPress: () => void finish() },
        ],
      ]}
    >
      <TwinsLeft audit={flow.audit} owed={view !== null && view !== 'loading' && view.permission !== 'look'} />
      <HalfDoneGuard audit={flow.audit} left={half} />
      <p>
        {left === 0 ? endToWords(unseen) : `${count(left, 'jack has', 'jacks have')} no entry; the report says so.`}{' '}
        {pace}
      </p>
      <Field label="Remark for the report" lines={3} value={remark.text} onInput={remark.set} />
    </Dialog>
  );
}
