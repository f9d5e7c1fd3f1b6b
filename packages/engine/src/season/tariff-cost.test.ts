import { describe, expect, it } from 'vitest';
import type { Tariff } from '../survey/season.ts';
import { monthCost } from './tariff-cost.ts';

const kWh = 3.6e6;
/** 600 kWh in July, half of it at 17 h and half at 3 h. */
const july = {
  month: 7,
  energy_J: Float64Array.from({ length: 24 }, (_, hour) => (hour === 17 || hour === 3 ? 300 * kWh : 0)),
};
const tariff = (price: Tariff['price'], other_kWh = 0): Tariff => ({
  standing_perMonth: 10,
  otherUse_J: other_kWh * kWh,
  price,
});

describe('a month of 600 kWh, worked by hand', () => {
  it('flat at 0.20 costs 120, whatever the rest of the house draws', () => {
    expect(monthCost(tariff({ kind: 'flat', price_perJ: 0.2 / kWh }, 900), july)).toBeCloseTo(120, 9);
  });

  it('by blocks fills what the rest of the house has left: 0.10 to 500 kWh, then 0.30', () => {
    const price: Tariff['price'] = {
      kind: 'tiered',
      blocks: [
        { upTo_J: 500 * kWh, price_perJ: 0.1 / kWh },
        { upTo_J: Number.POSITIVE_INFINITY, price_perJ: 0.3 / kWh },
      ],
    };
    expect(monthCost(tariff(price), july)).toBeCloseTo(50 + 30, 9);
    expect(monthCost(tariff(price, 400), july)).toBeCloseTo(10 + 150, 9);
    expect(monthCost(tariff(price, 800), july)).toBeCloseTo(180, 9);
  });

  it('by time of use: 0.40 from 16 to 21 h in summer, 0.10 otherwise', () => {
    const price = (weekdaysOnly: boolean, from = 16, to = 21): Tariff['price'] => ({
      kind: 'time of use',
      otherwise_perJ: 0.1 / kWh,
      periods: [{ months: [6, 7, 8], from, to, weekdaysOnly, price_perJ: 0.4 / kWh }],
    });
    expect(monthCost(tariff(price(false)), july)).toBeCloseTo(300 * 0.4 + 300 * 0.1, 9);
    expect(monthCost(tariff(price(true)), july)).toBeCloseTo((300 * (5 * 0.4 + 2 * 0.1)) / 7 + 30, 9);
    expect(monthCost(tariff(price(false)), { ...july, month: 1 })).toBeCloseTo(60, 9);
    // From 22 to 5 h, past midnight.
    expect(monthCost(tariff(price(false, 22, 5)), july)).toBeCloseTo(30 + 120, 9);
  });
});
