// A number that is stepped with − and +, each a full target for a gloved thumb; it can be typed nowhere, so it never
// holds what is no number.
export function Stepper(props: {
  label: string;
  value: number;
  least: number;
  most: number;
  onChange: (value: number) => void;
}) {
  const { label, value, least, most, onChange } = props;
  return (
    <fieldset class="stepper">
      <legend class="field-label">{label}</legend>
      <div class="stepper-row">
        <button
          type="button"
          aria-label={`${label}: one less`}
          disabled={value <= least}
          onClick={() => onChange(value - 1)}
        >
          −
        </button>
        <output aria-live="polite">{value}</output>
        <button
          type="button"
          aria-label={`${label}: one more`}
          disabled={value >= most}
          onClick={() => onChange(value + 1)}
        >
          +
        </button>
      </div>
    </fieldset>
  );
}
