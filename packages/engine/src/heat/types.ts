import type { Mode } from '../survey/types.ts';
import type { DirectedFlow } from './directed-flow.ts';
import type { Terms } from './terms.ts';

/** Temperatures and heat flows of one survey in one mode, closed to rounding. */
export type Heat = {
  readonly mode: Mode;
  readonly flow: DirectedFlow;
  readonly terms: Terms;
  readonly specificHeat_JkgK: number;
  /** Network element in which each system's equipment meets the air, in the order of the survey. */
  readonly source: readonly number[];
  /** Fan power of each system while it runs, in the order of the survey, W. */
  readonly fanPower_W: readonly number[];
  /** As the house floats on the design day, with real equipment. */
  readonly floating: HeatState;
  /** With every room held at its set point and equipment as large as that needs. */
  readonly atSetPoint: HeatState;
};

/** One settled state of the house. */
export type HeatState = {
  /** Part of the design hour in which the fans run, 0 … 1. */
  readonly share: number;
  /** By room and zone id. */
  readonly temperature_C: Readonly<Record<string, number>>;
  readonly humidityRatio: Readonly<Record<string, number>>;
  /** By network node, while the fans run. */
  readonly nodeTemperature_C: Float64Array;
  readonly nodeHumidityRatio: Float64Array;
  /** By network element: the air that leaves it. */
  readonly leavingTemperature_C: Float64Array;
  readonly leavingHumidityRatio: Float64Array;
  /** What stays in places that nothing connects to any other. */
  readonly stored: readonly Stored[];
  /** Heat that each room gains on balance, in the order of the survey, W; 0 where it floats. */
  readonly roomGain_W: readonly number[];
  /** In the order of the survey's systems. */
  readonly systems: readonly SystemHeat[];
  readonly iterations: number;
};

/** Heat and moisture set free in a place that has no way out for them. */
export type Stored = { readonly place: string; readonly sensible_W: number; readonly moisture_kgs: number };

/** What one system does in a settled state. */
export type SystemHeat = {
  readonly system: string;
  /** Part of the hour in which the equipment runs, 0 … 1. */
  readonly runFraction: number;
  /** Part of the supplementary heat that is on beside it, 0 … 1. */
  readonly supplementaryFraction: number;
  /** True when all of it does not suffice (at the set point: when no size of it would). */
  readonly short: boolean;
  /** Sensible output into the air while running, W: positive heats, negative cools. */
  readonly baseOutput_W: number;
  readonly supplementaryOutput_W: number;
  /** Average sensible output into the air while the fans run, W. */
  readonly output_W: number;
  /** Moisture taken out while the fans run, kg/s (≥ 0). */
  readonly moisture_kgs: number;
  /** As a probe reads it: in the return before the air handler, and behind it. */
  readonly returnTemperature_C: number;
  readonly supplyTemperature_C: number;
};
