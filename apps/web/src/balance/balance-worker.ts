import {
  type Balance,
  balance,
  type DamperSetting,
  type FieldSheet,
  fieldSheets,
  type Mode,
  modes,
  type Survey,
  withNewDampers,
  type ZoningCase,
  zoningCases,
} from '@airledger/engine';
import { expose } from 'comlink';

/** All that the page shows of a balanced house. */
export type Balanced = {
  readonly survey: Survey;
  readonly balance: Balance;
  readonly zoning: readonly { readonly mode: Mode; readonly cases: readonly ZoningCase[] }[];
};

/** What the page asks of the balancer; a question is given up by ending the worker. */
const balancer = {
  /** @param newDampers as if every run without a damper were given one */
  balance(asked: Survey, newDampers: boolean): Balanced {
    const survey = newDampers ? withNewDampers(asked) : asked;
    return {
      survey,
      balance: balance(survey),
      zoning: modes.map((mode) => ({ mode, cases: zoningCases(survey, mode) })),
    };
  },
  sheets: (survey: Survey, mode: Mode, settings: readonly DamperSetting[]): FieldSheet[] =>
    fieldSheets(survey, mode, settings),
};

export type Balancer = typeof balancer;

expose(balancer);
