import type { WeatherYear } from '../climate/read-weather-file.ts';
import { solveDense } from '../numerics/dense.ts';
import { humidityRatioFromDewPoint } from '../psychrometrics/humidity-ratio.ts';
import type { Survey } from '../survey/types.ts';
import { season } from './season.ts';
import type { SeasonHour, ShortYear } from './types.ts';

/** What tells days apart, and how much it weighs against the others (own choice, tried on the demo houses). */
const traits = { mean_C: 2, range_K: 0.5, sun_Wm2: 1, humidity: 0.5, wind_ms: 0.3 } as const;
type Trait = keyof typeof traits;
const names = Object.keys(traits) as Trait[];

type Day = Readonly<Record<Trait, number>> & {
  /** Sums that the short year keeps exactly: hours, degree-hours of both seasons at two bases, sun in cold and warm days. */
  readonly kept: readonly number[];
};

const dayOf = (year: WeatherYear, day: number): Day => {
  let warm = Number.NEGATIVE_INFINITY;
  let cold = Number.POSITIVE_INFINITY;
  const sums = { mean: 0, sun: 0, humidity: 0, wind: 0 };
  const degreeHours = [0, 0, 0, 0];
  for (let i = day * 24; i < day * 24 + 24; i++) {
    const dryBulb_C = year.dryBulb_C[i]!;
    warm = Math.max(warm, dryBulb_C);
    cold = Math.min(cold, dryBulb_C);
    sums.mean += dryBulb_C / 24;
    sums.sun += year.global_Wm2[i]! / 24;
    sums.humidity += humidityRatioFromDewPoint(year.dewPoint_C[i]!, year.pressure_Pa[i]!) / 24;
    sums.wind += year.wind_ms[i]! / 24;
    degreeHours[0]! += Math.max(0, 17 - dryBulb_C);
    degreeHours[1]! += Math.max(0, 8 - dryBulb_C);
    degreeHours[2]! += Math.max(0, dryBulb_C - 20);
    degreeHours[3]! += Math.max(0, dryBulb_C - 26);
  }
  const cool = Math.min(1, Math.max(0, (18 - sums.mean) / 6));
  return {
    mean_C: sums.mean,
    range_K: warm - cold,
    sun_Wm2: sums.sun,
    humidity: sums.humidity,
    wind_ms: sums.wind,
    kept: [1, ...degreeHours, sums.sun * cool, sums.sun * (1 - cool), sums.humidity * (1 - cool)],
  };
};

/** Traits over their spread through the year, times their weight. */
const scaled = (days: readonly Day[]): number[][] => {
  const spread = names.map((name) => {
    const mean = days.reduce((sum, day) => sum + day[name], 0) / days.length;
    const variance = days.reduce((sum, day) => sum + (day[name] - mean) ** 2, 0) / days.length;
    return variance > 0 ? traits[name] / Math.sqrt(variance) : 0;
  });
  return days.map((day) => names.map((name, t) => day[name] * spread[t]!));
};

const distance = (a: readonly number[], b: readonly number[]): number =>
  a.reduce((sum, value, t) => sum + (value - b[t]!) ** 2, 0);

const nearest = (points: readonly number[][], chosen: readonly number[], point: number): number => {
  let best = 0;
  for (let c = 1; c < chosen.length; c++)
    if (distance(points[point]!, points[chosen[c]!]!) < distance(points[point]!, points[chosen[best]!]!))
      best = c;
  return best;
};

/** Days that stand best for `all`: each next one the furthest from those before, then moved to the middle of its group. */
const medoids = (points: readonly number[][], count: number, all: readonly number[]): number[] => {
  const least = (value: (i: number) => number, among: readonly number[]) =>
    among.reduce((best, i) => (value(i) < value(best) ? i : best), among[0]!);
  const middle = points[0]!.map((_, t) => all.reduce((sum, i) => sum + points[i]![t]!, 0) / all.length);
  let chosen = [least((i) => distance(points[i]!, middle), all)];
  while (chosen.length < count)
    chosen.push(least((i) => -distance(points[i]!, points[chosen[nearest(points, chosen, i)]!]!), all));
  for (let round = 0; round < 20; round++) {
    const groups: number[][] = chosen.map(() => []);
    for (const i of all) groups[nearest(points, chosen, i)]!.push(i);
    const moved = groups.map((group, c) =>
      group.length === 0
        ? chosen[c]!
        : least((i) => group.reduce((sum, other) => sum + distance(points[i]!, points[other]!), 0), group),
    );
    if (moved.every((day, c) => day === chosen[c])) break;
    chosen = moved;
  }
  return chosen;
};

/** A sum of the year that the short year keeps: what each chosen day has of it, and the whole. */
type Kept = { readonly each: readonly number[]; readonly total: number };

/** Least part of its group's size that a day may weigh after the sums were matched. */
const leastPart = 0.1;

/**
 * Weights nearest to the sizes of the groups that keep the sums of the year: least Σ(w − w₀)²/w₀ under the sums, by
 * Lagrange. A day that would fall below its least part is held there and the rest solved again. The first sum is the
 * number of days.
 */
const matched = (sums: readonly Kept[], sizes: readonly number[]): number[] => {
  const kept = sums.filter(({ each, total }) => total > 0 && each.some((value) => value > 0));
  let weights = [...sizes];
  const held = new Set<number>();
  for (let round = 0; round < sizes.length; round++) {
    const free = sizes.map((size, c) => (held.has(c) ? 0 : size));
    const n = kept.length;
    const matrix = new Float64Array(n * n);
    const right = new Float64Array(n);
    kept.forEach((a, i) => {
      right[i] = 1;
      a.each.forEach((value, c) => {
        right[i]! -= ((held.has(c) ? leastPart : 1) * sizes[c]! * value) / a.total;
      });
      kept.forEach((b, k) => {
        a.each.forEach((value, c) => {
          matrix[i * n + k]! += (free[c]! * value * b.each[c]!) / (a.total * b.total);
        });
      });
      // A trace of freedom where two sums say the same, or no free day has any of it.
      matrix[i * n + i]! += 1e-7 * matrix[i * n + i]! + 1e-12;
    });
    const factors = solveDense(matrix, right);
    weights = sizes.map((size, c) =>
      held.has(c)
        ? leastPart * size
        : size + kept.reduce((sum, { each, total }, i) => sum + (size * factors[i]! * each[c]!) / total, 0),
    );
    const low = weights.flatMap((weight, c) => (!held.has(c) && weight < leastPart * sizes[c]! ? [c] : []));
    if (low.length === 0) break;
    for (const c of low) held.add(c);
  }
  // Where there are fewer days than sums not all can be kept; the length of the year always is.
  const total = sums[0]!.total / weights.reduce((sum, weight) => sum + weight, 0);
  return weights.map((weight) => weight * total);
};

/** What a house makes of an hour: sums that its short year keeps, W. */
const houseSums = (hour: SeasonHour): number[] => {
  const heats = hour.mode === 'heating' ? 1 : 0;
  const cools = hour.mode === 'cooling' ? 1 : 0;
  const sums = [0, 0, 0, 0, 0, 0];
  for (const { output_W, latent_W, supplementary_W, input_W } of hour.systems) {
    sums[0]! += heats * output_W;
    sums[1]! += heats * supplementary_W;
    sums[2]! += heats * input_W;
    sums[3]! -= cools * output_W;
    sums[4]! += cools * latent_W;
    sums[5]! += cools * input_W;
  }
  return sums;
};

/** Those sums of the whole year, and of each chosen day in the order in which a short year runs them. */
const keptByHouse = (survey: Survey, year: WeatherYear, chosen: readonly number[]): Kept[] => {
  const whole = [0, 0, 0, 0, 0, 0];
  season(survey, year, {
    onHour: (hour) =>
      houseSums(hour).forEach((value, k) => {
        whole[k]! += value;
      }),
  });
  const each = whole.map(() => chosen.map(() => 0));
  const days = chosen.map((day) => ({ day, weight: 1 }));
  season(
    survey,
    { kind: 'short', year, days },
    {
      onHour: (hour) =>
        houseSums(hour).forEach((value, k) => {
          each[k]![chosen.indexOf(Math.floor(hour.index / 24))]! += value;
        }),
    },
  );
  return whole.map((total, k) => ({ each: each[k]!, total }));
};

const usualDays = 12;

export type ShortYearOptions = {
  /** Number of days, 4 to 365; 12 when not given. */
  readonly days?: number;
  /** A house whose year of energy the weights keep, so that houses like it come out nearly right; costs a full year. */
  readonly like?: Survey;
};

/**
 * A year as a few whole days, each with a weight, chosen by its weather alone: always the same for the same year.
 * Degree-hours, sun and moisture of the year are kept, and with `like` the energy of a house. Each day is run until it
 * repeats itself, so setback and mass count as on a long run of such days. `docs/season-evidence.md` says how far it is
 * from the full year.
 */
export const shortYear = (
  year: WeatherYear,
  { days: count = usualDays, like }: ShortYearOptions = {},
): ShortYear => {
  const days = Array.from({ length: year.dryBulb_C.length / 24 }, (_, day) => dayOf(year, day));
  const points = scaled(days);
  const extreme = (sign: number) =>
    days.reduce((best, day, i) => (sign * day.mean_C > sign * days[best]!.mean_C ? i : best), 0);
  // The coldest and the hottest day stand for themselves alone: they show what falls short.
  const alone = [extreme(-1), extreme(1)];
  const others = [...points.keys()].filter((i) => !alone.includes(i));
  const middles = medoids(points, Math.min(count - alone.length, others.length), others);
  const chosen = [...alone, ...middles].sort((a, b) => a - b);
  const sizes = chosen.map((day) => (alone.includes(day) ? 1 : 0));
  for (const i of others) sizes[chosen.indexOf(middles[nearest(points, middles, i)]!)]!++;
  const byWeather = days[0]!.kept.map(
    (_, r): Kept => ({
      each: chosen.map((day) => days[day]!.kept[r]!),
      total: days.reduce((sum, day) => sum + day.kept[r]!, 0),
    }),
  );
  const sums = like ? [byWeather[0]!, ...keptByHouse(like, year, chosen)] : byWeather;
  const weights = matched(sums, sizes);
  return { kind: 'short', year, days: chosen.map((day, c) => ({ day, weight: weights[c]! })) };
};
