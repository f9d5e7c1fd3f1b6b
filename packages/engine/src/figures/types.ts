import type { Dimension } from '../units/dimension.ts';

/** One option of a figure. Numbers are SI; `points` are pairs of SI numbers; `text` is a name from a list. */
export type FigureOption = {
  readonly dimension: Dimension | 'text' | 'points';
  readonly help: string;
  /** As a person would type it. */
  readonly example: string;
  readonly required?: true;
  readonly default?: number | string;
  /** Smallest and largest value that make sense, SI, both allowed. */
  readonly least?: number;
  readonly most?: number;
  /** Values of a text option. */
  readonly choices?: readonly string[];
  /** Dimensions of the two halves of a point. */
  readonly pair?: readonly [Dimension, Dimension];
};

/** Options of a figure by name. */
export type FigureOptions = Readonly<Record<string, FigureOption>>;

/** Pairs of SI numbers, as of a test at several pressures. */
export type Points = readonly (readonly [number, number])[];
/** What was given for the options, in SI. */
export type FigureInputs = Readonly<Record<string, number | string | Points | undefined>>;

/** An SI value and what it measures; `digits` where the usual number of decimals would hide it. */
export type FigureValue = {
  readonly value: number;
  readonly dimension: Dimension;
  readonly digits?: number;
};

/** Answer of a figure, with all that a reader needs to check it. */
export type FigureAnswer = {
  readonly result: Readonly<Record<string, FigureValue>>;
  readonly formula: string;
  readonly source: string;
  /** What the answer stands on, defaults included. */
  readonly inputs: FigureInputs;
  /** What to keep in mind with this very answer. */
  readonly notes: readonly string[];
};

/** One question that `airledger figure` answers. */
export type FigureDefinition = {
  readonly name: string;
  readonly title: string;
  readonly options: FigureOptions;
  /** Options of an example that works as it stands, as a person would type them. */
  readonly example: Readonly<Record<string, string>>;
  /**
   * Answers the question for SI inputs.
   * @throws FigureError when a required option is missing or a value is out of range.
   */
  readonly answer: (inputs: FigureInputs) => FigureAnswer;
};

type Value<O extends FigureOption> = O['dimension'] extends 'text'
  ? string
  : O['dimension'] extends 'points'
    ? Points
    : number;

type Given<O> = {
  [K in keyof O]: O[K] extends { required: true } | { default: number | string } ? K : never;
}[keyof O];

/** The inputs of a figure as its options declare them: required and defaulted ones are always there. */
export type InputsOf<O extends FigureOptions> = { readonly [K in Given<O>]: Value<O[K]> } & {
  readonly [K in Exclude<keyof O, Given<O>>]?: Value<O[K]>;
};
