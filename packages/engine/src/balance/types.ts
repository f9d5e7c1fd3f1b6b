import type { Account } from '../account/types.ts';
import type { Mode } from '../survey/types.ts';

/** One supply register, and where the damper that sets its air is to stand. */
export type DamperSetting = {
  readonly system: string;
  readonly terminal: string;
  readonly room: string;
  /** Part with the damper that serves this register alone; absent where there is none, and the air is as it falls. */
  readonly part?: string;
  /** How far the damper is open, 1 … 0, as found and as it is to be. */
  readonly before?: number;
  readonly position?: number;
  /** Air that the register is to give, and gives, m³/s at the density that flows refer to. */
  readonly target_m3s: number;
  readonly flow_m3s: number;
};

/** Share of its needed air that each room gets, over all rooms with a register. */
export type ShareSpread = { readonly least: number; readonly most: number };

/** A house balanced for one season: the same share of its need for every room, with as little throttling as that takes. */
export type BalancedSeason = {
  readonly mode: Mode;
  readonly settings: readonly DamperSetting[];
  /** By system: the share that all its set registers get, and the register that sets it: its damper stays wide open. */
  readonly systems: readonly {
    readonly system: string;
    readonly share: number;
    readonly heldBackBy: string;
    readonly externalStaticBefore_Pa: number;
    readonly externalStatic_Pa: number;
  }[];
  readonly before: ShareSpread;
  readonly after: ShareSpread;
  /** Account of the house with these settings. */
  readonly account: Account;
  /** Why dampers alone do not bring every room its air; empty when they do. */
  readonly obstacles: readonly BalanceObstacle[];
};

/** Something that dampers can not mend, with the room or system that it concerns. */
export type BalanceObstacle = {
  readonly kind: 'no damper' | 'nearly shut' | 'short of air' | 'static above rating';
  readonly system: string;
  readonly terminal?: string;
  readonly room?: string;
  /** Share of need that the room gets, or the pressure as a share of its rating. */
  readonly value: number;
};

/** One set of damper positions judged in each season. */
export type Compromise = {
  readonly settings: readonly DamperSetting[];
  readonly seasons: readonly {
    readonly mode: Mode;
    readonly account: Account;
    readonly spread: ShareSpread;
    readonly obstacles: readonly BalanceObstacle[];
  }[];
};

/** One turn of a damper in the field, and what a hood should read after it. */
export type FieldStep = {
  readonly system: string;
  readonly part: string;
  readonly terminal: string;
  readonly from: number;
  readonly to: number;
  readonly predicted_m3s: number;
  /** At the same time at the register that stays wide open. */
  readonly keyPredicted_m3s: number;
  /** Share of this register over the share of the key register, to turn the damper to. */
  readonly aim: number;
};

/** The proportional method for one system: which register leads, what it reads first, and the turns in order. */
export type FieldSheet = {
  readonly system: string;
  readonly key: string;
  /** Readings with every damper open, to tell whether the model and the house agree. */
  readonly first: readonly {
    readonly terminal: string;
    readonly target_m3s: number;
    readonly predicted_m3s: number;
  }[];
  readonly steps: readonly FieldStep[];
};

/** What shutting zone dampers does to the fan and the bypass. */
export type ZoningCase = {
  readonly system: string;
  readonly shut: readonly string[];
  readonly fanFlow_m3s: number;
  readonly externalStatic_Pa: number;
  readonly bypass_m3s: number;
};
