import type { Mode } from '../survey/types.ts';

/** Temperatures and heat flows of one survey in one mode, closed to rounding. */
export type Heat = {
  readonly mode: Mode;
  /** Temperature (°C) and humidity ratio of every network node while the fan runs. */
  readonly nodeTemperature_C: Float64Array;
  readonly nodeHumidityRatio: Float64Array;
  /** For each network element, temperature where air leaves it in its direction of flow. */
  readonly leavingTemperature_C: Float64Array;
  readonly rooms: Readonly<Record<string, RoomHeat>>;
  readonly zones: Readonly<
    Record<string, { readonly temperature_C: number; readonly humidityRatio: number }>
  >;
  readonly systems: Readonly<Record<string, SystemHeat>>;
  readonly iterations: number;
};

export type RoomHeat = {
  readonly temperature_C: number;
  readonly humidityRatio: number;
};

export type SystemHeat = {
  /** Share of the time the equipment runs on the design hour; 1 = all the time. */
  readonly runFraction: number;
  /** True when it runs all the time and the thermostat room still misses its set point. */
  readonly short: boolean;
  /** Output while running, W: sensible (positive heats) and latent removed. */
  readonly sensible_W: number;
  readonly latent_W: number;
  readonly fanPower_W: number;
  readonly enteringTemperature_C: number;
  readonly leavingTemperature_C: number;
};
