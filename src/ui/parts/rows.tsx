// Ruled rows and the plain blocks between them: heads, list rows, differences, empty and error states. No cards,
// no badges; a row that can be pressed is a button as wide as the sheet.
import { useSignal } from '@preact/signals';
import type { ComponentChildren } from 'preact';
import { PlainButton } from './form.tsx';
import type { Mark } from './marks.ts';
import { MarkSymbol } from './symbols.tsx';

export function SectionHead(props: {
  title: ComponentChildren;
  right?: ComponentChildren | undefined;
  /** Strong heads start a part of a report; quiet ones name a list. */
  strong?: boolean | undefined;
  level?: 2 | 3 | undefined;
}) {
  const Head = props.level === 3 ? 'h3' : 'h2';
  return (
    <div class={`section-head${props.strong ? ' section-strong' : ''}`}>
      <Head>{props.title}</Head>
      {props.right !== undefined && <span class="section-right">{props.right}</span>}
    </div>
  );
}

interface RowProps {
  title: ComponentChildren;
  second?: ComponentChildren | undefined;
  right?: ComponentChildren | undefined;
  symbol?: ComponentChildren | undefined;
  onPress?: (() => void) | undefined;
  /** Below the lines, such as strokes. */
  children?: ComponentChildren | undefined;
  current?: boolean | undefined;
}

export function Row(props: RowProps) {
  const inside = (
    <>
      {props.symbol !== undefined && <span class="row-symbol">{props.symbol}</span>}
      <span class="row-text">
        <span class="row-first">
          <span class="row-title">{props.title}</span>{' '}
          {props.right !== undefined && <span class="row-right">{props.right}</span>}
        </span>{' '}
        {props.children}
        {props.second !== undefined && <span class="row-second">{props.second}</span>}
      </span>
    </>
  );
  const cls = `row${props.current ? ' row-current' : ''}`;
  if (!props.onPress) return <div class={cls}>{inside}</div>;
  return (
    <button type="button" class={cls} aria-current={props.current ? 'true' : undefined} onClick={props.onPress}>
      {inside}
    </button>
  );
}

interface DifferenceProps {
  mark: Mark;
  title: ComponentChildren;
  second?: ComponentChildren | undefined;
  /** The severity in a word: "on-air", "service", "undecided". */
  severity: string;
  right?: ComponentChildren | undefined;
  onPress?: (() => void) | undefined;
  current?: boolean | undefined;
}

export function DifferenceRow(props: DifferenceProps) {
  return (
    <Row
      symbol={<MarkSymbol mark={props.mark} size={1.35} />}
      title={props.title}
      right={props.right}
      current={props.current}
      onPress={props.onPress}
      second={
        <>
          <strong>{props.severity}</strong> {props.second}
        </>
      }
    />
  );
}

/** The first of a long list, and a button that shows as many more; `restart` goes back to the first. */
export function useShown<T>(items: readonly T[], step: number) {
  const most = useSignal(step);
  const left = items.length - most.value;
  return {
    shown: items.slice(0, most.value),
    restart: () => {
      most.value = step;
    },
    more: left > 0 && (
      <div class="desk-part no-print">
        <PlainButton
          onPress={() => {
            most.value += step;
          }}
        >
          Show {Math.min(step, left)} more
        </PlainButton>
      </div>
    ),
  };
}

export interface Action {
  text: string;
  onPress: () => void;
}

/** Nothing here: what would be here, why it is not, and the next step. */
export function Empty(props: { what: string; why?: ComponentChildren | undefined; next?: Action | undefined }) {
  return (
    <div class="empty">
      <p class="empty-what">{props.what}</p>
      {props.why !== undefined && <p class="empty-why">{props.why}</p>}
      {props.next && (
        <button type="button" class="plain-button" onClick={props.next.onPress}>
          {props.next.text}
        </button>
      )}
    </div>
  );
}

/** What went wrong, where, and what to do about it. */
export function ErrorBox(props: {
  what: ComponentChildren;
  where?: ComponentChildren | undefined;
  todo: ComponentChildren;
  action?: Action | undefined;
}) {
  return (
    <div class="error-box" role="alert">
      <p class="error-what">
        <MarkSymbol mark="differs" size={1.1} /> {props.what}
      </p>
      {props.where !== undefined && <p class="error-where">{props.where}</p>}
      <p class="error-todo">{props.todo}</p>
      {props.action && (
        <button type="button" class="plain-button" onClick={props.action.onPress}>
          {props.action.text}
        </button>
      )}
    </div>
  );
}

/** A statement that could not be stored. It stays until the statement is kept or given up by name. */
export function NotSavedBar(props: { text?: ComponentChildren | undefined; actions?: readonly Action[] | undefined }) {
  return (
    <div class="not-saved" role="alert">
      {props.text !== undefined && (
        <>
          <p class="not-saved-text">
            <strong>Not saved.</strong> {props.text}
          </p>
          {props.actions?.map((action) => (
            <button key={action.text} type="button" class="plain-button" onClick={action.onPress}>
              {action.text}
            </button>
          ))}
        </>
      )}
    </div>
  );
}

/** One look that settles it: blue dashes, a look still owed. */
export function OwedLook(props: { word?: string | undefined; children: ComponentChildren }) {
  return (
    <p class="owed-look">
      <strong class="blue">{props.word ?? 'One look settles it.'}</strong> {props.children}
    </p>
  );
}
