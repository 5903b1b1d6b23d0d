// Half-done renames keep an audit open: what is left in words and the way there, wherever somebody wants to close it.
import type { AuditId } from '../../core/plan/identity.ts';
import { useAsked } from '../context.ts';
import { PlainButton } from '../parts/form.tsx';
import { go } from '../router.ts';
import { refusal } from './renamingWords.ts';
import '../look/renaming.css';

/** Old names of what is half done and told to nobody; null until the record has answered. */
export function useLeftHalfDone(audit: AuditId): readonly string[] | null {
  const asked = useAsked('renamingHalf', { audit });
  // A record that does not answer must not trap the audit: closing is refused by what is known, not by a failure.
  if (asked.type === 'failed') return [];
  return asked.type === 'ready' ? (asked.value?.left ?? []) : null;
}

export function HalfDoneGuard(props: { audit: AuditId; left: readonly string[] | null }) {
  if (!props.left?.length) return null;
  return (
    <div class="renaming-guard">
      <p class="red" role="alert">
        <strong>{refusal(props.left)}</strong>
      </p>
      <PlainButton onPress={() => go({ screen: 'renaming', audit: props.audit, place: null })}>
        Finish or hand over
      </PlainButton>
    </div>
  );
}
