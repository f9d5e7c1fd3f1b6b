/**
 * Present-value factors of NIST Handbook 135 (form from memory), end of year. Rates are yearly as fractions; `discount`
 * and `escalation` must both be real or both be nominal. Years whole, 0 or more.
 */

/** Worth today of one unit of money at the end of the year: (1 + d)^−n. */
export const singlePresentValue = (discount: number, years: number): number => (1 + discount) ** -years;

/** Worth today of one unit at the end of every year: [(1 + d)^n − 1]/[d·(1 + d)^n], n without discount. */
export const uniformPresentValue = (discount: number, years: number): number =>
  discount === 0 ? years : (1 - (1 + discount) ** -years) / discount;

/**
 * Worth today of a yearly amount that is one unit at today's prices and grows by `escalation`:
 * (1 + e)/(d − e)·[1 − ((1 + e)/(1 + d))^n], n when both rates agree.
 */
export const escalatedPresentValue = (discount: number, escalation: number, years: number): number => {
  if (Math.abs(discount - escalation) < 1e-12) return years;
  const ratio = (1 + escalation) / (1 + discount);
  return ((1 + escalation) / (discount - escalation)) * (1 - ratio ** years);
};

/** Real rate out of a nominal one and inflation: (1 + D)/(1 + I) − 1. */
export const realRate = (nominal: number, inflation: number): number => (1 + nominal) / (1 + inflation) - 1;

/** Yearly amount that pays an investment back over its life: I·d·(1 + d)^n/[(1 + d)^n − 1]. */
export const annualised = (amount: number, discount: number, years: number): number =>
  amount / uniformPresentValue(discount, years);

/** Monthly payment of a loan at a nominal yearly rate, paid in equal months. */
export const loanPayment = (amount: number, yearlyRate: number, months: number): number =>
  amount / uniformPresentValue(yearlyRate / 12, months);
