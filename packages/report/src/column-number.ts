import { type Dimension, dimensions, displayNumber, type UnitSystem } from '@airledger/engine';

/**
 * Number of an SI value for a column whose head carries the unit: "1,234", "0.412", "−56".
 * A value that is absent or not a number gives "—"; `digits` overrides the decimals of the dimension.
 */
export const columnNumber = (
  si: number | undefined,
  dimension: Dimension,
  units: UnitSystem,
  digits: number = dimensions[dimension][units][1],
): string => {
  if (si === undefined || !Number.isFinite(si)) return '—';
  const shown = displayNumber(si, dimension, units);
  const [whole, decimals] = Math.abs(shown).toFixed(digits).split('.');
  const text = whole!.replace(/\B(?=(\d{3})+$)/g, ',') + (decimals === undefined ? '' : `.${decimals}`);
  return shown < 0 && /[1-9]/.test(text) ? `−${text}` : text;
};
