import { toSi } from '../units/dimension.ts';
import type { ExpectedRange } from './expected-range.ts';
import type { subjectDimension } from './subject-name.ts';

/** A slip of the hand that turns an impossible or unlikely value into a likely one. */
export type Slip = {
  readonly kind: 'wrong unit' | 'wrong sign';
  readonly meant: number;
  readonly words: string;
};

type Guess = { readonly from: string; readonly to: string; readonly meant: (value: number) => number };

const inWc = toSi('pressure', 1, 'in.wc');
const cfm = toSi('airflow', 1, 'cfm');
const litre = 0.001;

const pressures: readonly Guess[] = [
  { from: 'in.wc', to: 'Pa', meant: (value) => value / inWc },
  { from: 'Pa', to: 'in.wc', meant: (value) => value * inWc },
];
const guesses: Readonly<Record<ReturnType<typeof subjectDimension>, readonly Guess[]>> = {
  pressure: pressures,
  airflow: [
    { from: 'L/s', to: 'cfm', meant: (value) => (value / litre) * cfm },
    { from: 'cfm', to: 'L/s', meant: (value) => (value / cfm) * litre },
    { from: 'm³/h', to: 'cfm', meant: (value) => value * 3600 * cfm },
  ],
  temperature: [
    { from: '°C', to: '°F', meant: (value) => toSi('temperature', value, '°F') },
    { from: '°F', to: '°C', meant: (value) => value * 1.8 + 32 },
  ],
  electricPower: [
    { from: 'kW', to: 'W', meant: (value) => value / 1000 },
    { from: 'W', to: 'kW', meant: (value) => value * 1000 },
  ],
};

/** Smallest share of the likely that a meant value may be: a range that begins at 0 would explain any large one. */
const noticeable = 0.02;

const within = (value: number, [least, most]: readonly [number, number]): boolean =>
  value >= least &&
  value <= most &&
  Math.abs(value) >= noticeable * Math.max(Math.abs(least), Math.abs(most));

/**
 * The slip that would explain a value outside its likely range: hoses swapped, or one unit typed for another. Pressures
 * have both tried together. Undefined when none makes the value likely.
 */
export const typedWrong = (
  value: number,
  dimension: ReturnType<typeof subjectDimension>,
  { likely }: ExpectedRange,
): Slip | undefined => {
  if (dimension === 'pressure' && within(-value, likely))
    return { kind: 'wrong sign', meant: -value, words: 'the hoses may be swapped' };
  if (dimension === 'airflow' && within(-value, likely))
    return {
      kind: 'wrong sign',
      meant: -value,
      words: 'the sign may be wrong, or the instrument turned round',
    };
  for (const { from, to, meant } of guesses[dimension]) {
    const other = meant(value);
    if (within(other, likely))
      return { kind: 'wrong unit', meant: other, words: `${to} may have been typed as ${from}` };
    if (dimension === 'pressure' && within(-other, likely))
      return {
        kind: 'wrong unit',
        meant: -other,
        words: `${to} may have been typed as ${from}, with the hoses swapped`,
      };
  }
  return undefined;
};
