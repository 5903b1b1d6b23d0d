// What a person said of rows that may not be there any more: once for all rows of a sheet that say it in the same style.

export interface GoneAnswer {
  sheet: string;
  /** A style as a question names it. */
  style: string;
  /** Removed: no item. `in-use`: the style says nothing. */
  as: 'removed' | 'spare' | 'future' | 'in-use';
}

/** Adds an answer; an earlier one for the same style of the sheet gives way. */
export function withGone<T extends { gone?: GoneAnswer[] | undefined }>(answers: T, answer: GoneAnswer): T {
  const others = (answers.gone ?? []).filter(({ sheet, style }) => sheet !== answer.sheet || style !== answer.style);
  return { ...answers, gone: [...others, answer] };
}

/** Takes an answer back, so that the question is asked again. */
export function withoutGone<T extends { gone?: GoneAnswer[] | undefined }>(answers: T, answer: GoneAnswer): T {
  return { ...answers, gone: (answers.gone ?? []).filter((one) => one !== answer) };
}
