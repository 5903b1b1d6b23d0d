// How a hazard and a caution are drawn: 45 degree hatch, the warning sign, the word. One framed hazard a screen,
// further ones as rows; a hazard is never drawn inside a group.
import type { ComponentChildren } from 'preact';
import { useId } from 'preact/hooks';
import { WarningSign } from './symbols.tsx';

/** Red strips at 45 degrees. It says nothing alone: the word stands beside it. */
export function Hatch() {
  const id = useId();
  return (
    <svg class="hatch" aria-hidden="true" focusable="false">
      <defs>
        <pattern id={id} width="9.9" height="9.9" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <rect width="4.6" height="9.9" class="hatch-line" />
        </pattern>
      </defs>
      <rect width="100%" height="100%" fill={`url(#${id})`} />
    </svg>
  );
}

interface HazardProps {
  /** The word in red before the title: "Hazard." */
  word?: string | undefined;
  title: ComponentChildren;
  /** "No. 1. Hazard to equipment. Stands on its own." */
  line?: ComponentChildren | undefined;
  children?: ComponentChildren | undefined;
  onPress?: (() => void) | undefined;
}

function HazardInside(props: HazardProps) {
  return (
    <>
      <Hatch />
      <span class="hazard-sign">
        <WarningSign size={1.6} />
      </span>
      <span class="hazard-text">
        <span class="hazard-title">
          <span class="red">{props.word ?? 'Hazard.'}</span> {props.title}
        </span>{' '}
        {props.line !== undefined && <span class="hazard-line">{props.line}</span>}{' '}
        {props.children !== undefined && <span class="hazard-body">{props.children}</span>}
      </span>
    </>
  );
}

export function HazardFrame(props: HazardProps) {
  if (props.onPress)
    return (
      <button type="button" class="hazard hazard-frame" onClick={props.onPress}>
        <HazardInside {...props} />
      </button>
    );
  return (
    <div class="hazard hazard-frame">
      <HazardInside {...props} />
    </div>
  );
}

export function HazardRow(props: HazardProps) {
  if (props.onPress)
    return (
      <button type="button" class="hazard hazard-row" onClick={props.onPress}>
        <HazardInside {...props} />
      </button>
    );
  return (
    <div class="hazard hazard-row">
      <HazardInside {...props} />
    </div>
  );
}

/** A caution of the place: the word in a ruled box, no triangle, above the title block. */
export function Caution(props: { word?: string | undefined; children: ComponentChildren }) {
  return (
    <div class="caution" role="note">
      <span class="caution-word">{props.word ?? 'Caution'}</span>
      <p class="caution-text">{props.children}</p>
    </div>
  );
}
