import { type Dimension, dimensions, type UnitSystem, unitsOf } from './dimension.ts';

const grouped = (digits: string): string => {
  const [whole = '', decimals] = digits.split('.');
  const spaced =
    whole.length > 4 + Number(whole.startsWith('-')) ? whole.replace(/\B(?=(\d{3})+$)/g, ',') : whole;
  return decimals === undefined ? spaced : `${spaced}.${decimals}`;
};

/** Number of an SI value in its display unit, without the unit. */
export const displayNumber = (si: number, dimension: Dimension, system: UnitSystem): number => {
  const { factor, zero = 0 } = unitsOf(dimension)[dimensions[dimension][system][0]]!;
  return (si - zero) / factor;
};

/** Display unit of a dimension, for column heads. */
export const displayUnit = (dimension: Dimension, system: UnitSystem): string =>
  dimensions[dimension][system][0];

/**
 * SI value as text in the trade's unit: "94 cfm", "0.500 in.wc", "R-8", "72.0 °F".
 * `digits` overrides the decimals of the dimension; a value that is not a number gives "—".
 * What it writes, `parseQuantity` reads back.
 */
export const formatQuantity = (
  si: number,
  dimension: Dimension,
  system: UnitSystem,
  digits?: number,
): string => {
  if (!Number.isFinite(si)) return '—';
  const [unit, decimals] = dimensions[dimension][system];
  const fixed = displayNumber(si, dimension, system).toFixed(digits ?? decimals);
  const number = grouped(Number(fixed) === 0 ? fixed.replace('-', '') : fixed);
  if (unit === '') return number;
  if (unit === '°') return `${number}°`;
  if (unit === 'R') return `R-${digits === undefined ? number.replace(/\.0$/, '') : number}`;
  if (unit === 'U') return `U-${number}`;
  return unitsOf(dimension)[unit]!.leads ? `${unit} ${number}` : `${number} ${unit}`;
};
