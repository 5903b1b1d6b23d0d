// The verdict band: one live region that keeps its place and says jack, label, word. Severity and stories stay
// behind More; the band itself never explains and never moves.
import type { ComponentChildren } from 'preact';
import { Hatch } from './hazard.tsx';
import { CableLabel } from './label.tsx';
import { DiffersSymbol, TickSymbol, UndecidedSymbol, WarningSign } from './symbols.tsx';

type VerdictKind = 'as-planned' | 'differs' | 'question' | 'hazard' | 'note';

export interface VerdictProps {
  kind: VerdictKind;
  /** First and biggest. */
  jack?: string | undefined;
  label?: string | undefined;
  /** The label is a pattern or predicted rather than read. */
  labelVariant?: 'found' | 'plan' | 'predicted' | undefined;
  word: string;
  second?: ComponentChildren | undefined;
  more?:
    | { text: ComponentChildren; name?: string | undefined; onPress: () => void; open?: boolean | undefined }
    | undefined;
}

const SYMBOLS = {
  'as-planned': TickSymbol,
  differs: DiffersSymbol,
  question: UndecidedSymbol,
  hazard: WarningSign,
  note: null,
} as const;

/** Render it always, with `verdict` undefined before the first one: a live region must exist before it speaks. */
export function Verdict(props: { verdict?: VerdictProps | undefined }) {
  const v = props.verdict;
  const Mark = v ? SYMBOLS[v.kind] : null;
  const labelFirst = v?.kind === 'question';
  const jack = v?.jack !== undefined && <span class="ident verdict-jack">{v.jack}</span>;
  const label =
    v?.label !== undefined &&
    (v.kind === 'differs' ? (
      <CableLabel text={v.label} variant="differs" />
    ) : (
      <CableLabel text={v.label} variant={v.labelVariant ?? 'found'} />
    ));
  return (
    <div class={`verdict verdict-${v?.kind ?? 'none'}`}>
      {v?.kind === 'hazard' && <Hatch />}
      <div class="verdict-says" role="status" aria-live="polite" aria-atomic="true">
        {v && (
          <>
            {Mark && (
              <span class="verdict-mark">
                <Mark size={1.9} />
              </span>
            )}
            <p class="verdict-first">
              {labelFirst ? label : jack}
              {(labelFirst ? label : jack) && (labelFirst ? jack : label) ? ': ' : ''}
              {labelFirst ? jack : label}
              {jack || label ? (label && !labelFirst ? ', ' : ': ') : ''}
              {v.word}
            </p>
            {v.second !== undefined && <p class="verdict-second">{v.second}</p>}
          </>
        )}
      </div>
      {v?.more && (
        <button
          type="button"
          class="verdict-more"
          aria-label={v.more.name}
          aria-expanded={v.more.open ?? false}
          onClick={v.more.onPress}
        >
          {v.more.text}
        </button>
      )}
    </div>
  );
}
