// Identifiers as the eye meets them: a box is a cable's label and nothing else; jacks and units are never boxed.

type LabelVariant = 'found' | 'plan' | 'predicted' | 'differs';

const SPOKEN: Record<LabelVariant, string> = {
  found: '',
  plan: 'plan ',
  predicted: 'perhaps ',
  differs: '',
};

export function CableLabel(props: { text: string; variant?: LabelVariant | undefined }) {
  const variant = props.variant ?? 'found';
  return (
    <span class={`cable-label ident cable-label-${variant}`}>
      {SPOKEN[variant] !== '' && <span class="only-spoken">{SPOKEN[variant]}</span>}
      {props.text}
      {variant === 'predicted' && <span aria-hidden="true">?</span>}
    </span>
  );
}

/** A unit, jack or rack name in mono; it wraps at its separators and is never cut. */
export function Ident(props: { text: string }) {
  const pieces = props.text.split(/(?<=[-/_ ])/);
  return <span class="ident">{pieces.map((piece, i) => (i === 0 ? piece : [<wbr key={i} />, piece]))}</span>;
}
