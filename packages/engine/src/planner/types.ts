/** Something that can be done to a house, or left. */
export type Measure = {
  readonly id: string;
  /** What it costs, alone and beside others alike; any currency. */
  readonly cost: number;
  /** Measures that cannot be done beside it; saying it on one side is enough. */
  readonly excludes?: readonly string[];
};

/**
 * A choice of measures: one character for each measure of the problem in its order, '1' where it is done. Sets are
 * their own keys.
 */
export type MeasureSet = string;

/** A question to the planner. All functions are pure. */
export type PlanProblem = {
  readonly measures: readonly Measure[];
  readonly must?: readonly string[];
  readonly mustNot?: readonly string[];
  /** What a set costs besides its measures, in their unit; never less for more measures. Counts against the budget. */
  readonly besides?: (set: MeasureSet) => number;
  /** Sets that cost more are not looked at. */
  readonly budget?: number;
  /** Figures of the house with these measures, by the full model; asked once for each set. */
  readonly evaluate: (set: MeasureSet) => readonly number[];
  /** What is to be least; it is also asked for figures that were only predicted. */
  readonly objective: (figures: readonly number[], set: MeasureSet, cost: number) => number;
};

/** A set and how it stands. */
export type Evaluated = {
  readonly set: MeasureSet;
  readonly figures: readonly number[];
  readonly cost: number;
  readonly objective: number;
};

/** Where a search is: the best so far stands at any time. */
export type PlanProgress = { readonly evaluations: number; readonly most: number; readonly best: Evaluated };

export type PlanOptions = {
  /** Full evaluations to spend at most. */
  readonly most?: number;
  /** Seed of the kicks that leave a local best. */
  readonly seed?: number;
};
