// What the desk check found, worst first, each with its rows: the same list before a plan is taken and for the plan in
// force. Hazards stand out and are never folded away. It mends nothing.

import type { ComponentChildren } from 'preact';
import type { DeskLine, DeskView } from '../../core/report/plan/deskView.ts';
import { isHazard } from '../../core/trade/kinds.ts';
import { Fold } from '../parts/fold.tsx';
import { Caution, HazardRow } from '../parts/hazard.tsx';
import { Row, SectionHead } from '../parts/rows.tsx';
import { count, list } from '../words.ts';

/** `7 findings: 1 hazard to equipment, 2 on-air and 4 record`. */
export function deskToWords({ count: all, groups }: DeskView): string {
  if (groups.length === 0) return 'Nothing found on paper';
  return `${count(all, 'finding')}: ${list(groups.map(({ count: n, words }) => `${n} ${words.toLowerCase()}`))}`;
}

/** Stands wherever a hazard is in the list. */
export function DeskCaution({ view }: { view: DeskView }) {
  if (!view.groups.some(isHazard)) return null;
  return (
    <Caution>
      A hazard on paper may be real in the rack. Do not plug, pull or switch anything because of this list: have it
      checked first. Local codes and licensed trades decide.
    </Caution>
  );
}

/** @param folded In a longer page: all but hazards behind a line with their number. */
export function DeskFindings(props: { view: DeskView; folded?: boolean; onPress?: (line: DeskLine) => void }) {
  const { view, onPress, folded = false } = props;
  return (
    <>
      {view.groups.map((group) => {
        const hazard = isHazard(group);
        return (
          <Part
            key={group.severity}
            how={hazard ? 'alone' : folded ? 'folded' : 'headed'}
            title={group.words}
            right={String(group.count)}
          >
            {() => (
              <>
                {group.lines.map((line, i) => {
                  const press = onPress && line.about !== null ? () => onPress(line) : undefined;
                  return hazard ? (
                    <HazardRow key={i} word={`${group.words}.`} title={line.line} line={line.where} onPress={press} />
                  ) : (
                    <Row key={i} title={line.line} second={line.where || undefined} onPress={press} />
                  );
                })}
                {group.count > group.lines.length && (
                  <p class="desk-note">
                    And {count(group.count - group.lines.length, 'more finding')} of this severity.
                  </p>
                )}
              </>
            )}
          </Part>
        );
      })}
      {view.blind.length > 0 && (
        <Part how={folded ? 'folded' : 'headed'} title="What it could not check">
          {() => (
            <div class="desk-part">
              <ul class="help-list">
                {view.blind.map((sentence) => (
                  <li key={sentence}>{sentence}</li>
                ))}
              </ul>
            </div>
          )}
        </Part>
      )}
    </>
  );
}

/** A hazard stands on its own: it bears its own word and is never drawn inside a group. */
function Part(props: {
  how: 'alone' | 'headed' | 'folded';
  title: string;
  right?: string;
  children: () => ComponentChildren;
}) {
  const { how, title, right, children } = props;
  if (how === 'folded') return <Fold title={right === undefined ? title : `${title}: ${right}`}>{children}</Fold>;
  return (
    <section aria-label={title}>
      {how === 'headed' && <SectionHead strong title={title} right={right} />}
      {children()}
    </section>
  );
}
