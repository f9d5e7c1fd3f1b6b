import { type Fuel, fuels, type SeasonSurvey } from '../survey/season.ts';
import { monthCost } from './tariff-cost.ts';
import type { FuelUse, SeasonEnergy, SeasonMonth } from './types.ts';

/** What one month adds up while the year runs. */
export type MonthSums = { -readonly [Key in keyof SeasonEnergy]: SeasonEnergy[Key] } & {
  /** By fuel, then hour of the day, J. */
  readonly use_J: Readonly<Record<Fuel, Float64Array>>;
  outdoor_Ch: number;
  hours: number;
};

const noEnergy = {
  heatGiven_J: 0,
  coolingGiven_J: 0,
  latent_J: 0,
  heatDelivered_J: 0,
  coolingDelivered_J: 0,
  heating_J: 0,
  supplementary_J: 0,
  cooling_J: 0,
  fan_J: 0,
  heating_h: 0,
  cooling_h: 0,
} as const satisfies SeasonEnergy;

const energyKeys = Object.keys(noEnergy) as (keyof SeasonEnergy)[];

const byFuel = <T>(make: (fuel: Fuel) => T): Record<Fuel, T> =>
  Object.fromEntries(fuels.map((fuel) => [fuel, make(fuel)])) as Record<Fuel, T>;

/** Twelve empty months. */
export const emptyMonths = (): MonthSums[] =>
  Array.from({ length: 12 }, () => ({
    ...noEnergy,
    use_J: byFuel(() => new Float64Array(24)),
    outdoor_Ch: 0,
    hours: 0,
  }));

const energyOf = (sums: SeasonEnergy): SeasonEnergy =>
  Object.fromEntries(energyKeys.map((key) => [key, sums[key]])) as SeasonEnergy;

const total = (values: Float64Array): number => values.reduce((sum, value) => sum + value, 0);

export type Bill = {
  readonly months: readonly SeasonMonth[];
  readonly energy: SeasonEnergy;
  readonly byFuel: readonly FuelUse[];
};

/**
 * Months with their cost and emission, and the sums of the year. The standing charge of a fuel is paid in every month
 * of the year once any of it is used.
 */
export const billOf = (
  months: readonly MonthSums[],
  { tariffs }: SeasonSurvey,
  emission_kgJ: (fuel: Fuel) => number,
): Bill => {
  const used = byFuel((fuel) => months.reduce((sum, { use_J }) => sum + total(use_J[fuel]), 0));
  const cost = (fuel: Fuel, month: MonthSums, index: number): number =>
    used[fuel] > 0
      ? monthCost(tariffs[fuel]!, { month: index + 1, energy_J: month.use_J[fuel] }) +
        tariffs[fuel]!.standing_perMonth
      : 0;
  return {
    months: months.map((month, index) => ({
      ...energyOf(month),
      month: index + 1,
      mean_C: month.hours > 0 ? month.outdoor_Ch / month.hours : Number.NaN,
      byFuel_J: byFuel((fuel) => total(month.use_J[fuel])),
      cost: fuels.reduce((sum, fuel) => sum + cost(fuel, month, index), 0),
      emission_kg: fuels.reduce((sum, fuel) => sum + emission_kgJ(fuel) * total(month.use_J[fuel]), 0),
    })),
    energy: energyOf(
      months.reduce<SeasonEnergy>(
        (sum, month) =>
          Object.fromEntries(energyKeys.map((key) => [key, sum[key] + month[key]])) as SeasonEnergy,
        noEnergy,
      ),
    ),
    byFuel: fuels
      .filter((fuel) => used[fuel] > 0)
      .map((fuel) => ({
        fuel,
        energy_J: used[fuel],
        cost: months.reduce((sum, month, index) => sum + cost(fuel, month, index), 0),
        emission_kg: emission_kgJ(fuel) * used[fuel],
      })),
  };
};
