import type { PlanPoint } from '@airledger/engine';
import type { Job, Snapped, Writing } from '@airledger/job';
import type { DrawOptions } from './draw-options.ts';
import type { Selected } from './selection.ts';

/** Where the pointer or the crosshair is, metres: as it is, and drawn to what is near. */
export type Place = {
  readonly raw: PlanPoint;
  readonly at: PlanPoint;
  readonly on: Snapped['on'];
  readonly shift?: boolean;
};

/**
 * All that a tool hears of the outside. A click is a press and a release at one place; so is Enter at the crosshair.
 * `typed` carries what was typed into the tool's fields: metres or degrees.
 */
export type ToolEvent =
  | { readonly kind: 'move'; readonly place: Place }
  | { readonly kind: 'press'; readonly place: Place }
  | { readonly kind: 'release'; readonly place: Place }
  | { readonly kind: 'typed'; readonly values: readonly (number | undefined)[]; readonly place: Place }
  | { readonly kind: 'back' }
  | { readonly kind: 'cancel' };

/** An edit of the job with a name for its history. Deeds of one gesture make one step of it. */
export type Deed = {
  readonly label: string;
  readonly change: (job: Job) => Job;
  readonly gesture?: boolean;
  /** What to select once it is done, in the job as it is then. */
  readonly select?: readonly Selected[];
  /** Part whose proposed fittings are to be confirmed. */
  readonly confirm?: { readonly system: string; readonly part: string };
};

export type Step<State> = {
  readonly state: State;
  readonly deed?: Deed;
  /** The gesture of deeds is over: kept, or taken back. */
  readonly ended?: 'kept' | 'taken back';
  readonly select?: readonly Selected[];
  /** Why nothing was done, or what to do next. */
  readonly note?: string;
};

export type ToolContext = {
  readonly job: Job;
  readonly storey: number;
  readonly writing: Writing;
  /** How far a hand may miss, m. */
  readonly reach_m: number;
  readonly options: DrawOptions;
  readonly selection: readonly Selected[];
};

export type Measure = { readonly from: PlanPoint; readonly to: PlanPoint };

/** What is shown of an unfinished drawing. */
export type Preview = {
  readonly outline?: readonly PlanPoint[];
  readonly line?: readonly PlanPoint[];
  /** Lines whose length is written beside them. */
  readonly measures?: readonly Measure[];
  readonly dots?: readonly PlanPoint[];
  readonly box?: readonly [PlanPoint, PlanPoint];
};

export type Field = { readonly label: string; readonly dimension: 'length' | 'angle' };

/** A tool of the drawing: a pure state machine. */
export type Tool<State> = {
  readonly start: State;
  readonly on: (state: State, event: ToolEvent, context: ToolContext) => Step<State>;
  readonly preview: (state: State, place: Place | undefined, context: ToolContext) => Preview;
  /** What to do now, in words. */
  readonly hint: (state: State, context: ToolContext) => string;
  /** What can be typed now; none: nothing. */
  readonly fields?: (state: State) => readonly Field[];
  /** Point from which the line in hand is kept level or upright. */
  readonly from?: (state: State) => PlanPoint | undefined;
  /** Point that was set last, where the crosshair goes when it was typed. */
  readonly last?: (state: State) => PlanPoint | undefined;
  /** What does not attract the pointer: that which is being dragged. */
  readonly except?: (state: State) => readonly Selected[];
};
