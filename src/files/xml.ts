// The little of XML that a workbook's parts are made of: elements, attributes, text. A document type is refused, so
// that no entity is ever declared or fetched; depth is capped and nothing calls itself.

export class XmlTrouble extends Error {}

interface XmlEvents {
  /**
   * @param name Without its namespace's prefix. @param attributes Raw, for `attributeOf`.
   * @param at Where the tag begins. @param end Where what follows it begins.
   */
  open(name: string, attributes: string, at: number, end: number): void;
  text(text: string): void;
  /** An element without content closes where it ends, with `at` and `end` alike. */
  close(name: string, at: number, end: number): void;
}

const DEEPEST = 64;

/** Walks through a document once, from the front. Throws `XmlTrouble` where it is no XML of a workbook. */
export function scanXml(xml: string, events: XmlEvents): void {
  const path: string[] = [];
  let at = 0;
  while (at < xml.length) {
    const tag = xml.indexOf('<', at);
    const textEnd = tag < 0 ? xml.length : tag;
    if (textEnd > at && path.length > 0) events.text(decodeEntities(xml.slice(at, textEnd)));
    if (tag < 0) break;
    const next = xml[tag + 1];
    if (next === '?') at = after(xml, '?>', tag);
    else if (next === '!') {
      if (xml.startsWith('<!--', tag)) at = after(xml, '-->', tag);
      else if (xml.startsWith('<![CDATA[', tag)) {
        at = after(xml, ']]>', tag);
        events.text(xml.slice(tag + 9, at - 3));
      } else throw new XmlTrouble('a document type, which no workbook has');
    } else if (next === '/') {
      at = after(xml, '>', tag);
      const name = localName(xml.slice(tag + 2, at - 1).trim());
      if (path.pop() !== name) throw new XmlTrouble('elements that are not closed');
      events.close(name, tag, at);
    } else at = openTag(xml, tag, path, events);
  }
  if (path.length > 0) throw new XmlTrouble('elements that are not closed');
}

function openTag(xml: string, tag: number, path: string[], events: XmlEvents): number {
  const end = tagEnd(xml, tag);
  if (end < 0) throw new XmlTrouble('a tag that does not end');
  const closesItself = xml[end - 1] === '/';
  const inside = xml.slice(tag + 1, closesItself ? end - 1 : end);
  const space = inside.search(/\s/);
  const name = localName(space < 0 ? inside : inside.slice(0, space));
  if (name === '') throw new XmlTrouble('a tag without a name');
  events.open(name, space < 0 ? '' : inside.slice(space), tag, end + 1);
  if (closesItself) events.close(name, end + 1, end + 1);
  else if (path.push(name) > DEEPEST) throw new XmlTrouble(`elements more than ${DEEPEST} deep`);
  return end + 1;
}

/** A `>` may stand inside an attribute's quotes. One pass, whatever stands there. */
function tagEnd(xml: string, from: number): number {
  let open = 0;
  for (let i = from; i < xml.length; i += 1) {
    const code = xml.charCodeAt(i);
    if (open === 0) {
      if (code === 0x3e) return i;
      if (code === 0x22 || code === 0x27) open = code;
    } else if (code === open) open = 0;
  }
  return -1;
}

function after(xml: string, what: string, from: number): number {
  const at = xml.indexOf(what, from);
  if (at < 0) throw new XmlTrouble('a tag that does not end');
  return at + what.length;
}

function localName(name: string): string {
  const colon = name.indexOf(':');
  return colon < 0 ? name : name.slice(colon + 1);
}

/** Value of an attribute, with or without a prefix; null when it is not there. */
export function attributeOf(attributes: string, name: string): string | null {
  let at = attributes.indexOf(`${name}=`);
  while (at >= 0) {
    const quote = attributes[at + name.length + 1];
    const before = attributes[at - 1] ?? ' ';
    if ((quote === '"' || quote === "'") && /[\s:]/.test(before)) {
      const start = at + name.length + 2;
      const end = attributes.indexOf(quote, start);
      return end < 0 ? null : decodeEntities(attributes.slice(start, end));
    }
    at = attributes.indexOf(`${name}=`, at + 1);
  }
  return null;
}

const NAMED = new Map([
  ['amp', '&'],
  ['lt', '<'],
  ['gt', '>'],
  ['quot', '"'],
  ['apos', "'"],
]);

/** The five entities of XML and numbers of characters; any other stays as it is written. */
function decodeEntities(text: string): string {
  if (!text.includes('&')) return text;
  return text.replace(/&(#x[0-9a-f]{1,6}|#\d{1,7}|[a-z]+);/gi, (whole, name: string) => {
    if (!name.startsWith('#')) return NAMED.get(name) ?? whole;
    const code = /^#x/i.test(name) ? Number.parseInt(name.slice(2), 16) : Number(name.slice(1));
    return code > 0 && code <= 0x10ffff ? String.fromCodePoint(code) : whole;
  });
}

/** A piece of a document and what stands in its place. */
export interface Splice {
  at: number;
  end: number;
  text: string;
}

/** All else stays, letter by letter. Pieces must not overlap; those at one place stand in the order given. */
export function spliced(text: string, splices: readonly Splice[]): string {
  const pieces: string[] = [];
  let from = 0;
  for (const { at, end, text: instead } of [...splices].sort((a, b) => a.at - b.at)) {
    pieces.push(text.slice(from, at), instead);
    from = end;
  }
  pieces.push(text.slice(from));
  return pieces.join('');
}

/** An opening tag with an attribute set; without a value it is taken out. */
export function withAttribute(tag: string, name: string, value: string | null): string {
  const found = new RegExp(`\\s${name}=("[^"]*"|'[^']*')`).exec(tag);
  const instead = value === null ? '' : ` ${name}="${toXmlText(value)}"`;
  if (found) return tag.slice(0, found.index) + instead + tag.slice(found.index + found[0].length);
  const end = tag.length - (tag.endsWith('/>') ? 2 : 1);
  return tag.slice(0, end).trimEnd() + instead + tag.slice(end);
}

/** All but the characters of XML 1.0 (section 2.2, Char); a reader would make a line break of a return. */
export const NOT_IN_XML = /[^\t\n\u{20}-\u{d7ff}\u{e000}-\u{fffd}\u{10000}-\u{10ffff}]/gu;

export function toXmlText(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');
}
