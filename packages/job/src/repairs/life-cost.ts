import { type Terms, worth } from '@airledger/engine';

/** Study of twenty years at real rates, as federal life-cycle studies are done (NIST Handbook 135; rates from memory). */
export const usualTerms: Terms = { discount: 0.03, escalation: 0.01, years: 20, inflation: 0.025 };

/** When something with a life is bought again within a study, and what is left of the last at its end, for a cost of one. */
export const renewals = (
  life_years: number,
  { years }: Terms,
): {
  readonly replacements: { readonly year: number; readonly cost: number }[];
  readonly residual: number;
} => {
  const replacements: { year: number; cost: number }[] = [];
  let bought = 0;
  while (bought + life_years < years - 1e-9) {
    bought += life_years;
    replacements.push({ year: Math.round(bought), cost: 1 });
  }
  return { replacements, residual: (bought + life_years - years) / life_years };
};

/** Present value of buying something again and again through a study, over what it costs once. */
export const lifeFactor = (life_years: number, terms: Terms): number =>
  worth({ cost: 1, saving_perYear: 0, ...renewals(life_years, terms) }, terms).invested;
