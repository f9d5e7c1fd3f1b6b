import type { WeatherYear } from '../climate/read-weather-file.ts';
import { standardPressure_Pa } from '../psychrometrics/air-properties.ts';
import { humidityRatioFromWetBulb } from '../psychrometrics/humidity-ratio.ts';
import { dewPoint } from '../psychrometrics/wet-bulb.ts';
import type { Survey } from '../survey/types.ts';
import { type MonthNormal, profileMean, yearFromNormals } from './year-from-normals.ts';

/** What is the same everywhere for want of better: mean clearness and wind of a year (from memory of US stations). */
const usualClearness = 0.5;
const usualWind_ms = 3.5;
/** Dew point below the daily mean in midwinter, K (from memory of US stations). */
const winterDepression_K = 5;
/** Deviation of daily means from their month in midsummer over the amplitude of the year (Greensboro: 2.2 of 12.6 K). */
const summerScatter = 0.17;
/** Where days swing widely in summer, clouds and low sun hold them closer in winter (own choice). */
const winterRange_K = (summer_K: number): number => Math.min(summer_K, 8 + 0.2 * (summer_K - 8));
/** Mean of the year above the middle of the design temperatures, K: degree-days of 25 stations, deviation 1.7 K. */
const meanAboveMiddle_K = 1.4;
/** Hours of a year beyond the design temperatures of 99 % and 1 %. */
const hoursBeyond = 88;
/** Deviations from the mean of January at which its daily mean is as cold as 88 hours of the year; nearness that will do. */
const deviationsBeyond = 2;
const near_K = 0.2;
const mostSteps = 25;
/** Part of each correction that is made, and the greatest deviation that any place has, K. */
const haste = 0.8;
const most_K = 12;

/** 1 in the middle of January, −1 in the middle of July. */
const winterness = (month: number): number => Math.cos((2 * Math.PI * month) / 12);

/** What a year swings by: amplitude of the monthly means, deviation of daily means in midwinter. */
type Swing = { readonly amplitude_K: number; readonly deviation_K: number };

const normalsOf = (
  survey: Survey,
  annual_C: number,
  { amplitude_K, deviation_K }: Swing,
): readonly MonthNormal[] => {
  const { site } = survey;
  const pressure_Pa = standardPressure_Pa(site.elevation_m);
  const designDew_C = dewPoint(
    humidityRatioFromWetBulb(site.coolingDryBulb_C, site.coolingWetBulb_C, pressure_Pa),
    pressure_Pa,
  );
  const summerDepression_K = Math.max(
    1,
    site.coolingDryBulb_C - profileMean * site.dailyRange_K - designDew_C,
  );
  const summerDeviation_K = summerScatter * amplitude_K;
  return Array.from({ length: 12 }, (_, month) => {
    const winter = (1 + winterness(month)) / 2;
    const mean_C = annual_C - amplitude_K * winterness(month);
    return {
      mean_C,
      deviation_K: summerDeviation_K + winter ** 2 * (deviation_K - summerDeviation_K),
      range_K: site.dailyRange_K + winter * (winterRange_K(site.dailyRange_K) - site.dailyRange_K),
      dewPoint_C: mean_C - summerDepression_K + winter * (summerDepression_K - winterDepression_K),
      clearness: usualClearness,
      wind_ms: usualWind_ms,
    };
  });
};

const made = new Map<string, WeatherYear>();
const most = 8;

/**
 * A year for a house that has no weather file, out of its design temperatures alone: monthly means swing as a sine about
 * the mean of the year, and amplitude and scatter are those with which 88 hours lie beyond each design temperature.
 * An estimate: sun and wind are the usual ones of no place. `docs/season-evidence.md` says how far its degree-days are
 * from those of 25 stations.
 */
export const yearOfSite = (survey: Survey): WeatherYear => {
  const { site } = survey;
  const ground = survey.facts['site/groundCooling'];
  // Unless somebody typed it, the ground in summer is the mean of the year.
  const annual_C = ground?.defaulted
    ? site.groundCooling_C
    : (site.heatingDryBulb_C + site.coolingDryBulb_C) / 2 + meanAboveMiddle_K;
  const key = JSON.stringify([site, annual_C]);
  const known = made.get(key);
  if (known) return known;
  const place = {
    place: `${site.place}, made from its design temperatures`,
    latitude_deg: site.latitude_deg,
    longitude_deg: 0,
    timeZone_h: 0,
    elevation_m: site.elevation_m,
  };
  const yearWith = (swing: Swing) => yearFromNormals(normalsOf(survey, annual_C, swing), place);
  // Summer is set by the amplitude and winter by its scatter, so each is moved by what its own side misses.
  let swing: Swing = { amplitude_K: (site.coolingDryBulb_C - site.heatingDryBulb_C) / 3.5, deviation_K: 4 };
  for (let step = 0; step < mostSteps; step++) {
    const sorted = yearWith(swing).dryBulb_C.toSorted();
    const cold_K = sorted[hoursBeyond - 1]! - site.heatingDryBulb_C;
    const warm_K = site.coolingDryBulb_C - sorted[sorted.length - hoursBeyond]!;
    if (Math.abs(cold_K) < near_K && Math.abs(warm_K) < near_K) break;
    swing = {
      amplitude_K: Math.max(0.5, swing.amplitude_K + haste * warm_K),
      deviation_K: Math.min(
        most_K,
        Math.max(0.5, swing.deviation_K + (haste * (cold_K - warm_K)) / deviationsBeyond),
      ),
    };
  }
  const year = yearWith(swing);
  if (made.size >= most) made.clear();
  made.set(key, year);
  return year;
};
