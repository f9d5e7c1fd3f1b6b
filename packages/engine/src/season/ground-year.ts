import { groundTemperature_C } from '../climate/ground-temperature.ts';
import type { WeatherYear } from '../climate/read-weather-file.ts';
import { dayOfYear } from './sun-position.ts';

/** Temperature of the ground through a year, by hour, °C. */
export type GroundYear = {
  /** Beside and below a basement. */
  readonly deep_C: Float64Array;
  /** At the edge of a slab. */
  readonly edge_C: Float64Array;
};

/** Usual moist soil, m²/day, and depths that stand for a basement's walls and for a slab's edge, m (from memory). */
const diffusivity_m2day = 0.05;
const deep_m = 1.5;
const edge_m = 0.5;

const years = new WeakMap<WeatherYear, GroundYear>();

/**
 * Ground under a year's weather by Kusuda and Achenbach (1965): mean, amplitude and coldest day are those of the first
 * harmonic of the dry bulb. Remembered for each year.
 */
export const groundYear = (year: WeatherYear): GroundYear => {
  const known = years.get(year);
  if (known) return known;
  const count = year.dryBulb_C.length;
  const days = Float64Array.from({ length: count }, (_, i) => dayOfYear(year.month[i]!, year.day[i]!));
  let sum = 0;
  let cosine = 0;
  let sine = 0;
  for (let i = 0; i < count; i++) {
    const angle = (2 * Math.PI * days[i]!) / 365;
    sum += year.dryBulb_C[i]!;
    cosine += year.dryBulb_C[i]! * Math.cos(angle);
    sine += year.dryBulb_C[i]! * Math.sin(angle);
  }
  const amplitude_K = (2 / count) * Math.hypot(cosine, sine);
  const coldestDay = ((Math.atan2(-sine, -cosine) / (2 * Math.PI)) * 365 + 365) % 365;
  const at = (depth_m: number): Float64Array => {
    const byDay = new Map<number, number>();
    return days.map((day) => {
      let value = byDay.get(day);
      if (value === undefined) {
        value = groundTemperature_C(sum / count, amplitude_K, coldestDay, diffusivity_m2day, depth_m, day);
        byDay.set(day, value);
      }
      return value;
    });
  };
  const ground = { deep_C: at(deep_m), edge_C: at(edge_m) };
  years.set(year, ground);
  return ground;
};
