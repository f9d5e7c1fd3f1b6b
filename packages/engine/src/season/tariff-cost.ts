import type { Tariff, TariffPeriod } from '../survey/season.ts';

/** Energy of one month by hour of the day, J (24 values). */
export type MonthUse = { readonly month: number; readonly energy_J: Float64Array };

const includesHour = ({ from, to }: TariffPeriod, hour: number): boolean =>
  from <= to ? hour >= from && hour < to : hour >= from || hour < to;

const priceAt = (
  { periods, otherwise_perJ }: Extract<Tariff['price'], { kind: 'time of use' }>,
  month: number,
  hour: number,
): number => {
  const period = periods.find((one) => one.months.includes(month) && includesHour(one, hour));
  if (!period) return otherwise_perJ;
  return period.weekdaysOnly ? (5 * period.price_perJ + 2 * otherwise_perJ) / 7 : period.price_perJ;
};

/** Price of the joules from the first to the given one under monthly blocks. */
const blockCost = (
  blocks: readonly { readonly upTo_J: number; readonly price_perJ: number }[],
  use_J: number,
): number => {
  let cost = 0;
  let from_J = 0;
  blocks.forEach(({ upTo_J, price_perJ }, i) => {
    const end_J = i === blocks.length - 1 ? Number.POSITIVE_INFINITY : upTo_J;
    cost += price_perJ * Math.max(0, Math.min(use_J, end_J) - from_J);
    from_J = end_J;
  });
  return cost;
};

/**
 * What a month's energy costs beyond what the rest of the house draws, without the standing charge: flat, by monthly
 * blocks (the rest of the house fills the lower ones first), or by time of use (periods by month and hour of day).
 */
export const monthCost = ({ price, otherUse_J }: Tariff, { month, energy_J }: MonthUse): number => {
  const total_J = energy_J.reduce((sum, value) => sum + value, 0);
  switch (price.kind) {
    case 'flat':
      return total_J * price.price_perJ;
    case 'tiered':
      return blockCost(price.blocks, otherUse_J + total_J) - blockCost(price.blocks, otherUse_J);
    case 'time of use':
      return energy_J.reduce((sum, value, hour) => sum + value * priceAt(price, month, hour), 0);
  }
};
