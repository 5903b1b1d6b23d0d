// One entry of a list of the station's rules, with the way to take it out.
import { Row } from '../parts/rows.tsx';

export function RuleEntry(props: { title: string; second: string; onRemove: () => void }) {
  return (
    <div class="desk-entry">
      <Row title={props.title} second={props.second || undefined} />
      <button type="button" class="plain-button" aria-label={`Remove ${props.title}`} onClick={props.onRemove}>
        {' '}
        Remove{' '}
      </button>
    </div>
  );
}
