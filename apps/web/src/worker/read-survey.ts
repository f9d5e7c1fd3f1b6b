import { type Account, account, type Check, checkRules, type Mode, type Survey } from '@airledger/engine';

/** Everything the page shows of one state: both design days and what the rules say about them. */
export type Reading = {
  readonly accounts: Readonly<Record<Mode, Account>>;
  readonly checks: readonly Check[];
  /** Time that the engine took, ms. */
  readonly took_ms: number;
};

/** Solves a survey for both design days; an earlier reading of the same house only makes it faster. */
export const readSurvey = (survey: Survey, previous?: Reading): Reading => {
  const start = performance.now();
  const accounts = {
    heating: account(survey, 'heating', previous?.accounts.heating),
    cooling: account(survey, 'cooling', previous?.accounts.cooling),
  };
  const checks = checkRules(survey, accounts);
  return { accounts, checks, took_ms: performance.now() - start };
};
