import { formatQuantity, type UnitSystem } from '@airledger/engine';
import type { Range } from '@airledger/engine/calibrate/calibration';

/** A range with its middle: "44 (12 to 80) cfm". */
export const rangeText = (
  { low, middle, high }: Range,
  dimension: Parameters<typeof formatQuantity>[1],
  units: UnitSystem,
  digits?: number,
): string => {
  const [first, ...unit] = formatQuantity(middle, dimension, units, digits).split(' ');
  const bare = (value: number) => formatQuantity(value, dimension, units, digits).split(' ')[0];
  return [`${first} (${bare(low)} to ${bare(high)})`, ...unit].join(' ');
};
