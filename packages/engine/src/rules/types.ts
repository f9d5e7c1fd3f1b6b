import type { Account } from '../account/types.ts';
import type { Mode } from '../survey/types.ts';

/** Accounts by design day; a day that is not solved yet is absent. */
export type DayAccounts = Readonly<Partial<Record<Mode, Account>>>;

/** One thing that a code, the project specification or trade practice asks, and how this house stands. */
export type Check = {
  readonly id: string;
  readonly group: 'code' | 'specification' | 'trade' | 'safety';
  readonly title: string;
  readonly result: 'pass' | 'fail' | 'cannot tell' | 'exempt';
  /** What it is about: system, part or room id. */
  readonly subject: string;
  /** SI value, limit and margin (positive = to spare), with the quantity they measure; absent when cannot tell without a value. */
  readonly quantity: CheckQuantity;
  readonly value?: number;
  readonly limit?: number;
  readonly margin?: number;
  readonly sense: 'at most' | 'at least' | 'within' | 'yes or no';
  readonly clause: string;
  readonly source: string;
  /** How the value is known, and what would settle it. */
  readonly evidence: string;
  readonly remedy?: string;
};

/** How to show value and limit; conversion happens where they are shown. */
export type CheckQuantity =
  | 'leakage per floor area'
  | 'share of fan flow'
  | 'insulation'
  | 'velocity'
  | 'pressure'
  | 'airflow per capacity'
  | 'temperature'
  | 'temperature difference'
  | 'airflow'
  | 'none';
