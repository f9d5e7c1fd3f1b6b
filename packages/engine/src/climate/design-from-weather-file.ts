import { humidityRatioFromDewPoint } from '../psychrometrics/humidity-ratio.ts';
import { wetBulb } from '../psychrometrics/wet-bulb.ts';
import { readWeatherFile, type WeatherYear } from './read-weather-file.ts';

/** Dry bulb that is exceeded for the named share of the year, and the mean wet bulb of the hours near it. */
export type CoolingPoint = { readonly dryBulb_C: number; readonly wetBulb_C: number };

/** Design temperatures as counted from the hours of one weather file. */
export type WeatherFileDesign = {
  readonly place: string;
  readonly latitude_deg: number;
  readonly longitude_deg: number;
  readonly elevation_m: number;
  readonly heating_C: { readonly '99.6 %': number; readonly '99 %': number };
  readonly cooling: {
    readonly '0.4 %': CoolingPoint;
    readonly '1 %': CoolingPoint;
    readonly '2 %': CoolingPoint;
  };
  /** Mean daily range of the month with the hottest mean. From hourly values, so about 1 K small. */
  readonly dailyRange_K: number;
  readonly annualMean_C: number;
  readonly caution: string;
};

/** Hours of a year that lie beyond each percentile. ASHRAE Handbook—Fundamentals 2021 ch. 14. */
const hoursBeyond = { '0.4 %': 35, '1 %': 88, '2 %': 175 } as const;
const hoursOfYear = 8760;
/** Hours this close to a dry bulb count for its mean coincident wet bulb. Common practice, no source. */
const nearness_K = 0.5;

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

/** The value that `beyond` hours of a full year reach or pass, in a list sorted from the extreme end. */
const reached = (sorted: Float64Array, beyond: number): number =>
  sorted[Math.max(0, Math.round((beyond * sorted.length) / hoursOfYear) - 1)]!;

const hottestMonthRange = (year: WeatherYear): number => {
  const ranges = new Map<number, number[]>();
  const means = new Map<number, number[]>();
  for (let start = 0; start < year.dryBulb_C.length; start += 24) {
    const day = year.dryBulb_C.subarray(start, start + 24);
    const month = year.month[start]!;
    ranges.set(month, [...(ranges.get(month) ?? []), Math.max(...day) - Math.min(...day)]);
    means.set(month, [...(means.get(month) ?? []), mean([...day])]);
  }
  const [hottest] = [...means].reduce((best, one) => (mean(one[1]) > mean(best[1]) ? one : best));
  return mean(ranges.get(hottest)!);
};

/**
 * Design conditions out of the hours of a TMY3 file's own text: for a place without adopted values.
 * A typical year has been picked for its means, so its extremes can lie several kelvins off; hence the caution.
 * @throws WeatherFileError when the text is not a TMY3 file.
 */
export const designFromWeatherFile = (text: string): WeatherFileDesign => {
  const year = readWeatherFile(text);
  const rising = year.dryBulb_C.toSorted();
  const falling = rising.toReversed();
  const cooling = (beyond: number): CoolingPoint => {
    const dryBulb_C = reached(falling, beyond);
    const wetBulbs: number[] = [];
    year.dryBulb_C.forEach((hour_C, i) => {
      if (Math.abs(hour_C - dryBulb_C) > nearness_K) return;
      const pressure_Pa = year.pressure_Pa[i]!;
      wetBulbs.push(
        wetBulb(hour_C, humidityRatioFromDewPoint(year.dewPoint_C[i]!, pressure_Pa), pressure_Pa),
      );
    });
    return { dryBulb_C, wetBulb_C: mean(wetBulbs) };
  };
  return {
    place: year.place,
    latitude_deg: year.latitude_deg,
    longitude_deg: year.longitude_deg,
    elevation_m: year.elevation_m,
    heating_C: {
      '99.6 %': reached(rising, hoursBeyond['0.4 %']),
      '99 %': reached(rising, hoursBeyond['1 %']),
    },
    cooling: {
      '0.4 %': cooling(hoursBeyond['0.4 %']),
      '1 %': cooling(hoursBeyond['1 %']),
      '2 %': cooling(hoursBeyond['2 %']),
    },
    dailyRange_K: hottestMonthRange(year),
    annualMean_C: mean([...year.dryBulb_C]),
    caution:
      'A typical year is not a design source: its extremes can be several degrees off the adopted values.',
  };
};
