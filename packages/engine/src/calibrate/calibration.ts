import type { Mode } from '../survey/types.ts';
import type { LeakGroup } from './calibration-targets.ts';
import type { LeakKind } from './leak-places.ts';
import type { UnusedReading } from './survey-readings.ts';

/** 5, 50 and 95 % points of what the readings and the survey allow. */
export type Range = { readonly low: number; readonly middle: number; readonly high: number };

/** How far the readings have narrowed a figure: by posterior over prior spread, above 0.8, 0.5 to 0.8, below. */
export type Knowledge = 'not measured' | 'vague' | 'measured';

export type LeakFinding = {
  readonly place: string;
  readonly kind: LeakKind;
  readonly part?: string;
  readonly run?: string;
  readonly side: 'supply' | 'return';
  /** m³/s at 25 Pa, both ways. */
  readonly flow25_m3s: Range;
  /** m³/s to or from outside while the fan runs; absent when the duct lies inside. */
  readonly outdoors_m3s?: Range;
  readonly outdoorShare?: Range;
  readonly narrowed: number;
  readonly knowledge: Knowledge;
  readonly defectProbability: number;
};

/** Places that readings cannot tell apart, together: by run, trunk part, plenum, cabinet, return. */
export type LeakGroupFinding = LeakGroup & {
  readonly flow25_m3s: Range;
  readonly outdoors_m3s?: Range;
  readonly narrowed: number;
  readonly knowledge: Knowledge;
  /** Probability that at least one of its places is defective. */
  readonly defectProbability: number;
};

export type RestrictionFinding = {
  readonly run: string;
  readonly terminal: string;
  /** Pressure that the run takes at a given flow, over that of the survey. */
  readonly factor: Range;
  readonly narrowed: number;
  readonly knowledge: Knowledge;
  /** Probability that damper, duct or register is defective. */
  readonly defectProbability: number;
  readonly parts: {
    /** Loss coefficients of takeoff with damper and of the register, factor on the friction of stretched duct. */
    readonly damper: Range;
    readonly slack: Range;
    readonly register: Range;
    readonly defectProbability: {
      readonly damper: number;
      readonly slack: number;
      readonly register: number;
    };
  };
};

export type FlowFinding = {
  readonly terminal: string;
  readonly room: string;
  readonly flow_m3s: Range;
  readonly knowledge: Knowledge;
};

export type HouseFinding = {
  /** Factors on what the survey says. */
  readonly filter: Range;
  readonly coil: Range;
  readonly fanSpeed: Range;
  readonly envelope: Range;
  readonly doors: readonly { readonly door: string; readonly factor: Range; readonly knowledge: Knowledge }[];
};

export type Totals = {
  readonly total25_m3s: Range;
  readonly outdoors25_m3s?: Range;
  readonly supply25_m3s?: Range;
  readonly return25_m3s?: Range;
  /** Operating leakage to and from outside. */
  readonly supplyOutdoors_m3s?: Range;
  readonly returnOutdoors_m3s?: Range;
  readonly fanFlow_m3s: Range;
};

/** What a doubted reading may be: a slip of the hand, or a house that truly is so. */
export type LikelySlip =
  | { readonly kind: 'unit'; readonly shown: string; readonly meant: string; readonly value: number }
  | { readonly kind: 'sign'; readonly value: number }
  | { readonly kind: 'factor of ten'; readonly value: number }
  | { readonly kind: 'hose' }
  | { readonly kind: 'restricted run'; readonly part: string; readonly probability: number };

/** A reading that all others contradict, in figures: what is doubted as it is typed is a `Doubt` of `readings`, in words. */
export type ContradictedReading = {
  readonly reading: string;
  /** Standard deviations from what all other readings foretell. */
  readonly residual: number;
  readonly foretold: number;
  readonly foretoldSd: number;
  readonly slips: readonly LikelySlip[];
};

export type ReadingCheck = {
  readonly reading: string;
  readonly residual: number;
  readonly foretold: number;
  readonly foretoldSd: number;
  /** False when nothing else bears on the reading: it can not be checked. */
  readonly checked: boolean;
};

/** Two places of which one is defective and the readings do not say which. */
export type Alike = {
  readonly places: readonly [string, string];
  /** Of these two against each other: they add up to 1. */
  readonly probabilities: readonly [number, number];
};

/** What readings say of one system of a house. Plain data: it passes between workers. */
export type Calibration = {
  readonly system: string;
  readonly mode: Mode;
  readonly leaks: readonly LeakFinding[];
  readonly groups: readonly LeakGroupFinding[];
  readonly restrictions: readonly RestrictionFinding[];
  readonly flows: readonly FlowFinding[];
  readonly totals: Totals;
  readonly house: HouseFinding;
  readonly checks: readonly ReadingCheck[];
  readonly doubts: readonly ContradictedReading[];
  readonly unused: readonly UnusedReading[];
  readonly alike: readonly Alike[];
  /** Unknowns by name, in the order of θ. */
  readonly unknowns: readonly string[];
  /** Most probable unknowns: those of the heaviest hypothesis. */
  readonly probable: Float64Array;
  readonly hypotheses: readonly {
    readonly defects: readonly string[];
    readonly probability: number;
    readonly theta: Float64Array;
    readonly z: Float64Array;
  }[];
  /** Totals in every draw, m³/s. */
  readonly drawnTotals: { readonly [Total in keyof Totals]?: Float64Array };
  /** Houses that the readings allow, each as probable as the next. */
  readonly draws: readonly Float64Array[];
};
