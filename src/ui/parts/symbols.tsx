// Every symbol of the drawing, as small inline SVG. A symbol with a title is an image with that name; without
// one it is hidden from assistive technology, because its word stands beside it.
import type { ComponentChildren } from 'preact';

interface SymbolProps {
  title?: string | undefined;
  /** Side of the square in rem; symbols grow with the text. */
  size?: number | undefined;
}

function Glyph(props: SymbolProps & { tone?: string; children: ComponentChildren }) {
  const size = `${props.size ?? 1.25}rem`;
  const named = props.title === undefined ? { 'aria-hidden': true as const } : { role: 'img' as const };
  return (
    <svg
      class={`sym ${props.tone ?? ''}`}
      viewBox="0 0 24 24"
      style={{ width: size, height: size }}
      focusable="false"
      aria-label={props.title}
      {...named}
    >
      {props.children}
    </svg>
  );
}

/** As planned. */
export const TickSymbol = (p: SymbolProps) => (
  <Glyph {...p}>
    <path d="M3 13 9 19 21 5" fill="none" stroke="currentColor" stroke-width="4" />
  </Glyph>
);

/** Differs. */
export const DiffersSymbol = (p: SymbolProps) => (
  <Glyph {...p} tone="sym-red">
    <path d="M2 9H22M2 16H22M16 2 8 23" fill="none" stroke="currentColor" stroke-width="3.2" />
  </Glyph>
);

/** Undecided: a look is owed. */
export const UndecidedSymbol = (p: SymbolProps) => (
  <Glyph {...p} tone="sym-blue">
    <path d="M12 1.6 22.4 12 12 22.4 1.6 12Z" fill="none" stroke="currentColor" stroke-width="2.2" />
    <path
      d="M8.8 9.6C8.8 7.6 10.2 6.6 12 6.6S15.2 7.7 15.2 9.4C15.2 11.6 12 11.8 12 14.2"
      fill="none"
      stroke="currentColor"
      stroke-width="2.2"
    />
    <path d="M10.8 15.8H13.2V18.2H10.8Z" fill="currentColor" />
  </Glyph>
);

const SOCKET = 'M2.5 20V8.5H6V5.5H8.5V3H15.5V5.5H18V8.5H21.5V20Z';

export const EmptySymbol = (p: SymbolProps) => (
  <Glyph {...p}>
    <path d={SOCKET} fill="none" stroke="currentColor" stroke-width="2.2" />
  </Glyph>
);

export const NotSeenSymbol = (p: SymbolProps) => (
  <Glyph {...p} tone="sym-line">
    <path d={SOCKET} fill="none" stroke="currentColor" stroke-width="2" stroke-dasharray="3 2" />
  </Glyph>
);

export const CouldNotSeeSymbol = (p: SymbolProps) => (
  <Glyph {...p}>
    <path d={SOCKET} fill="none" stroke="currentColor" stroke-width="1.8" stroke-dasharray="3 2" />
    <path d="M1.5 22.5 22.5 1.5" fill="none" stroke="currentColor" stroke-width="2.4" />
  </Glyph>
);

export const NoLabelSymbol = (p: SymbolProps) => (
  <Glyph {...p}>
    <path d="M1.5 5H22.5V19H1.5ZM7.5 12H16.5" fill="none" stroke="currentColor" stroke-width="2.2" />
  </Glyph>
);

export const UnreadableSymbol = (p: SymbolProps) => (
  <Glyph {...p}>
    <path d="M1.5 5H22.5V19H1.5Z" fill="none" stroke="currentColor" stroke-width="2.2" />
    <path d="M5.5 14.5 8.5 9.5 11 14.5 14 9.5 16 14.5 18.5 10" fill="none" stroke="currentColor" stroke-width="2" />
  </Glyph>
);

/** General warning sign after ISO 7010 W001: yellow field, black band, exclamation mark. Its colours are its own. */
export const WarningSign = (p: SymbolProps) => (
  <Glyph {...p} tone="sym-sign">
    <path d="M12 2 23 21.5H1Z" class="sign-yellow" stroke-width="2" stroke-linejoin="round" />
    <path d="M12 3.7 21.4 20.4H2.6Z" class="sign-band" stroke-width="2" stroke-linejoin="round" />
    <path d="M10.6 9H13.4L12.8 15.2H11.2Z" class="sign-black" />
    <circle cx="12" cy="17.5" r="1.45" class="sign-black" />
  </Glyph>
);

export const BackSymbol = (p: SymbolProps) => (
  <Glyph {...p}>
    <path d="M15.5 4 7.5 12 15.5 20" fill="none" stroke="currentColor" stroke-width="2.2" />
  </Glyph>
);

type MarkName = 'as-planned' | 'differs' | 'undecided' | 'hazard' | 'not-seen' | 'could-not-see';

export function MarkSymbol(p: SymbolProps & { mark: MarkName }) {
  switch (p.mark) {
    case 'as-planned':
      return <TickSymbol {...p} />;
    case 'differs':
      return <DiffersSymbol {...p} />;
    case 'undecided':
      return <UndecidedSymbol {...p} />;
    case 'hazard':
      return <WarningSign {...p} />;
    case 'not-seen':
      return <NotSeenSymbol {...p} />;
    case 'could-not-see':
      return <CouldNotSeeSymbol {...p} />;
  }
}
