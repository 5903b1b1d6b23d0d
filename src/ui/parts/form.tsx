// Inputs: a labelled field with hint and error, ruled choices, check rows. The value lives with the caller, who
// saves a draft on every keystroke; nothing here validates.
import type { ComponentChildren } from 'preact';
import { useId } from 'preact/hooks';

interface FieldProps {
  label: string;
  value: string;
  onInput: (value: string) => void;
  hint?: ComponentChildren | undefined;
  error?: string | undefined;
  type?: 'text' | 'search' | 'number' | 'date' | 'time' | 'url' | 'tel' | undefined;
  inputMode?: 'text' | 'numeric' | 'decimal' | 'search' | 'url' | 'none' | undefined;
  /** More than one makes it a text area. */
  lines?: number | undefined;
  /** Identifiers are set in mono, without correction or capitals put in by the phone. */
  ident?: boolean | undefined;
  required?: boolean | undefined;
  disabled?: boolean | undefined;
  autoFocus?: boolean | undefined;
  placeholder?: string | undefined;
  onEnter?: (() => void) | undefined;
  /** Words to choose from while typing. */
  suggestions?: readonly string[] | undefined;
}

export function Field(props: FieldProps) {
  const id = useId();
  const notes = [props.hint !== undefined && `${id}-hint`, props.error !== undefined && `${id}-error`].filter(Boolean);
  const shared = {
    id,
    class: `field-input${props.ident ? ' ident' : ''}`,
    value: props.value,
    required: props.required,
    disabled: props.disabled,
    placeholder: props.placeholder,
    autofocus: props.autoFocus,
    autocomplete: 'off' as const,
    spellcheck: !props.ident,
    autocapitalize: props.ident ? ('off' as const) : undefined,
    'aria-invalid': props.error !== undefined ? ('true' as const) : undefined,
    'aria-describedby': notes.length > 0 ? notes.join(' ') : undefined,
  };
  return (
    <div class={`field${props.error !== undefined ? ' field-wrong' : ''}`}>
      <label class="field-label" for={id}>
        {props.label}
      </label>
      {props.hint !== undefined && (
        <p class="field-hint" id={`${id}-hint`}>
          {props.hint}
        </p>
      )}
      {props.lines !== undefined && props.lines > 1 ? (
        <textarea
          {...shared}
          rows={props.lines}
          onInput={(e) => props.onInput(e.currentTarget.value)}
          // By itself the browser brings only the line of the caret into view.
          onFocus={(e) => e.currentTarget.scrollIntoView({ block: 'nearest' })}
        />
      ) : (
        <input
          {...shared}
          type={props.type ?? 'text'}
          inputMode={props.inputMode}
          list={props.suggestions ? `${id}-list` : undefined}
          onInput={(e) => props.onInput(e.currentTarget.value)}
          onKeyDown={(e) => {
            if (e.key === 'Enter' && props.onEnter) {
              e.preventDefault();
              props.onEnter();
            }
          }}
        />
      )}
      {props.suggestions && (
        <datalist id={`${id}-list`}>
          {props.suggestions.map((word) => (
            <option key={word} value={word} />
          ))}
        </datalist>
      )}
      <p class="field-error" id={`${id}-error`} aria-live="polite">
        {props.error}
      </p>
    </div>
  );
}

interface ChoiceOption<T extends string> {
  value: T;
  text: ComponentChildren;
  second?: ComponentChildren | undefined;
  disabled?: boolean | undefined;
}

/** One of several, as ruled cells: side by side when short, one under the other when `stacked`. */
export function Choice<T extends string>(props: {
  legend: string;
  options: readonly ChoiceOption<T>[];
  value: T | undefined;
  onChoose: (value: T) => void;
  stacked?: boolean | undefined;
  hint?: ComponentChildren | undefined;
}) {
  const name = useId();
  return (
    <fieldset class={`choice${props.stacked ? ' choice-stacked' : ''}`}>
      <legend class="field-label">{props.legend}</legend>
      {props.hint !== undefined && <p class="field-hint">{props.hint}</p>}
      <div class="choice-cells">
        {props.options.map((option) => (
          <label key={option.value} class="choice-cell">
            <input
              type="radio"
              name={name}
              value={option.value}
              checked={option.value === props.value}
              disabled={option.disabled}
              onChange={() => props.onChoose(option.value)}
            />
            <span class="choice-text">
              {option.text}
              {option.second !== undefined && <span class="choice-second">{option.second}</span>}
            </span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}

export function CheckRow(props: {
  text: ComponentChildren;
  second?: ComponentChildren | undefined;
  checked: boolean;
  onChange: (checked: boolean) => void;
  disabled?: boolean | undefined;
}) {
  return (
    <label class="check-row">
      <input
        type="checkbox"
        checked={props.checked}
        disabled={props.disabled}
        onChange={(e) => props.onChange(e.currentTarget.checked)}
      />
      <span class="check-text">
        {props.text}
        {props.second !== undefined && <span class="row-second">{props.second}</span>}
      </span>
    </label>
  );
}

/** A plain ruled button inside the sheet; actions of a screen belong in the title block. */
export function PlainButton(props: {
  children: ComponentChildren;
  onPress: () => void;
  disabled?: boolean | undefined;
  primary?: boolean | undefined;
}) {
  return (
    <button
      type="button"
      class={`plain-button${props.primary ? ' plain-primary' : ''}`}
      disabled={props.disabled}
      onClick={props.onPress}
    >
      {props.children}
    </button>
  );
}
