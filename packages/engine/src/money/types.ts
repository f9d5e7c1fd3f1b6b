/** A repair or a plan as money sees it: what it costs, saves and leaves. Amounts at today's prices, in the job's currency. */
export type Investment = {
  readonly cost: number;
  /** Rebate or tax credit, off the cost at once. */
  readonly incentive?: number;
  /** Energy saved in a year; less than 0 when it costs energy. */
  readonly saving_perYear: number;
  /** Upkeep saved in a year; less than 0 when it needs more. */
  readonly upkeepSaving_perYear?: number;
  /** What has to be paid again within the study, each at the end of a year. */
  readonly replacements?: readonly { readonly year: number; readonly cost: number }[];
  /** Worth left at the end. */
  readonly residual?: number;
  readonly loan?: Loan;
};

/** A loan for part of the cost. Its rate is nominal, as banks state it. */
export type Loan = {
  readonly amount: number;
  readonly yearlyRate: number;
  readonly months: number;
};

/** What the money is counted with; rates real (without inflation), as fractions. */
export type Terms = {
  readonly discount: number;
  /** Growth of energy prices beyond inflation. */
  readonly escalation: number;
  readonly years: number;
  /** Only a loan needs it: its payments are fixed and lose worth. */
  readonly inflation: number;
};

export type Worth = {
  /** PV of energy saved and of upkeep saved. */
  readonly energySaved: number;
  readonly upkeepSaved: number;
  /** PV of everything spent, less what is left: cost after incentive, replacements, residual, dearness of the loan. */
  readonly invested: number;
  readonly netSavings: number;
  /** Absent where nothing is invested. */
  readonly savingsToInvestment?: number;
  /** Adjusted internal rate of return; absent too where the savings are not above 0. */
  readonly adjustedReturn?: number;
  /** Years until the undiscounted and the discounted savings have paid the cost; absent when they never do within the study. */
  readonly simplePayback_years?: number;
  readonly discountedPayback_years?: number;
  /** Change of the life-cycle cost against leaving things as they are: the net savings with the other sign. */
  readonly lifeCycleCost: number;
  readonly pays: boolean;
  readonly verdict: string;
};

/** A figure with its range. */
export type Ranged = { readonly low: number; readonly typical: number; readonly high: number };
