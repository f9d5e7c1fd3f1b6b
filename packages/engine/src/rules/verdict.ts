import type { Check } from './types.ts';

/** The part of a check that comparing a value with its limit gives. */
export type Verdict = Pick<Check, 'result' | 'value' | 'limit' | 'margin' | 'sense'>;

/** Pass when `value` is not above `limit`. */
export const atMost = (value: number, limit: number): Verdict => ({
  sense: 'at most',
  result: value <= limit ? 'pass' : 'fail',
  value,
  limit,
  margin: limit - value,
});

/** Pass when `value` is not below `limit`. */
export const atLeast = (value: number, limit: number): Verdict => ({
  sense: 'at least',
  result: value >= limit ? 'pass' : 'fail',
  value,
  limit,
  margin: value - limit,
});

/** Pass when `value` is between the two ends; the limit reported is the nearer one. */
export function within(value: number, least: number, most: number): Verdict {
  const nearer = value - least < most - value ? atLeast(value, least) : atMost(value, most);
  return { ...nearer, sense: 'within' };
}

/** The same figures, but they do not decide. */
export const undecided = (verdict: Verdict): Verdict => ({ ...verdict, result: 'cannot tell' });
