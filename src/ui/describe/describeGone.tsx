// One question before a unit is kept where the plan has another one: is that one gone? The floor wins either way; the
// answer decides only whether the record says so. It records nothing itself.
import { PlainButton } from '../parts/form.tsx';
import { list } from '../words.ts';
import { goneToQuestion } from './describeWords.ts';
import '../look/walk.css';

export function GoneQuestion(props: {
  label: string;
  u: number;
  planned: readonly { label: string; u: number | null }[];
  answer: (gone: boolean) => void;
}) {
  const { label, u, planned, answer } = props;
  const names = list(planned.map((one) => one.label));
  return (
    <section class="walk-ask" role="alert" aria-label={`Is ${names} gone?`}>
      <p>{goneToQuestion(planned, u)}</p>
      <PlainButton primary onPress={() => answer(true)}>
        Gone: {label} is at U{u}
      </PlainButton>
      <PlainButton onPress={() => answer(false)}>Cannot tell: save {label} anyway</PlainButton>
    </section>
  );
}
