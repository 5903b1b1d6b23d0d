// A cable as one line with its ends: thin dashes for the plan, a thick line once both ends were seen. Words beside
// every end say the same.
import type { CableView } from '../../core/report/plan/planView.ts';
import { CableLabel, Ident } from '../parts/label.tsx';
import { NotSeenSymbol, TickSymbol } from '../parts/symbols.tsx';

export function CableDrawing({ cable }: { cable: CableView }) {
  const both = cable.ends.length > 1 && cable.ends.every(({ last }) => last !== null);
  return (
    <section class="cable-run" aria-label={`Cable ${cable.label}`}>
      {cable.ends.map((end, i) => (
        <div key={end.end} class="cable-run-row">
          {i > 0 && (
            <div class={`cable-run-line ${both ? 'cable-run-found' : 'cable-run-plan'}`}>
              <CableLabel text={cable.label || 'no number'} variant={both ? 'found' : 'plan'} />
            </div>
          )}
          <div class="cable-run-end">
            <span class="cable-run-mark">{end.last ? <TickSymbol size={1.2} /> : <NotSeenSymbol size={1.2} />}</span>
            <strong>{end.name}</strong>
            <span class="cable-run-place">
              <Ident text={end.words} />
            </span>
            <span class="quiet">
              {[end.location, end.last ? `reads ${end.last.text}` : 'not seen yet'].filter(Boolean).join(', ')}
            </span>
          </div>
        </div>
      ))}
    </section>
  );
}
