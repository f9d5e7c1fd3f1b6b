/** Terms of money over the years. Rates are real: without general inflation. */
export type MoneyTerms = {
  readonly years: number;
  readonly discount: number;
  /** How much faster than prices in general energy gets dearer. */
  readonly energyEscalation: number;
};

export const usualTerms: MoneyTerms = { years: 20, discount: 0.03, energyEscalation: 0.01 };

/** Present value of a cost paid again whenever its life has passed, less what is left of it at the end, over the cost. */
export const lifeFactor = (life_years: number, { years, discount }: MoneyTerms): number => {
  const present = (year: number): number => (1 + discount) ** -year;
  let sum = 0;
  let at = 0;
  for (; at < years - 1e-9; at += life_years) sum += present(at);
  return sum - ((at - years) / life_years) * present(years);
};
