import { type Dimension, type Fact, formatQuantity, type HowKnown, parseQuantity } from '@airledger/engine';
import { type Typed, typedText } from '../typed.ts';
import { defaultOf } from './tables.ts';

/** A value without a range: how it is known, and whether it follows from other values instead of a table or a hand. */
export type Unranged = {
  readonly value: number;
  readonly dimension: Dimension;
  readonly howKnown: HowKnown;
  readonly defaulted: boolean;
  readonly derived: boolean;
};

/** Draws a value from the range of a field; see `surveyOf`. */
export type Sample = {
  (
    path: string,
    range: { readonly value: number; readonly low: number; readonly high: number },
    known: Unranged,
  ): number;
  /** Asked, where there is one, for values without a range too. */
  readonly unranged?: (path: string, known: Unranged) => number;
};

/** What stands in for a field that the job leaves out: a text from a table, or a value that follows from others. */
export type Fallback = { readonly source: string } & ({ readonly text: string } | { readonly value: number });

/** Reads typed fields into SI, one after the other, and keeps what is known about each. */
export type Surveyor = {
  readonly facts: Record<string, Fact>;
  /** SI value of a field, or of what stands in for it. */
  readonly quantity: (
    path: string,
    typed: Typed | undefined,
    dimension: Dimension,
    fallback: Fallback,
  ) => number;
  /** SI value of a field that may be missing without anything in its stead. */
  readonly optional: (path: string, typed: Typed | undefined, dimension: Dimension) => number | undefined;
  /** SI value of a field that the schema requires. */
  readonly required: (path: string, typed: Typed, dimension: Dimension) => number;
  /** A name that stands for a row of a table. */
  readonly lookedUp: (path: string, name: string, source: string, value: number | undefined) => void;
  /** A word of the job, or the usual one. */
  readonly word: <T extends string>(path: string, typed: T | undefined, usual: T, source: string) => T;
};

const usualFields = new Map<string, Fallback>();

/** A row of the table of defaults as a fallback. */
export const usually = (field: string): Fallback => {
  const known = usualFields.get(field);
  if (known) return known;
  const { value, source } = defaultOf(field);
  const fallback = { text: value, source };
  usualFields.set(field, fallback);
  return fallback;
};

/** SI value of a text out of a table. */
export const tableValue = (text: string, dimension: Dimension): number => {
  const parsed = parseQuantity(text, dimension);
  if ('problem' in parsed) throw new Error(`The table value "${text}" ${parsed.problem}.`);
  return parsed.value;
};

/** SI value of a row of the table of defaults that has no field of its own in the job. */
export const usualValue = (field: string, dimension: Dimension): number =>
  tableValue(defaultOf(field).value, dimension);

/** Source of a free area that follows from a face. */
export const shareOfFace = (field: string): string => {
  const { value, source } = defaultOf(field);
  return `${value} of the face; ${source}`;
};

const written = new Map<Dimension, Map<number, string>>();

/** A value that follows from others as one would type it; remembered, since a survey is made anew on every edit. */
const asTyped = (value: number, dimension: Dimension): string => {
  let texts = written.get(dimension);
  if (texts === undefined || texts.size > 5_000) {
    texts = new Map();
    written.set(dimension, texts);
  }
  let text = texts.get(value);
  if (text === undefined) {
    text = formatQuantity(value, dimension, 'ip');
    texts.set(value, text);
  }
  return text;
};

export const surveyor = (usualKnown: HowKnown, sample: Sample | undefined): Surveyor => {
  const facts: Record<string, Fact> = {};

  const read = (
    path: string,
    typed: string,
    dimension: Dimension,
    howKnown: HowKnown,
    source: string | undefined,
  ): number => {
    const parsed = parseQuantity(typed, dimension);
    if ('problem' in parsed)
      throw new Error(`${path}: "${typed}" ${parsed.problem}; check the job before surveying it.`);
    const { low, high } = parsed;
    const defaulted = source !== undefined;
    const known = () => ({ value: parsed.value, dimension, howKnown, defaulted, derived: false });
    if (low === undefined || high === undefined) {
      const value = sample?.unranged === undefined ? parsed.value : sample.unranged(path, known());
      facts[path] = { typed, howKnown, defaulted, source, value };
      return value;
    }
    const value =
      sample === undefined ? parsed.value : sample(path, { value: parsed.value, low, high }, known());
    facts[path] = { typed, howKnown, defaulted, source, value, low, high };
    return value;
  };

  const required = (path: string, typed: Typed, dimension: Dimension): number =>
    read(
      path,
      typedText(typed),
      dimension,
      (typeof typed === 'object' ? typed.known : undefined) ?? usualKnown,
      undefined,
    );

  const quantity = (
    path: string,
    typed: Typed | undefined,
    dimension: Dimension,
    fallback: Fallback,
  ): number => {
    if (typed !== undefined) return required(path, typed, dimension);
    if ('text' in fallback) return read(path, fallback.text, dimension, 'assumed', fallback.source);
    const { source } = fallback;
    const known = { value: fallback.value, dimension, howKnown: 'assumed', defaulted: true } as const;
    const value =
      sample?.unranged === undefined ? known.value : sample.unranged(path, { ...known, derived: true });
    facts[path] = { typed: asTyped(value, dimension), howKnown: 'assumed', defaulted: true, source, value };
    return value;
  };

  return {
    facts,
    quantity,
    required,
    optional: (path, typed, dimension) =>
      typed === undefined ? undefined : required(path, typed, dimension),
    lookedUp: (path, name, source, value) => {
      facts[path] = { typed: name, howKnown: usualKnown, defaulted: false, source, value };
    },
    word: (path, typed, usual, source) => {
      facts[path] =
        typed === undefined
          ? { typed: usual, howKnown: 'assumed', defaulted: true, source }
          : { typed, howKnown: usualKnown, defaulted: false };
      return typed ?? usual;
    },
  };
};
