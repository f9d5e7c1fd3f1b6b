import { type Dimension, type Fact, formatQuantity, type HowKnown, parseQuantity } from '@airledger/engine';
import { type Typed, typedText } from '../typed.ts';
import { defaultOf } from './tables.ts';

/** Draws a value from the range of a field; see `surveyOf`. */
export type Sample = (
  path: string,
  range: { readonly value: number; readonly low: number; readonly high: number },
) => number;

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
  /** A word of the job, or the usual one. */
  readonly word: <T extends string>(path: string, typed: T | undefined, usual: T, source: string) => T;
};

/** A row of the table of defaults as a fallback. */
export const usually = (field: string): Fallback => {
  const { value, source } = defaultOf(field);
  return { text: value, source };
};

export const surveyor = (usualKnown: HowKnown, sample: Sample | undefined): Surveyor => {
  const facts: Record<string, Fact> = {};

  const drawn = (path: string, value: number, low: number | undefined, high: number | undefined): number =>
    sample === undefined || low === undefined || high === undefined
      ? value
      : sample(path, { value, low, high });

  const read = (
    path: string,
    typed: string,
    dimension: Dimension,
    about: Pick<Fact, 'howKnown' | 'defaulted' | 'source'>,
  ): number => {
    const parsed = parseQuantity(typed, dimension);
    if ('problem' in parsed)
      throw new Error(`${path}: "${typed}" ${parsed.problem}; check the job before surveying it.`);
    const value = drawn(path, parsed.value, parsed.low, parsed.high);
    facts[path] = { typed, ...about, ...parsed, value };
    return value;
  };

  const required = (path: string, typed: Typed, dimension: Dimension): number =>
    read(path, typedText(typed), dimension, {
      howKnown: (typeof typed === 'object' ? typed.known : undefined) ?? usualKnown,
      defaulted: false,
    });

  const quantity = (
    path: string,
    typed: Typed | undefined,
    dimension: Dimension,
    fallback: Fallback,
  ): number => {
    if (typed !== undefined) return required(path, typed, dimension);
    const about = { howKnown: 'assumed', defaulted: true, source: fallback.source } as const;
    if ('text' in fallback) return read(path, fallback.text, dimension, about);
    facts[path] = { typed: formatQuantity(fallback.value, dimension, 'ip'), ...about, value: fallback.value };
    return fallback.value;
  };

  return {
    facts,
    quantity,
    required,
    optional: (path, typed, dimension) =>
      typed === undefined ? undefined : required(path, typed, dimension),
    word: (path, typed, usual, source) => {
      facts[path] =
        typed === undefined
          ? { typed: usual, howKnown: 'assumed', defaulted: true, source }
          : { typed, howKnown: usualKnown, defaulted: false };
      return typed ?? usual;
    },
  };
};
