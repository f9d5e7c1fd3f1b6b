import {
  escalatedPresentValue,
  loanPayment,
  singlePresentValue,
  uniformPresentValue,
} from './present-value.ts';
import type { Investment, Loan, Ranged, Terms, Worth } from './types.ts';

/** What a loan costs today beyond its amount: its payments at the nominal discount, less the amount; less than 0 when it is cheap. */
const dearness = ({ amount, yearlyRate, months }: Loan, { discount, inflation }: Terms): number => {
  const monthly = ((1 + discount) * (1 + inflation)) ** (1 / 12) - 1;
  return loanPayment(amount, yearlyRate, months) * uniformPresentValue(monthly, months) - amount;
};

/** Year in which the cumulated worth of yearly savings reaches what was spent at the start, on a line within the year. */
const payback = (
  spent: number,
  savedBy: (year: number) => number,
  most_years: number,
): number | undefined => {
  if (spent <= 0) return 0;
  let before = 0;
  for (let year = 1; year <= most_years; year++) {
    const saved = savedBy(year);
    if (saved >= spent) return year - 1 + (spent - before) / (saved - before);
    before = saved;
  }
  return undefined;
};

/** What is said of an investment that costs more than it saves. */
export const doesNotPay = 'does not pay; done for comfort, health or code';

/**
 * An investment over its study: present values, net savings, savings-to-investment ratio SIR = (energy + upkeep)/(cost −
 * incentive + replacements − residual), adjusted internal rate of return (1 + d)·SIR^(1/n) − 1, paybacks, life-cycle cost.
 * NIST Handbook 135 (form from memory); end-of-year amounts, savings of year t are at prices (1 + e)^t.
 * Simple payback takes the saving at today's prices.
 */
export const worth = (investment: Investment, terms: Terms): Worth => {
  const {
    cost,
    incentive = 0,
    saving_perYear,
    upkeepSaving_perYear = 0,
    replacements = [],
    residual = 0,
  } = investment;
  const { discount, escalation, years } = terms;
  const energyBy = (year: number) => saving_perYear * escalatedPresentValue(discount, escalation, year);
  const upkeepBy = (year: number) => upkeepSaving_perYear * uniformPresentValue(discount, year);
  const energySaved = energyBy(years);
  const upkeepSaved = upkeepBy(years);
  const atStart = cost - incentive + (investment.loan ? dearness(investment.loan, terms) : 0);
  const invested =
    atStart +
    replacements.reduce(
      (sum, one) => sum + (one.year <= years ? one.cost * singlePresentValue(discount, one.year) : 0),
      0,
    ) -
    residual * singlePresentValue(discount, years);
  const saved = energySaved + upkeepSaved;
  const netSavings = saved - invested;
  const ratio = invested > 0 ? saved / invested : undefined;
  const yearly = saving_perYear + upkeepSaving_perYear;
  const pays = netSavings >= 0;
  const simple = yearly > 0 ? Math.max(0, cost - incentive) / yearly : undefined;
  const discounted = payback(atStart, (year) => energyBy(year) + upkeepBy(year), years);
  return {
    energySaved,
    upkeepSaved,
    invested,
    netSavings,
    ...(ratio !== undefined && { savingsToInvestment: ratio }),
    ...(ratio !== undefined && ratio > 0 && { adjustedReturn: (1 + discount) * ratio ** (1 / years) - 1 }),
    ...(simple !== undefined && { simplePayback_years: simple }),
    ...(discounted !== undefined && { discountedPayback_years: discounted }),
    lifeCycleCost: -netSavings,
    pays,
    verdict: pays ? 'pays' : doesNotPay,
  };
};

/** Worth at the best, the typical and the worst of cost and saving: dear with little saving, cheap with much. */
export const worthRange = (
  investment: Omit<Investment, 'cost' | 'saving_perYear'>,
  cost: Ranged,
  saving_perYear: Ranged,
  terms: Terms,
): { readonly worst: Worth; readonly typical: Worth; readonly best: Worth } => {
  const at = (price: number, saving: number) =>
    worth({ ...investment, cost: price, saving_perYear: saving }, terms);
  return {
    worst: at(cost.high, saving_perYear.low),
    typical: at(cost.typical, saving_perYear.typical),
    best: at(cost.low, saving_perYear.high),
  };
};

/** Cost of running a house over a study, present value: what is invested, and energy and upkeep by year. */
export const lifeCycleCost = (
  cost: { readonly invested: number; readonly energy_perYear: number; readonly upkeep_perYear: number },
  { discount, escalation, years }: Terms,
): number =>
  cost.invested +
  cost.energy_perYear * escalatedPresentValue(discount, escalation, years) +
  cost.upkeep_perYear * uniformPresentValue(discount, years);
