// The sheet that every screen is drawn on: plate above, scrolling middle, title block at the thumb. It holds no
// state; a screen hands it plain data and handlers.
import type { ComponentChildren } from 'preact';
import { BackSymbol } from './symbols.tsx';

export interface PlateCell {
  small: ComponentChildren;
  big: ComponentChildren;
  onPress?: (() => void) | undefined;
  /** Takes the room that is left; the first cell does when none says so. */
  wide?: boolean | undefined;
  /** A thick edge before it, for a control that stands apart. */
  apart?: boolean | undefined;
  /** Makes this cell the heading of the screen. */
  heading?: boolean | undefined;
  name?: string | undefined;
}

export function Plate(props: {
  cells: readonly PlateCell[];
  back?: { label: string; onPress: () => void } | undefined;
}) {
  const anyWide = props.cells.some((cell) => cell.wide);
  return (
    <div class="plate">
      {props.back && (
        <button type="button" class="plate-back" aria-label={props.back.label} onClick={props.back.onPress}>
          <BackSymbol size={1.5} />
        </button>
      )}
      {props.cells.map((cell, i) => {
        const wide = cell.wide === true || (!anyWide && i === 0);
        const cls = `plate-cell${wide ? ' plate-wide' : ''}${cell.apart ? ' plate-apart' : ''}`;
        const inside = (
          <>
            <span class="plate-small">{cell.small}</span> <span class="plate-big">{cell.big}</span>
          </>
        );
        if (cell.onPress)
          return (
            <button key={i} type="button" class={cls} aria-label={cell.name} onClick={cell.onPress}>
              {inside}
            </button>
          );
        if (cell.heading)
          return (
            <h1 key={i} class={cls}>
              {inside}
            </h1>
          );
        return (
          <div key={i} class={cls}>
            {inside}
          </div>
        );
      })}
    </div>
  );
}

export function Screen(props: {
  plate: ComponentChildren;
  children: ComponentChildren;
  /** Stands fixed above the title block: a verdict, a caution, a bar. */
  above?: ComponentChildren | undefined;
  foot?: ComponentChildren | undefined;
  /** A second column of the sheet at 60 rem and wider; under the middle on a phone. */
  aside?: ComponentChildren | undefined;
  asideAt?: 'left' | 'right' | undefined;
}) {
  const cls = props.aside ? `screen screen-two screen-aside-${props.asideAt ?? 'left'}` : 'screen';
  return (
    <div class={cls}>
      <header class="screen-plate">{props.plate}</header>
      <div class="screen-middle" ref={scrolledByKeys}>
        <main class="screen-main">{props.children}</main>
        {props.aside && <aside class="screen-aside">{props.aside}</aside>}
      </div>
      {(props.foot || props.above) && (
        <footer class="screen-foot">
          {props.above}
          {props.foot}
        </footer>
      )}
    </div>
  );
}

/** A long text with nothing to press in it has to be scrolled by keys too, in every browser. */
export function scrolledByKeys(element: HTMLElement | null): void {
  if (element) element.tabIndex = 0;
}

export interface CellProps {
  small?: ComponentChildren | undefined;
  big: ComponentChildren;
  /** A small line beneath. */
  after?: ComponentChildren | undefined;
  onPress?: (() => void) | undefined;
  primary?: boolean | undefined;
  disabled?: boolean | undefined;
  symbol?: ComponentChildren | undefined;
  /** A prediction: blue dashes, of equal weight with the plan. */
  dashed?: boolean | undefined;
  /** One of several that can be chosen; the chosen one has a thick edge. */
  pressed?: boolean | undefined;
  /** Share of the row; 1 unless told. */
  share?: number | undefined;
  /** Accessible name when small and big read together would mislead. */
  name?: string | undefined;
}

export function Cell(props: CellProps) {
  const cls = [
    'cell',
    props.primary && 'cell-primary',
    props.dashed && 'cell-dashed',
    props.pressed && 'cell-pressed',
    props.symbol && 'cell-symbol',
    props.small === undefined && 'cell-plain',
    typeof props.big === 'string' && props.big.length === 1 && 'cell-sign',
  ];
  const inside = (
    <>
      {props.symbol}
      {props.small !== undefined && <span class="cell-small">{props.small}</span>}{' '}
      <span class="cell-big">{props.big}</span>
      {props.after !== undefined && <span class="cell-small"> {props.after}</span>}
    </>
  );
  const style = props.share === undefined ? undefined : { flexGrow: props.share };
  if (!props.onPress)
    return (
      <div class={cls.filter(Boolean).join(' ')} style={style}>
        {inside}
      </div>
    );
  return (
    <button
      type="button"
      class={cls.filter(Boolean).join(' ')}
      style={style}
      disabled={props.disabled}
      aria-pressed={props.pressed}
      aria-label={props.name}
      onClick={props.onPress}
    >
      {inside}
    </button>
  );
}

/** Rows of cells from the top; the last row is nearest to the thumb. A row without small lines is low (52 px). */
export function TitleBlock(props: { rows: readonly (readonly CellProps[])[]; label?: string | undefined }) {
  return (
    <section class="title-block" aria-label={props.label ?? 'Actions'}>
      {props.rows.map((row, i) => (
        <div key={i} class="title-row">
          {row.map((cell, j) => (
            <Cell key={j} {...cell} />
          ))}
        </div>
      ))}
    </section>
  );
}

/** The walk's thumb zone: four states beside one or two "Reads" halves, tools beneath; the hand decides the side. */
export function ThumbZone(props: {
  states: readonly CellProps[];
  reads: readonly CellProps[];
  tools: readonly CellProps[];
  hand?: 'right' | 'left' | undefined;
}) {
  return (
    <section class={`title-block thumb thumb-${props.hand ?? 'right'}`} aria-label="Record what you see">
      <div class={`thumb-upper${props.reads.length === 0 ? ' thumb-no-reads' : ''}`}>
        <div class="thumb-states">
          {props.states.map((cell, i) => (
            <Cell key={i} {...cell} />
          ))}
        </div>
        {props.reads.length > 0 && (
          <div class="thumb-reads">
            {props.reads.map((cell, i) => (
              <Cell key={i} {...cell} />
            ))}
          </div>
        )}
      </div>
      <div class="title-row thumb-tools">
        {props.tools.map((cell, i) => (
          <Cell key={i} {...cell} />
        ))}
      </div>
    </section>
  );
}

const PERMISSIONS = ['look', 'touch', 'unplug'] as const;
export type Permitted = (typeof PERMISSIONS)[number];

/** What the auditor may do: allowed filled, the rest struck through and said to be not allowed. Pressed, it is asked anew. */
export function Permission(props: {
  allowed: readonly Permitted[];
  remark?: ComponentChildren | undefined;
  onPress: () => void;
}) {
  return (
    <div class="permission">
      <button type="button" class="permission-press" onClick={props.onPress}>
        <span class="permission-may">You may</span>{' '}
        <span class="permission-list">
          {PERMISSIONS.map((word) =>
            props.allowed.includes(word) ? (
              <span key={word} class="permission-yes">
                {word}{' '}
              </span>
            ) : (
              <span key={word} class="permission-no">
                <span class="only-spoken">not </span>
                <s>{word}</s>{' '}
              </span>
            ),
          )}
        </span>
      </button>
      {props.remark !== undefined && <span class="permission-remark">{props.remark}</span>}
    </div>
  );
}
