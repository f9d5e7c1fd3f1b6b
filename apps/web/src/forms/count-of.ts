/** A whole number; anything else stays text, so that the job says what is wrong with it. */
export const countOf = (text: string): number | string | undefined => {
  const typed = text.trim();
  if (typed === '') return undefined;
  return /^-?\d+$/.test(typed) ? Number(typed) : typed;
};
