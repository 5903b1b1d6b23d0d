// Names in another writing direction, and signs that nobody sees, on their way to the screen: a Hebrew or Arabic name stays
// in its place in an English sentence, a hidden sign is shown by its number. It touches what is drawn, never what is kept,
// typed, exported or spoken.
//
// Limits: In a sentence a number right behind a Hebrew or Arabic name is drawn as part of the name; reports that leave
// the phone have the bare text.
import { Fragment, options, type VNode } from 'preact';

// Letters and signs written from right to left: the Bidi_Class R and AL blocks (Unicode Standard Annex 9), in short.
const RTL = '\\u0590-\\u08ff\\ufb1d-\\ufdff\\ufe70-\\ufefc\\u{10800}-\\u{10fff}\\u{1e800}-\\u{1efff}';
/** A name: such letters, and what stands between them or counts behind them. */
const NAME = new RegExp(`[${RTL}](?:[${RTL}\\p{M}\\p{N}]|[\\s\\p{Pd}_/.'"&+]+(?=[${RTL}\\p{N}]))*`, 'gu');
/** Controls, direction signs and zero widths; the joiners of Persian and of emoji stay what they are. */
const HIDDEN = /(?!\t|\n|\r|\u200c|\u200d|\u00ad)[\p{Cc}\p{Cf}]/gu;
const ANY = new RegExp(`[${RTL}]|${HIDDEN.source}`, 'u');
/** First strong isolate and its end: what is between them has a direction of its own (Unicode Standard Annex 9). */
const [ISOLATE, END] = ['\u2068', '\u2069'];

/** A sign that is not seen, by its number: `10[U+202E]03`. */
export function hiddenShown(text: string): string {
  return text.replace(HIDDEN, (sign) => `[U+${sign.codePointAt(0)!.toString(16).toUpperCase().padStart(4, '0')}]`);
}

/** The text as it is drawn. */
export function toScreen(text: string): string {
  return ANY.test(text) ? hiddenShown(text).replace(NAME, (name) => ISOLATE + name + END) : text;
}

function drawn(children: unknown): unknown {
  if (typeof children === 'string') return toScreen(children);
  return Array.isArray(children) ? children.map(drawn) : children;
}

/** Every text on every screen goes through `toScreen` from now on; values of fields do not. */
export function drawNamesApart(): void {
  const before = options.vnode;
  options.vnode = (vnode: VNode) => {
    const { type } = vnode;
    // A component's texts come by here once more, when the element is made that shows them.
    if ((typeof type === 'string' || type === Fragment) && type !== 'textarea') {
      const props = vnode.props as { children?: unknown };
      if (props.children !== undefined) props.children = drawn(props.children);
    }
    before?.(vnode);
  };
}
