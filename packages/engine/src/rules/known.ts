import type { HowKnown, Survey } from '../survey/types.ts';

/** How a value behind a check is known. */
export type Known = { readonly howKnown: HowKnown; readonly defaulted: boolean };

/**
 * How a value is known, from the facts of the survey by its path in the job.
 * A survey without that fact states the value without saying how: taken as estimated.
 */
export const known = (survey: Survey, path: string): Known =>
  survey.facts[path] ?? { howKnown: 'estimated', defaulted: false };

/** The same for a field of a duct part. */
export const partKnown = (survey: Survey, system: string, part: string, field: string): Known =>
  known(survey, `systems/${system}/parts/${part}/${field}`);

/** Whether a value may decide a check: a default or an assumption never does. */
export const decides = ({ howKnown, defaulted }: Known): boolean => !defaulted && howKnown !== 'assumed';

/** For the evidence: how the values of several things are known, worst first. */
export function knownText(all: readonly Known[]): string {
  const words = all.map(({ howKnown, defaulted }) => (defaulted ? 'a default' : howKnown));
  const order = ['a default', 'assumed', 'estimated', 'read off', 'measured'];
  return order.filter((word) => words.includes(word as HowKnown)).join(', ');
}
