// The touchable layer over a drawing: real buttons (or, where nothing can be pressed, a list of names) placed in
// per cent over the drawing, which itself is hidden from assistive technology.
import type { PlaceId } from '../../core/plan/identity.ts';
import { type JackMark, jackName } from './marks.ts';

export interface Spot {
  jack: JackMark;
  x: number;
  y: number;
  width: number;
  height: number;
}

export function JackButtons(props: {
  spots: readonly Spot[];
  width: number;
  height: number;
  current?: string | undefined;
  blind: boolean;
  onPress?: ((place: PlaceId) => void) | undefined;
  /** Places that are in the range of a row sweep. */
  chosen?: ReadonlySet<string> | undefined;
}) {
  if (!props.onPress)
    return (
      <ul class="only-spoken">
        {props.spots.map((spot) => (
          <li key={spot.jack.place} aria-current={spot.jack.place === props.current ? 'true' : undefined}>
            {jackName(spot.jack, props.blind)}
          </li>
        ))}
      </ul>
    );
  const press = props.onPress;
  const share = (part: number, whole: number) => `${(100 * part) / whole}%`;
  return (
    <>
      {props.spots.map((spot) => (
        <button
          key={spot.jack.place}
          type="button"
          class="jack-button"
          aria-label={jackName(spot.jack, props.blind)}
          aria-current={spot.jack.place === props.current ? 'true' : undefined}
          aria-pressed={props.chosen ? props.chosen.has(spot.jack.place) : undefined}
          style={{
            left: share(spot.x, props.width),
            top: share(spot.y, props.height),
            width: share(spot.width, props.width),
            height: share(spot.height, props.height),
          }}
          onClick={() => press(spot.jack.place)}
        />
      ))}
    </>
  );
}
