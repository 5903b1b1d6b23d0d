// The labels that a plan calls for: one per end of each cable, in the order in which a walk meets the places. How they
// are drawn and printed is not known here.
import type { Plan } from '../../plan/model.ts';
import { indexPlan, placeToWords } from '../../plan/planIndex.ts';

interface CableLabel {
  cable: string;
  end: string;
  /** What the symbol says: the plain number, which any scanner reads. */
  text: string;
  /** Where this end goes, and where the others go, in words. */
  here: string;
  there: string;
}

export function planToLabels(plan: Plan): CableLabel[] {
  const index = indexPlan(plan);
  const words = (end: { place: string | null; unit: string; jack: string }) =>
    end.place === null ? `${end.unit} ${end.jack}`.trim() : placeToWords(index, end.place);
  const order = new Map(plan.jacks.map((jack, i) => [jack.id, i]));
  const labels = plan.cables
    .filter((cable) => cable.label !== '')
    .flatMap((cable) =>
      cable.ends.map((end) => ({
        at: order.get(end.place ?? '') ?? plan.jacks.length,
        label: {
          cable: cable.id,
          end: end.end,
          text: cable.label,
          here: words(end),
          there: cable.ends
            .filter((other) => other !== end)
            .map(words)
            .join(', '),
        },
      })),
    );
  return labels.sort((a, b) => a.at - b.at).map(({ label }) => label);
}
