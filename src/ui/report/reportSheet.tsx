// Draws the report's document on the screen: the very tree that its file is written from, in its order and its words. It
// adds only what a screen can do: opening, folding long lists, photos large, voices heard.
import { useSignal } from '@preact/signals';
import { type ComponentChildren, Fragment, h } from 'preact';
import type { ReportDocument, Target } from '../../core/report/document/document.ts';
import {
  type Element,
  type ReportNode,
  reportTree,
  type ShownPicture,
  textOf,
} from '../../core/report/document/tree.ts';
import type { Reconciliation } from '../../core/report/reconciliation.ts';
import { PlainButton } from '../parts/form.tsx';
import { PhotoThumb } from '../photos/photoThumb.tsx';
import { PhotoViewer } from '../photos/photoViewer.tsx';
import { VoicePlayer } from '../photos/voicePlayer.tsx';

interface Drawing {
  audit: string;
  voices: Reconciliation['media']['voices'];
  open(target: Target): void;
}

export interface SheetProps extends Drawing {
  document: ReportDocument;
  /** Between the head and the first section. */
  glance?: ComponentChildren;
  /** What is done from a section, behind it, by the section's id. */
  acts: Partial<Record<string, ComponentChildren>>;
  /** Before the last section. */
  before?: ComponentChildren;
}

export function ReportSheet({ document, glance, acts, before, ...drawing }: SheetProps) {
  const { head, sections, foot } = reportTree(document, 'h2');
  const last = sections.length - 1;
  return (
    <div class="report-sheet">
      {drawElement(head, drawing)}
      {glance}
      {sections.map(({ id, node }, i) => (
        <Fragment key={id}>
          {i === last && before !== undefined && <div>{before}</div>}
          {drawElement(node, drawing)}
          {acts[id] !== undefined && <div>{acts[id]}</div>}
        </Fragment>
      ))}
      {drawElement(foot, drawing)}
    </div>
  );
}

function drawElement({ tag, attributes, children, opens }: Element, drawing: Drawing): ComponentChildren {
  const inside = children.map((child, i) => <Drawn key={i} node={child} drawing={drawing} />);
  if (!opens) return h(tag, { ...attributes }, inside);
  const button = (
    <button type="button" class="report-go" onClick={() => drawing.open(opens)}>
      {inside}
    </button>
  );
  return h(tag, { ...attributes }, button);
}

function Drawn({ node, drawing }: { node: ReportNode; drawing: Drawing }) {
  if (typeof node === 'string') return <>{node}</>;
  switch (node.type) {
    case 'element':
      return <>{drawElement(node, drawing)}</>;
    case 'many':
      return <Many nodes={node.nodes} atOnce={node.atOnce} drawing={drawing} />;
    case 'pictures':
      return <Pictures shown={node.shown} drawing={drawing} />;
    case 'voice': {
      const voice = drawing.voices.find(({ event }) => event === node.voice.event);
      const words = node.words.map(textOf).join('');
      return voice ? <VoicePlayer voice={voice} words={words} /> : <p>{words}</p>;
    }
  }
}

function Many({ nodes, atOnce, drawing }: { nodes: readonly Element[]; atOnce: number; drawing: Drawing }) {
  const shown = useSignal(atOnce);
  const rest = nodes.length - shown.value;
  return (
    <>
      {nodes.slice(0, shown.value).map((node, i) => (
        <Fragment key={i}>{drawElement(node, drawing)}</Fragment>
      ))}
      {rest > 0 && (
        <>
          <span class="only-print"> And {rest} more, in the report’s file.</span>
          <PlainButton
            onPress={() => {
              shown.value += atOnce * 4;
            }}
          >
            Show more; {rest} are left
          </PlainButton>
        </>
      )}
    </>
  );
}

const PHOTOS_AT_ONCE = 12;

function Pictures({ shown, drawing }: { shown: readonly ShownPicture[]; drawing: Drawing }) {
  const atOnce = useSignal(PHOTOS_AT_ONCE);
  const open = useSignal<string | null>(null);
  const rest = shown.length - atOnce.value;
  return (
    <>
      <div class="photo-list">
        {shown.slice(0, atOnce.value).map(({ picture, caption }, i) => (
          <button
            key={i}
            type="button"
            class="photo-row"
            onClick={() => {
              open.value = picture.document;
            }}
          >
            <PhotoThumb photo={picture} />
            <span class="photo-row-text">
              {caption.map((node, at) => (
                <Drawn key={at} node={node} drawing={drawing} />
              ))}
            </span>
          </button>
        ))}
      </div>
      {rest > 0 && (
        <PlainButton
          onPress={() => {
            atOnce.value += PHOTOS_AT_ONCE;
          }}
        >
          Show more; {rest} are left
        </PlainButton>
      )}
      {open.value !== null && (
        <PhotoViewer
          audit={drawing.audit}
          document={open.value}
          onClose={() => {
            open.value = null;
          }}
        />
      )}
    </>
  );
}
