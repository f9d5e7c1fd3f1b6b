import { type Dimension, displayUnit, type HowKnown, type UnitSystem } from '@airledger/engine';
import { isDrawn } from '@airledger/job';

/** A quantity as a job holds it: its text, how it is known, a note. */
export type TypedQuantity = { readonly text: string; readonly known?: HowKnown; readonly note?: string };

/** What stands in a field of a quantity; an empty text when nothing does. */
export const typedQuantity = (value: unknown): TypedQuantity => {
  if (value === undefined || value === null) return { text: '' };
  if (typeof value !== 'object') return { text: String(value) };
  const { value: text, known, note } = value as { value?: unknown; known?: HowKnown; note?: string };
  return { text: String(text ?? ''), known, note };
};

/** The shortest way to write it into a job; undefined for an empty text, which takes the field away. */
export const asValue = ({ text, known, note }: TypedQuantity): unknown => {
  const value = text.trim();
  if (value === '') return undefined;
  if (known === undefined && !note) return value;
  return { value, ...(known !== undefined && { known }), ...(note && { note }) };
};

/**
 * A quantity typed anew. What stood in for it, assumed or taken from the drawing, is over with its note: the new figure
 * is no assumption, and no drag measures it again. Of anything else the mark and the note stay.
 */
export const retyped = (before: TypedQuantity, text: string): unknown =>
  asValue(before.known === 'assumed' || isDrawn(asDrawn(before)) ? { text } : { ...before, text });

/** A quantity known in another way; the reason of an assumption goes with it. */
export const knownBy = (before: TypedQuantity, known: HowKnown | undefined): unknown =>
  asValue(before.known === 'assumed' ? { text: before.text, known } : { ...before, known });

const asDrawn = ({ text, note }: TypedQuantity) => ({ value: text, ...(note !== undefined && { note }) });

/** A bare number gets the unit that stands beside the field; anything else, and a share like 0.15, stays as it was typed. */
export const withUnit = (text: string, dimension: Dimension, units: UnitSystem): string => {
  const typed = text.trim();
  const unit = displayUnit(dimension, units);
  if (unit === '' || !/^[-+]?[\d.,]+$/.test(typed)) return typed;
  if (dimension === 'ratio' && /^0?\.\d+$/.test(typed)) return typed;
  if (/^(R|U|RSI|USI)$/.test(unit)) return `${unit}-${typed}`;
  return unit === '°' ? `${typed}°` : `${typed} ${unit}`;
};
