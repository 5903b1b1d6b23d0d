// Pairs of ends that jackets and marks fit, in the list of twins: what a twin at both or a trace would settle.
import { isJack } from '../../../core/plan/identity.ts';
import { pairToWords } from '../../../core/report/words/markWords.ts';
import { useAsked } from '../../context.ts';
import { Row, SectionHead } from '../../parts/rows.tsx';
import type { SheetProps } from '../walkSheetProps.ts';

/** Under the twins that are owed: pairs that a twin or a trace would settle. */
export function MarksPairs({ flow, close }: Pick<SheetProps, 'flow' | 'close'>) {
  const asked = useAsked('marks', { audit: flow.audit, places: [] });
  const pairs = asked.type === 'ready' ? (asked.value?.pairs ?? []) : [];
  if (pairs.length === 0) return null;
  return (
    <>
      <SectionHead title="May be one cable, by jacket and marks" right={String(pairs.length)} />
      {pairs.map((pair) => {
        const to = pair.places.find(({ place }) => place !== flow.memory.value.place && isJack(place));
        return (
          <Row
            key={pairToWords(pair)}
            title={pairToWords(pair)}
            second={pair.line}
            onPress={
              to &&
              (() => {
                close();
                void flow.moveTo(to.place);
              })
            }
          />
        );
      })}
    </>
  );
}
