// What the line of jacks is taken for, before it counts: group by group, and beside it every part that is not understood.
// It shows; nothing is made here.
import { jacksToGroups, type NotedJacks } from '../../core/record/jackNotation.ts';
import { Row } from '../parts/rows.tsx';
import { count } from '../words.ts';

/** A line that is typed for one unit has fewer; what is more is counted. */
const SHOWN = 12;

export function JackPreview({ noted }: { noted: NotedJacks }) {
  const groups = jacksToGroups(noted.jacks);
  const hidden = groups.slice(SHOWN).reduce((sum, { labels }) => sum + labels.length, 0);
  return (
    <>
      {noted.problems.map(({ at, said, why }) => (
        <p key={at} class="describe-trouble" role="alert">
          Not understood: “{said}”. {why} Correct it, or it makes no jack.
        </p>
      ))}
      {groups.length > 0 && (
        <section aria-label="Jacks to be added">
          {groups.slice(0, SHOWN).map(({ labels, connector, direction }) => (
            <Row
              key={labels[0]}
              title={
                <span class="ident">{labels.length > 1 ? `${labels[0]} to ${labels.at(-1)}` : (labels[0] ?? '')}</span>
              }
              right={count(labels.length, 'jack')}
              second={[connector ?? 'Connector not given', direction === 'both' ? 'in and out' : direction]
                .filter((word) => word !== null && word !== 'none')
                .join(', ')}
            />
          ))}
          {hidden > 0 && <p class="quiet">And {count(hidden, 'jack')} more, in the drawing below.</p>}
        </section>
      )}
    </>
  );
}
