import type { WeatherYear } from '../climate/read-weather-file.ts';
import { normalShare } from '../numerics/normal-share.ts';
import { standardPressure_Pa } from '../psychrometrics/air-properties.ts';
import { dayOfYear, extraterrestrial_Wm2, sunAt } from './sun-position.ts';

/** What a month is usually like at a place. */
export type MonthNormal = {
  /** Mean of the month, standard deviation of its daily means, mean daily range. */
  readonly mean_C: number;
  readonly deviation_K: number;
  readonly range_K: number;
  readonly dewPoint_C: number;
  /** Irradiance on the horizontal over that outside the atmosphere, mean of the month, 0 to 1. */
  readonly clearness: number;
  readonly wind_ms: number;
};

export type Place = {
  readonly place: string;
  readonly latitude_deg: number;
  /** East positive; with the time zone, h, it sets noon. */
  readonly longitude_deg: number;
  readonly timeZone_h: number;
  readonly elevation_m: number;
};

const daysIn = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31] as const;
/** Share of the daily range below the maximum, hours 1 to 24. ASHRAE Handbook—Fundamentals 2021 ch. 14, Table 6. */
const profile = [
  0.88, 0.92, 0.95, 0.98, 1, 0.98, 0.91, 0.74, 0.55, 0.38, 0.23, 0.13, 0.05, 0, 0, 0.06, 0.14, 0.24, 0.39,
  0.5, 0.59, 0.68, 0.75, 0.82,
] as const;
export const profileMean = profile.reduce<number>((sum, value) => sum + value, 0) / 24;
/** Clearness of the dullest and the brightest day of a month over its mean (own choice). */
const clearnessSpread = 0.4;

/** Value that a normal variable stays below with the given probability, by halving. */
const normalQuantile = (probability: number): number => {
  let low = -6;
  let high = 6;
  for (let step = 0; step < 50; step++) {
    const middle = (low + high) / 2;
    if (normalShare(middle) < probability) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
};

/** Evenly spread normal deviates of a month, of unit sample deviation, rising. */
const deviates = (count: number): number[] => {
  const raw = Array.from({ length: count }, (_, i) => normalQuantile((i + 0.5) / count));
  const deviation = Math.sqrt(raw.reduce((sum, value) => sum + value * value, 0) / (count - 1));
  return raw.map((value) => value / deviation);
};
const spreads = new Map<number, number[]>([28, 30, 31].map((count) => [count, deviates(count)]));

/** An order that mixes cold with warm days: a stride without a common factor. */
const stride = (count: number, step: number): number => (count % step === 0 ? step + 4 : step);

/** Diffuse share by clearness of the hour. Erbs, Klein and Duffie 1982, as in ASHRAE Handbook—Fundamentals 2021 ch. 14. */
export const diffuseShare = (clearness: number): number => {
  if (clearness <= 0.22) return 1 - 0.09 * clearness;
  if (clearness > 0.8) return 0.165;
  const k = clearness;
  return 0.9511 + k * (-0.1604 + k * (4.388 + k * (-16.638 + k * 12.336)));
};

/**
 * An hourly year out of twelve monthly normals, without random numbers: each month's daily means are spread normally
 * with its deviation and visited in a mixed order; the hours follow the daily profile of ASHRAE Handbook—Fundamentals
 * 2021 ch. 14; humidity is the month's dew point, at most the dry bulb; the sun is the extraterrestrial times the day's
 * clearness, split by Erbs. Days follow each other without persistence, so what mass carries over is slightly flattered.
 */
export const yearFromNormals = (normals: readonly MonthNormal[], place: Place): WeatherYear => {
  if (normals.length !== 12) throw new RangeError(`${normals.length} months; twelve are needed`);
  const hours = 8760;
  const series = () => new Float64Array(hours);
  const year = {
    ...place,
    month: new Uint8Array(hours),
    day: new Uint8Array(hours),
    hour: new Uint8Array(hours),
    dryBulb_C: series(),
    dewPoint_C: series(),
    pressure_Pa: series().fill(standardPressure_Pa(place.elevation_m)),
    wind_ms: series(),
    global_Wm2: series(),
    direct_Wm2: series(),
    diffuse_Wm2: series(),
  };
  let i = 0;
  normals.forEach((normal, m) => {
    const count = daysIn[m]!;
    const spread = spreads.get(count)!;
    for (let day = 1; day <= count; day++) {
      const mean_C = normal.mean_C + normal.deviation_K * spread[((day - 1) * stride(count, 7)) % count]!;
      const rank = ((day - 1) * stride(count, 11)) % count;
      const clearness = Math.min(
        0.75,
        normal.clearness * (1 - clearnessSpread + (2 * clearnessSpread * rank) / (count - 1)),
      );
      for (let hour = 0; hour < 24; hour++, i++) {
        year.month[i] = m + 1;
        year.day[i] = day;
        year.hour[i] = hour;
        year.dryBulb_C[i] = mean_C + normal.range_K * (profileMean - profile[hour]!);
        year.dewPoint_C[i] = Math.min(normal.dewPoint_C, year.dryBulb_C[i]!);
        year.wind_ms[i] = normal.wind_ms;
        const number = dayOfYear(m + 1, day);
        const { sine } = sunAt(place, number, hour + 0.5);
        if (sine <= 0.02) continue;
        const global = clearness * extraterrestrial_Wm2(number) * sine;
        const diffuse = global * diffuseShare(clearness);
        year.global_Wm2[i] = global;
        year.diffuse_Wm2[i] = diffuse;
        year.direct_Wm2[i] = (global - diffuse) / sine;
      }
    }
  });
  return year;
};
