// NIST Handbook 135, present-value forms; UPV* as on the US GSA criteria page. Numbers worked by hand with those forms.
import { describe, expect, it } from 'vitest';
import {
  annualised,
  escalatedPresentValue,
  loanPayment,
  realRate,
  singlePresentValue,
  uniformPresentValue,
} from '../../packages/engine/src/money/present-value.ts';
import { doesNotPay, lifeCycleCost, worth, worthRange } from '../../packages/engine/src/money/worth.ts';

const cents = 2;
const terms = { discount: 0.03, escalation: 0.01, years: 20, inflation: 0.025 };

describe('factors', () => {
  it.each([
    [0.03, 10, 0.744094, 8.5302],
    [0.03, 20, 0.553676, 14.87747],
    [0.03, 25, 0.477606, 17.41315],
    [0.05, 15, 0.481017, 10.37966],
    [0.07, 20, 0.258419, 10.59401],
  ])('at %d over %d years', (discount, years, single, uniform) => {
    expect(singlePresentValue(discount, years)).toBeCloseTo(single, 6);
    expect(uniformPresentValue(discount, years)).toBeCloseTo(uniform, 5);
  });

  it.each([
    [0.03, 0.01, 20, 16.38272],
    [0.03, 0.02, 20, 18.08123],
    [0.03, -0.01, 15, 11.08704],
    [0.05, 0.02, 15, 11.98889],
    [0.03, 0.03, 20, 20],
  ])('escalated, at %d and %d over %d years', (discount, escalation, years, factor) => {
    expect(escalatedPresentValue(discount, escalation, years)).toBeCloseTo(factor, 5);
  });

  it('without escalation is the uniform factor; real out of nominal', () => {
    expect(escalatedPresentValue(0.05, 0, 15)).toBeCloseTo(uniformPresentValue(0.05, 15), 10);
    expect(realRate(0.055, 0.025)).toBeCloseTo(0.029268, 6);
  });

  it('a loan of 10 000 at 7.5 % over 120 months costs 118.70 a month', () => {
    expect(loanPayment(10_000, 0.075, 120)).toBeCloseTo(118.7, cents);
  });
});

describe('worked cases', () => {
  it('1800 spent, 260 a year saved', () => {
    const found = worth({ cost: 1800, saving_perYear: 260 }, terms);
    expect(found.energySaved).toBeCloseTo(4259.51, cents);
    expect(found.netSavings).toBeCloseTo(2459.51, cents);
    expect(found.savingsToInvestment).toBeCloseTo(2.36639, 5);
    expect(found.adjustedReturn).toBeCloseTo(0.07533, 5);
    expect(found.simplePayback_years).toBeCloseTo(6.92308, 5);
    expect(found.discountedPayback_years).toBeCloseTo(7.52, cents);
    expect(Math.ceil(found.discountedPayback_years!)).toBe(8);
    expect(annualised(1800, 0.03, 20)).toBeCloseTo(120.99, cents);
    expect(found.verdict).toBe('pays');
  });

  it('9000 less a rebate, with upkeep, a replacement and a rest', () => {
    const found = worth(
      {
        cost: 9000,
        incentive: 1200,
        saving_perYear: 700,
        upkeepSaving_perYear: -50,
        replacements: [{ year: 10, cost: 400 }],
        residual: 900,
      },
      terms,
    );
    expect(found.energySaved).toBeCloseTo(11467.91, cents);
    expect(found.upkeepSaved).toBeCloseTo(-743.87, cents);
    expect(found.invested).toBeCloseTo(7599.33, cents);
    expect(found.savingsToInvestment).toBeCloseTo(1.41118, 5);
    expect(found.netSavings).toBeCloseTo(3124.7, cents);
    expect(found.adjustedReturn).toBeCloseTo(0.047892, 6);
  });
});

describe('what must hold whatever the numbers', () => {
  it('SIR 1, no net savings and a return equal to the discount are one', () => {
    const saving = 1000 / escalatedPresentValue(0.03, 0.01, 20);
    const found = worth({ cost: 1000, saving_perYear: saving }, terms);
    expect(found.savingsToInvestment).toBeCloseTo(1, 12);
    expect(found.netSavings).toBeCloseTo(0, 9);
    expect(found.adjustedReturn).toBeCloseTo(0.03, 12);
  });

  it('net savings are the difference of two life-cycle costs', () => {
    const before = lifeCycleCost({ invested: 0, energy_perYear: 2000, upkeep_perYear: 100 }, terms);
    const after = lifeCycleCost({ invested: 1800, energy_perYear: 1740, upkeep_perYear: 100 }, terms);
    expect(before - after).toBeCloseTo(worth({ cost: 1800, saving_perYear: 260 }, terms).netSavings, 9);
  });

  it('a loan at the nominal discount costs nothing more; a dearer one does', () => {
    const spent = (yearlyRate: number) =>
      worth({ cost: 5000, saving_perYear: 300, loan: { amount: 5000, yearlyRate, months: 120 } }, terms)
        .invested;
    const monthly = (1.03 * 1.025) ** (1 / 12) - 1;
    expect(spent(12 * monthly)).toBeCloseTo(5000, 6);
    expect(spent(0.09)).toBeGreaterThan(5100);
  });

  it('says plainly when it does not pay, and has no payback then', () => {
    const found = worth({ cost: 4000, saving_perYear: 20 }, terms);
    expect(found.pays).toBe(false);
    expect(found.verdict).toBe(doesNotPay);
    expect(found.discountedPayback_years).toBeUndefined();
    expect(worth({ cost: 4000, saving_perYear: -20 }, terms).adjustedReturn).toBeUndefined();
  });

  it('a range runs from dear with little saving to cheap with much', () => {
    const { worst, typical, best } = worthRange(
      {},
      { low: 500, typical: 1000, high: 2000 },
      { low: 40, typical: 80, high: 120 },
      terms,
    );
    expect(worst.netSavings).toBeLessThan(typical.netSavings);
    expect(typical.netSavings).toBeLessThan(best.netSavings);
    expect(worst.pays).toBe(false);
    expect(best.pays).toBe(true);
  });
});
