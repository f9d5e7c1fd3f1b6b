import { type Dimension, fromSi, type PlanPoint, parseQuantity, type UnitSystem } from '@airledger/engine';
import { type Typed, typedText } from '../typed.ts';

const rounded = (value: number, step: number): number => Number((Math.round(value / step) * step).toFixed(6));

/** A length as one would type it: "12 ft 6.5 in" to a tenth of an inch, or "3.82 m" to a millimetre. */
export const lengthText = (length_m: number, units: UnitSystem): string => {
  if (units === 'si') return `${rounded(length_m, 0.001)} m`;
  const tenths = Math.round(fromSi('length', Math.abs(length_m), 'in') * 10);
  const sign = length_m < 0 && tenths > 0 ? '-' : '';
  const feet = Math.floor(tenths / 120);
  const inches = (tenths % 120) / 10;
  if (inches === 0) return `${sign}${feet} ft`;
  return feet === 0 ? `${sign}${inches} in` : `${sign}${feet} ft ${inches} in`;
};

/** A point of the plan: east, then north. */
export const pointText = ([x, y]: PlanPoint, units: UnitSystem): string =>
  `${lengthText(x, units)}, ${lengthText(y, units)}`;

/** An area as one would type it: to a tenth of a square foot, or a hundredth of a square metre. */
export const areaText = (area_m2: number, units: UnitSystem): string =>
  units === 'ip' ? `${rounded(fromSi('area', area_m2, 'ft²'), 0.1)} ft²` : `${rounded(area_m2, 0.01)} m²`;

/** Width × height of a window, door or grille. */
export const sizeText = (width_m: number, height_m: number, units: UnitSystem): string =>
  `${lengthText(width_m, units)} x ${lengthText(height_m, units)}`;

/** SI value of a typed field that the schema has let through; undefined when there is none. */
export const siOf = (typed: Typed | undefined, dimension: Dimension): number | undefined => {
  if (typed === undefined) return undefined;
  const parsed = parseQuantity(typedText(typed), dimension);
  return 'problem' in parsed ? undefined : parsed.value;
};
