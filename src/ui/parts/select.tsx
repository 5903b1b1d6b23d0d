// One of many, where ruled cells would fill the screen: a labelled list that the phone opens in its own way. The value
// lives with the caller.
import { useId } from 'preact/hooks';

interface SelectProps<T extends string> {
  label: string;
  value: T;
  options: readonly { value: T; text: string }[];
  onChoose: (value: T) => void;
  hint?: string | undefined;
  disabled?: boolean | undefined;
  /** The label is for those who hear the screen; a heading or a column says it to the eye. */
  bare?: boolean | undefined;
}

export function Select<T extends string>(props: SelectProps<T>) {
  const id = useId();
  return (
    <div class={`field${props.bare ? ' field-bare' : ''}`}>
      <label class={props.bare ? 'only-spoken' : 'field-label'} for={id}>
        {props.label}
      </label>
      {props.hint !== undefined && (
        <p class="field-hint" id={`${id}-hint`}>
          {props.hint}
        </p>
      )}
      <span class="field-select">
        <select
          id={id}
          class="field-input"
          value={props.value}
          disabled={props.disabled}
          aria-describedby={props.hint === undefined ? undefined : `${id}-hint`}
          onChange={(e) => props.onChoose(e.currentTarget.value as T)}
        >
          {props.options.map((option) => (
            <option key={option.value} value={option.value} selected={option.value === props.value}>
              {option.text}
            </option>
          ))}
        </select>
      </span>
    </div>
  );
}
