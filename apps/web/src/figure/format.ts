import { type Dimension, displayUnit, formatQuantity, type UnitSystem } from '@airledger/engine';

export type Format = {
  readonly units: UnitSystem;
  /** Value with its unit; a dash for what is no number. */
  readonly full: (si: number | undefined, dimension: Dimension, digits?: number) => string;
  /** Value without its unit, for places that name the unit once. */
  readonly bare: (si: number | undefined, dimension: Dimension, digits?: number) => string;
  readonly unit: (dimension: Dimension) => string;
  /** "84 of 140 cfm" */
  readonly of: (have: number, need: number, dimension: Dimension) => string;
  /** Room pressures are read in pascals in either system. */
  readonly roomPressure: (pressure_Pa: number) => string;
};

export const formatIn = (units: UnitSystem): Format => {
  const full: Format['full'] = (si, dimension, digits) =>
    si === undefined ? '—' : formatQuantity(si, dimension, units, digits);
  const bare: Format['bare'] = (si, dimension, digits) =>
    full(si, dimension, digits).replace(` ${displayUnit(dimension, units)}`, '');
  return {
    units,
    full,
    bare,
    unit: (dimension) => displayUnit(dimension, units),
    of: (have, need, dimension) => `${bare(have, dimension, 0)} of ${full(need, dimension, 0)}`,
    roomPressure: (pressure_Pa) => signed(formatQuantity(pressure_Pa, 'pressure', 'si')),
  };
};

/** Writes a plus before a positive figure, so that its direction is always said. */
export const signed = (text: string): string =>
  /^[-−—]/.test(text) || /^0(\.0+)?( |$)/.test(text) ? text.replace('-', '−') : `+${text}`;
