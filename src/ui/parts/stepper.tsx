// A number that is stepped with − and +, each a full target for a gloved thumb, or typed. It hands on whole numbers
// within its bounds alone; what is typed beside them stays in view with the reason and counts for nothing.
import { useSignal } from '@preact/signals';
import { useId } from 'preact/hooks';

export function Stepper(props: {
  label: string;
  value: number;
  least: number;
  most: number;
  onChange: (value: number) => void;
}) {
  const { label, value, least, most, onChange } = props;
  const typed = useSignal<string | null>(null);
  const error = useId();
  const fits = (text: string) => /^\s*\d+\s*$/.test(text) && Number(text) >= least && Number(text) <= most;
  const isWrong = typed.value !== null && !fits(typed.value);
  const step = (to: number) => {
    typed.value = null;
    onChange(to);
  };
  return (
    <fieldset class="stepper">
      <legend class="field-label">{label}</legend>
      <div class="stepper-row">
        <button
          type="button"
          aria-label={`${label}: one less`}
          disabled={value <= least}
          onClick={() => step(value - 1)}
        >
          −
        </button>
        <input
          type="text"
          inputMode="numeric"
          autocomplete="off"
          aria-label={label}
          aria-invalid={isWrong ? 'true' : undefined}
          aria-describedby={isWrong ? error : undefined}
          value={typed.value ?? String(value)}
          onFocus={(e) => e.currentTarget.select()}
          onInput={(e) => {
            typed.value = e.currentTarget.value;
            if (fits(typed.value)) onChange(Number(typed.value));
          }}
          onBlur={() => {
            if (!isWrong) typed.value = null;
          }}
        />
        <button
          type="button"
          aria-label={`${label}: one more`}
          disabled={value >= most}
          onClick={() => step(value + 1)}
        >
          +
        </button>
      </div>
      {isWrong && (
        <p class="field-error" id={error} role="alert">
          A whole number from {least} to {most}; until then {value} counts.
        </p>
      )}
      <output class="only-spoken" aria-live="polite">
        {value}
      </output>
    </fieldset>
  );
}
