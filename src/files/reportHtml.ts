// The report's document as a page of its own: no script, nothing loaded from anywhere, every text escaped, printable.
// It writes the tree that the screen draws and has no words but those of what a file cannot carry.
import { type ReportDocument, spelledOut } from '../core/report/document/document.ts';
import { type Element, type ReportNode, reportTree, textOf } from '../core/report/document/tree.ts';
import { type Pictures, photoStyle, picturesToHtml } from './reportPhotos.ts';
import { reportStyle } from './reportStyle.ts';

/** @param pictures Photos that the file carries along, by document. */
export function documentToHtml(document: ReportDocument, pictures: Pictures = new Map()): string {
  const { head, sections, foot } = reportTree(document, 'h1');
  const parts = [head, ...sections.map(({ node }) => node), foot].map((node) => nodeToHtml(node, pictures));
  const hasMedia = sections.some(({ id }) => id === 'media');
  return `<!doctype html>
<html lang="${document.language}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; img-src data:">
<title>${escapeHtml(document.title)}</title>
<style>${reportStyle}${hasMedia ? photoStyle : ''}</style>
</head>
<body>
${parts.join('\n')}
</body>
</html>
`;
}

function nodeToHtml(node: ReportNode, pictures: Pictures): string {
  if (typeof node === 'string') return escapeHtml(node);
  switch (node.type) {
    case 'element':
      return elementToHtml(node, pictures);
    case 'many':
      return node.nodes.map((one) => elementToHtml(one, pictures)).join('');
    case 'pictures': {
      const shown = node.shown.map(({ picture, caption }) => ({
        picture,
        caption: caption.map((one) => nodeToHtml(one, pictures)).join(''),
        words: caption.map(textOf).join(''),
      }));
      return picturesToHtml(shown, pictures, escapeHtml);
    }
    case 'voice':
      return `<p>${node.words.map((one) => nodeToHtml(one, pictures)).join('')}</p>`;
  }
}

function elementToHtml({ tag, attributes, children }: Element, pictures: Pictures): string {
  const said = Object.entries(attributes).map(([name, value]) => ` ${name}="${escapeHtml(value)}"`);
  return `<${tag}${said.join('')}>${children.map((child) => nodeToHtml(child, pictures)).join('')}</${tag}>`;
}

const ENTITIES: Record<string, string> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
  '`': '&#96;',
};

/** Text of labels and notes comes from sheets and scanners and may be hostile. */
export function escapeHtml(text: string): string {
  return spelledOut(text).replace(/[&<>"'`]/g, (sign) => ENTITIES[sign] ?? sign);
}
