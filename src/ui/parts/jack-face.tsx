// A unit's face as the eye sees it: to scale with a window that follows the current jack, or, for a row sweep,
// the whole face enlarged. In words beneath it: which side is which.
import type { PlaceId } from '../../core/plan/identity.ts';
import { FaceStrip } from './face-strip.tsx';
import { JackWindow } from './jack-window.tsx';
import { type FaceProps, rangePlaces, seenRows } from './marks.ts';
import { SweepFace } from './sweep-face.tsx';

export function JackFace(props: FaceProps) {
  const whole = props.enlarged === true || props.range !== undefined;
  return (
    <figure class="jack-face">
      {whole ? (
        <SweepFace {...props} />
      ) : (
        <>
          <FaceStrip {...props} />
          <JackWindow {...props} />
        </>
      )}
      <figcaption class="face-words">
        {asYouSeeIt(props)}
        {props.range !== undefined && ` ${rangeInWords(props.rows, props.range)}`}
      </figcaption>
    </figure>
  );
}

/** Where the first names stand, in words. */
export function asYouSeeIt(props: Pick<FaceProps, 'rows' | 'mirrored' | 'blind'>): string {
  const rows = seenRows(props.rows, props.mirrored ?? false).filter((row) => row.length > 0);
  const first = rows[0]?.[0];
  if (!first) return 'No jacks are known on this face.';
  const behind = props.mirrored ? 'A through-panel from behind: ' : 'As you see it: ';
  const under = rows[1]?.[0];
  const where = under ? `${first.label} upper left, ${under.label} below.` : `${first.label} on your left.`;
  return `${behind}${where}${props.blind ? '' : ' Dashed: plan, or not looked at.'}`;
}

/** Where the range begins and ends and how many jacks it claims, in words beside the line. */
export function rangeInWords(rows: FaceProps['rows'], range: NonNullable<FaceProps['range']>): string {
  const labelOf = (place: PlaceId) => rows.flat().find((jack) => jack.place === place)?.label ?? place;
  const count = rangePlaces(rows, range).length;
  return `First ${labelOf(range.first)}, last ${labelOf(range.last)}; inside the line: ${count} ${count === 1 ? 'jack' : 'jacks'}.`;
}
