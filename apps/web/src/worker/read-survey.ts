import {
  account,
  type Check,
  checkRules,
  type DayAccounts,
  type Mode,
  modes,
  type Survey,
} from '@airledger/engine';

/** What the page shows of one state after one edit: the design day in view first, the other right behind it. */
export type Reading = {
  /** Number of the edit; all that a reading holds is of this edit. */
  readonly edit: number;
  readonly accounts: DayAccounts;
  /** By the days that are in: complete when both are. */
  readonly checks: readonly Check[];
  /** Time that the engine took for the day that was in view and its checks, ms. */
  readonly took_ms: number;
  /** The same for both days and all checks; absent until they are in. */
  readonly whole_ms?: number;
};

/** One design day of a survey, solved, and what the rules say by it and the days before it. */
export type DayReading = {
  readonly accounts: DayAccounts;
  readonly checks: readonly Check[];
  readonly took_ms: number;
};

/**
 * Solves one design day beside those that are solved already.
 * @param previous accounts of the same house before the edit; they only make it faster.
 */
export const readDay = (
  survey: Survey,
  mode: Mode,
  solved: DayAccounts = {},
  previous: DayAccounts = {},
): DayReading => {
  const start = performance.now();
  const accounts = { ...solved, [mode]: account(survey, mode, previous[mode]) };
  return { accounts, checks: checkRules(survey, accounts), took_ms: performance.now() - start };
};

/** The other design day. */
export const otherDay = (mode: Mode): Mode => (mode === 'heating' ? 'cooling' : 'heating');

/** Whether both design days are in. */
export const isWhole = ({ accounts }: Reading): boolean =>
  modes.every((mode) => accounts[mode] !== undefined);
