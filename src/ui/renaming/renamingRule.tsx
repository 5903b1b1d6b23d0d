// The form of a rule that gives many cables new names. Owns the words of the fields; applying it is the core's.
import type { RenameRule } from '../../core/renaming/renamingRead.ts';
import { Choice, Field } from '../parts/form.tsx';

export interface RuleDraft {
  type: RenameRule['type'];
  only: string;
  from: string;
  to: string;
  number: string;
}

export const NEW_RULE: RuleDraft = { type: 'prefix', only: '', from: '', to: '', number: '' };

/** The rule, or what is missing in a sentence. */
export function ruleOf(draft: RuleDraft): RenameRule | string {
  const { type, from, to } = draft;
  const only = draft.only.trim();
  const number = Number(draft.number.trim());
  if (type === 'prefix')
    return from === '' && to === '' ? 'Fill in one of the two beginnings.' : { type, only, from, to };
  if (type === 'replace') return from === '' ? 'Enter the text to look for.' : { type, only, find: from, with: to };
  if (draft.number.trim() === '' || !Number.isSafeInteger(number)) return 'The number to add must be a whole number.';
  if (type === 'add') return number === 0 ? 'Adding 0 changes nothing.' : { type, only, offset: number };
  return number < 1 || number > 12 ? 'The number of digits must be 1 to 12.' : { type, only, digits: number };
}

export function RuleForm({ draft, onChange }: { draft: RuleDraft; onChange: (draft: RuleDraft) => void }) {
  const set = (change: Partial<RuleDraft>) => onChange({ ...draft, ...change });
  const text = (label: string, key: 'from' | 'to') => (
    <Field label={label} ident value={draft[key]} onInput={(value) => set({ [key]: value })} />
  );
  return (
    <>
      <Choice
        legend="What changes?"
        stacked
        options={[
          { value: 'prefix', text: 'The beginning', second: 'ST1-0101 becomes STA-0101' },
          { value: 'add', text: 'The number', second: '2005 becomes 3005' },
          { value: 'replace', text: 'A piece of text', second: 'AES-7-OLD becomes AES-7-NEW' },
          { value: 'pad', text: 'Zeros in front of the number', second: 'M7 becomes M007' },
        ]}
        value={draft.type}
        onChoose={(type) => set({ type })}
      />
      {draft.type === 'prefix' && (
        <>
          {text('Beginning now', 'from')}
          {text('Beginning after', 'to')}
        </>
      )}
      {draft.type === 'replace' && (
        <>
          {text('Look for', 'from')}
          {text('Replace it with', 'to')}
        </>
      )}
      {(draft.type === 'add' || draft.type === 'pad') && (
        <Field
          label={draft.type === 'add' ? 'Add to the last number' : 'Digits of the last number'}
          hint={draft.type === 'add' ? 'Use a minus to subtract.' : undefined}
          ident
          value={draft.number}
          onInput={(number) => set({ number })}
        />
      )}
      <Field
        label="Only labels that begin with"
        hint="Blank: every cable with an end in scope."
        ident
        value={draft.only}
        onInput={(only) => set({ only })}
      />
    </>
  );
}
