// Texts of a workbook whose parts look different: what of them is struck through. Element names: ECMA-376 part 1, 18.4.
import { attributeOf } from '../xml.ts';

/** `<strike/>` and `<strike val="1"/>` (18.4.10, CT_BooleanProperty). */
export function isOn(attributes: string): boolean {
  return !/^(0|false|off)$/i.test(attributeOf(attributes, 'val') ?? '1');
}

/** A text of which some was struck through. */
export interface StruckText {
  /** What is not struck; '' where all of it is. */
  kept: string;
  struck: string;
}

/** Collects the runs of a rich text (18.4.4), each with its own look (18.4.7). */
export class Runs {
  #kept = '';
  #struck = '';
  #isStruck = false;
  isText = false;
  isSpoken = false;

  /** The beginning of an element inside a text; how a text is spoken (rPh, 18.4.6) is no part of it. */
  open(name: string, attributes: string): void {
    if (name === 'r') this.#isStruck = false;
    else if (name === 'strike') this.#isStruck = isOn(attributes);
    else if (name === 't') this.isText = true;
    else if (name === 'rPh') this.isSpoken = true;
  }

  text(text: string): void {
    if (!this.isText || this.isSpoken) return;
    if (this.#isStruck) this.#struck += text;
    else this.#kept += text;
  }

  close(name: string): void {
    if (name === 't') this.isText = false;
    else if (name === 'rPh') this.isSpoken = false;
    else if (name === 'r') this.#isStruck = false;
  }

  /** Null where nothing was struck. */
  get struck(): StruckText | null {
    if (this.#struck.trim() === '') return null;
    return { kept: this.#kept, struck: this.#struck };
  }
}
