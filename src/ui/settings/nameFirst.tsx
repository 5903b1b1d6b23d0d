// Asks once for the name that stands beside every entry, on a phone where nobody gave one: before the first entry in an
// audit begun elsewhere. It can be put off for this walk; at the next one the name is wanted. Nobody checks it.

import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { AuditId } from '../../core/plan/identity.ts';
import { useServices } from '../context.ts';
import { useDraft } from '../drafts/useDraft.ts';
import { NAME_LATER, NAME_TYPED } from '../drafts/workDrafts.ts';
import { Dialog } from '../parts/dialog.tsx';
import { Field } from '../parts/form.tsx';
import { go } from '../router.ts';

const PUT_OFF = 'name-later';
interface PutOff {
  audit: AuditId;
  at: number;
}
/** Away for longer than this, and it is another walk. */
const SAME_WALK_MS = 30 * 60_000;

interface Nameless {
  /** It was not put off before. */
  mayWait: boolean;
  putOff: () => void;
}

/** Null while nothing is to be asked. */
export function useNameless(audit: AuditId): Nameless | null {
  const services = useServices();
  const hasName = services.settings.value.author.trim() !== '';
  const kept = useSignal<PutOff | null | 'loading'>('loading');
  useEffect(() => {
    // A phone with a name is asked nothing, and reads nothing for it either.
    if (hasName) return;
    void services.draft(PUT_OFF, NAME_LATER).then((put) => {
      kept.value = put;
    });
  }, [hasName, audit]);
  const put = kept.value;
  if (hasName || put === 'loading') return null;
  if (put && put.audit === audit && services.now() - put.at < SAME_WALK_MS) return null;
  return {
    mayWait: put === null,
    putOff: () => {
      kept.value = { audit, at: services.now() };
      void services.saveDraft(PUT_OFF, kept.value, NAME_LATER);
    },
  };
}

/** For screens that are no walk: lies over them until it is answered. */
export function NameFirst({ audit }: { audit: AuditId }) {
  const nameless = useNameless(audit);
  return nameless && <NameDialog nameless={nameless} close={() => undefined} />;
}

export function NameDialog({ nameless, close }: { nameless: Nameless; close: () => void }) {
  const services = useServices();
  const { now: d, set, drop } = useDraft('name-typed', NAME_TYPED, { name: '' });
  const name = d.name.trim();
  const leave = () => {
    if (nameless.mayWait) nameless.putOff();
    else go({ screen: 'home' });
    close();
  };
  const keep = () => {
    if (name === '') return;
    services.settings.value = { ...services.settings.peek(), author: name };
    drop();
    void services.dropDraft(PUT_OFF);
    close();
  };
  return (
    <Dialog
      title="Who is checking here?"
      onClose={leave}
      rows={[
        [
          nameless.mayWait
            ? { small: 'No name on entries', big: 'Later', onPress: leave }
            : { big: 'Back to the station', onPress: leave },
          {
            small: 'Remembered on this phone',
            big: 'Save my name',
            primary: true,
            share: 2,
            disabled: name === '',
            onPress: keep,
          },
        ],
      ]}
    >
      <Field
        label="Your name"
        autoFocus
        value={d.name}
        hint="Shown beside every entry you make. Name as typed; change it under Settings."
        onInput={(typed) => set({ name: typed })}
        onEnter={keep}
      />
    </Dialog>
  );
}
