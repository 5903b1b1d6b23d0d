// Hands half-done renames over in words: to whom, and what is left. Makes nothing done and deletes nothing.

import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { AuditId } from '../../core/plan/identity.ts';
import type { RenameLine } from '../../core/report/renamingView.ts';
import { useServices } from '../context.ts';
import { TEXT } from '../drafts/draftKind.ts';
import { Dialog } from '../parts/dialog.tsx';
import { Field } from '../parts/form.tsx';
import { Pair } from './renamingPair.tsx';

export function HandOver(props: { audit: AuditId; lines: readonly RenameLine[]; onClose: () => void }) {
  const services = useServices();
  const key = `renaming-over:${props.audit}` as const;
  const words = useSignal('');
  const wrong = useSignal<string | null>(null);
  useEffect(() => {
    void services.draft(key, TEXT).then((kept) => {
      if (kept && words.peek() === '') words.value = kept;
    });
  }, []);
  const give = async () => {
    const text = words.peek().trim();
    if (text === '') {
      wrong.value = 'Write who takes over and what is left to do.';
      return;
    }
    const items = props.lines.map(({ cable }) => cable);
    const kept = await services.record('handed-over', { what: 'renaming', items, words: text }, { audit: props.audit });
    if (kept.type === 'not-saved') {
      wrong.value = `Not saved: ${kept.why}`;
      return;
    }
    await services.dropDraft(key);
    props.onClose();
  };
  return (
    <Dialog
      title={
        props.lines.length === 1 ? 'Hand over 1 half-done cable' : `Hand over ${props.lines.length} half-done cables`
      }
      onClose={props.onClose}
      rows={[
        [
          { big: 'Cancel', onPress: props.onClose },
          { big: 'Hand over', primary: true, share: 2, onPress: () => void give() },
        ],
      ]}
    >
      {props.lines.slice(0, 12).map((line) => (
        <p key={`${line.cable} ${line.new}`}>
          <Pair old={line.old} fresh={line.new} /> {line.todo.join(' ')}
        </p>
      ))}
      {props.lines.length > 12 && <p>And {props.lines.length - 12} more.</p>}
      <Field
        label="Who takes over, and what is left to do"
        hint="A name and a sentence. It is recorded with these cables."
        lines={3}
        value={words.value}
        error={wrong.value ?? undefined}
        onInput={(text) => {
          words.value = text;
          wrong.value = null;
          void services.saveDraft(key, text, TEXT);
        }}
      />
    </Dialog>
  );
}
