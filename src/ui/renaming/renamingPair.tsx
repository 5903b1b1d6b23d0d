// An old name and the new one as two labels side by side: the plan's is dashed until it stands on the floor.
import { CableLabel } from '../parts/label.tsx';
import { labelToShow } from '../walk/walkState.ts';

export function Pair(props: { old: string; fresh: string; done?: boolean }) {
  return (
    <span class="renaming-pair">
      <CableLabel text={labelToShow(props.old)} /> becomes{' '}
      <CableLabel text={labelToShow(props.fresh)} variant={props.done ? 'found' : 'plan'} />
    </span>
  );
}
