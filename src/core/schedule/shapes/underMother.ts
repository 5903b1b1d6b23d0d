// Numbers that count under another: a fan-out's `.1` under `L7`, a multicore's pairs under its own row. And numbers for a
// left and a right cable. Texts alone.

/** `.1`, `-2`, `/3`, `_4a`: no number by itself. */
const UNDER = /^[./_–-]\s?\d{1,3}[a-z]?$/i;

export interface NumberedRow {
  number: string;
  /** Pair, core or leg of the row. */
  part: string;
}

/**
 * The whole number of each row that counts under the one above; null for the others. A row without a number but with a
 * pair is one where the row above has a number and no pair: that one is the whole cable.
 */
export function underMother(rows: readonly NumberedRow[]): (string | null)[] {
  let mother = '';
  let isWhole = false;
  return rows.map(({ number, part }) => {
    if (UNDER.test(number)) return mother === '' ? null : mother + number.replace(/\s/g, '');
    if (number !== '') {
      mother = number;
      isWhole = part === '';
      return null;
    }
    return part !== '' && isWhole ? `${mother}-${part}` : null;
  });
}

/** `S103-L/R`, `S103 L+R`: a left and a right cable. */
export function isStereo(number: string): boolean {
  return /[\s\d_.-]L\s?[/+&]\s?R$/i.test(number.trim());
}
