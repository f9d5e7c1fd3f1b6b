/** One thing wrong with a job file. */
export type JobError = {
  /** Where, by ids: `systems/main/parts/run-2/length`. Empty for the file as a whole. */
  readonly path: string;
  /** What stands there, as JSON or text; 'nothing' when it is missing. */
  readonly value: string;
  readonly expected: string;
  readonly remedy: string;
  /** All of it in one sentence or two. */
  readonly message: string;
};

const longest = 60;

/** A value as an error shows it: short, on one line. */
export const shown = (value: unknown): string => {
  if (value === undefined) return 'nothing';
  if (Array.isArray(value)) return value.length === 0 ? 'an empty list' : 'a list';
  if (typeof value === 'object' && value !== null)
    return 'value' in value ? shown((value as { value: unknown }).value) : 'a record';
  const text = JSON.stringify(value) ?? String(value);
  return text.length > longest ? `${text.slice(0, longest)}…` : text;
};

export const jobError = (path: string, value: string, expected: string, remedy: string): JobError => ({
  path,
  value,
  expected,
  remedy,
  message: `${path === '' ? 'The file' : path}: found ${value}, expected ${expected}. ${remedy}`,
});
