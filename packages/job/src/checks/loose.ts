import { type Dimension, parseQuantity } from '@airledger/engine';

/** A part of a job that may still be wrong anywhere: checks read it without trusting it. */
export type Loose = Readonly<Record<string, unknown>>;

export const isLoose = (value: unknown): value is Loose =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

export const recordAt = (holder: unknown, key: string): Loose => {
  const value = isLoose(holder) ? holder[key] : undefined;
  return isLoose(value) ? value : {};
};

export const recordsAt = (holder: unknown, key: string): readonly Loose[] => {
  const value = isLoose(holder) ? holder[key] : undefined;
  return Array.isArray(value) ? value.filter(isLoose) : [];
};

export const textAt = (holder: Loose, key: string): string | undefined => {
  const value = holder[key];
  return typeof value === 'string' ? value : undefined;
};

/** SI value of a typed field, undefined when it is missing or wrong (the schema has said so). */
export const siAt = (holder: Loose, key: string, dimension: Dimension): number | undefined => {
  const field = holder[key];
  const text = isLoose(field) ? field.value : field;
  if (typeof text !== 'string' && typeof text !== 'number') return undefined;
  const parsed = parseQuantity(String(text), dimension);
  return 'problem' in parsed ? undefined : parsed.value;
};
