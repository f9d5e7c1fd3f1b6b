import { type Dimension, displayUnit, parseQuantity, type UnitSystem } from '@airledger/engine';

/** SI value of a text; a bare number counts in the display unit. What is wrong completes "it …". */
export const parseTyped = (
  text: string,
  dimension: Dimension,
  units: UnitSystem,
): { readonly value: number } | { readonly problem: string } => {
  const unit = displayUnit(dimension, units);
  const bare = /^\s*[-+]?[\d.,]+\s*$/.test(text);
  const parsed = parseQuantity(
    bare ? (/^(R|U|RSI|USI)$/.test(unit) ? `${unit}-${text.trim()}` : `${text} ${unit}`) : text,
    dimension,
  );
  if ('problem' in parsed) return { problem: parsed.problem };
  return Number.isFinite(parsed.value) ? { value: parsed.value } : { problem: 'is not a number' };
};
