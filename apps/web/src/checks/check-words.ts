import type { Check, CheckQuantity, Dimension } from '@airledger/engine';
import type { Format } from '../figure/format.ts';

const dimensions: Record<CheckQuantity, Dimension> = {
  'leakage per floor area': 'airflowPerArea',
  'share of fan flow': 'ratio',
  insulation: 'resistance',
  velocity: 'velocity',
  pressure: 'pressure',
  'airflow per capacity': 'airflowPerPower',
  temperature: 'temperature',
  'temperature difference': 'temperatureDifference',
  airflow: 'airflow',
  none: 'number',
};

const senses: Record<Check['sense'], string> = {
  'at most': 'at most',
  'at least': 'at least',
  within: 'within',
  'yes or no': '',
};

export const results: Record<Check['result'], { mark: string; words: string }> = {
  fail: { mark: '✕', words: 'fails' },
  'cannot tell': { mark: '?', words: 'cannot tell' },
  pass: { mark: '✓', words: 'holds' },
  exempt: { mark: '–', words: 'exempt' },
};

/** Fails first, then what cannot be told, then what holds. */
export const byResult = (a: Check, b: Check): number =>
  Object.keys(results).indexOf(a.result) - Object.keys(results).indexOf(b.result);

/** A value of a check, with its unit; small pressures are read in pascals in either system. */
export const checkValue = (check: Check, value: number | undefined, format: Format): string => {
  if (value === undefined) return '—';
  if (check.quantity === 'pressure' && Math.abs(check.limit ?? value) < 20)
    return format.roomPressure(value).replace('+', '');
  const digits = check.quantity === 'share of fan flow' ? 1 : undefined;
  return format.full(value, dimensions[check.quantity], digits);
};

/** "14.6 %, at most 4 %" */
export const checkStanding = (check: Check, format: Format): string => {
  const verdict = results[check.result].words;
  if (check.sense === 'yes or no' || check.quantity === 'none' || check.limit === undefined) return verdict;
  const value = check.value === undefined ? 'not known' : checkValue(check, check.value, format);
  return `${value}, ${senses[check.sense]} ${checkValue(check, check.limit, format)}`;
};

/** "over by 10.5 %", "short by R-3.8", "R-2 to spare" */
export const checkMargin = (check: Check, format: Format): string => {
  if (check.margin === undefined) return '';
  const size = checkValue(check, Math.abs(check.margin), format);
  if (check.margin >= 0) return `${size} to spare`;
  return `${check.sense === 'at least' ? 'short' : 'over'} by ${size}`;
};
