// One audit on the home screen: its name, one count, the drawing of that count and the sentence that says it.
import type { AuditSummary } from '../../core/report/walk/homeView.ts';
import { CableStrokes, JackStrokes } from '../parts/cable-strokes.tsx';
import { Row } from '../parts/rows.tsx';
import { go } from '../router.ts';
import { list, timeToWords } from '../words.ts';
import { countsOf, doneToWords, totalOf } from './homeAuditWords.ts';

const ACTS = [
  ['differences', 'Differences'],
  ['fixes', 'Work'],
  ['report', 'Report'],
] as const;

export function HomeAudit(props: { audit: AuditSummary; now: number }) {
  const { audit } = props;
  const counts = countsOf(audit);
  const byJack = audit.jacks.length > 0;
  const drawn = list(counts.map(({ n, words }) => `${n} ${words}`));
  return (
    <>
      <Row
        title={audit.name}
        right={doneToWords(audit)}
        second={
          <>
            {counts.length > 0 && (
              <>
                {totalOf(audit)}:{' '}
                {counts.map(({ n, words, red }, i) => (
                  <span key={words}>
                    {i > 0 && ', '}
                    <strong class={red ? 'red' : undefined}>{n}</strong> {words}
                  </span>
                ))}
                .{' '}
              </>
            )}
            {audit.coverage === null
              ? 'Its plan has not arrived on this phone.'
              : `Last walked ${timeToWords(audit.lastAt, props.now)}.`}
          </>
        }
        onPress={() =>
          audit.closed
            ? go({ screen: 'report', audit: audit.id })
            : go({ screen: 'walk', audit: audit.id, place: audit.next?.place ?? null })
        }
      >
        {audit.strokes.length > 0 && <CableStrokes label={drawn} cables={audit.strokes} />}
        {byJack && <JackStrokes label={drawn} jacks={audit.jacks} />}
      </Row>
      <div class="home-acts">
        {ACTS.map(([screen, words]) => (
          <button key={screen} type="button" class="plain-button" onClick={() => go({ screen, audit: audit.id })}>
            {words} <span class="only-spoken">of {audit.name}</span>
          </button>
        ))}
      </div>
      {audit.half && (
        <Row
          title={<span class="red">{audit.half}</span>}
          onPress={() => go({ screen: 'renaming', audit: audit.id, place: null })}
        />
      )}
    </>
  );
}
