import type { LoadCause } from '../loads/types.ts';
import type { LeakPlace, Mode } from '../survey/types.ts';

/** Why air or heat passes from one place to another. */
export type Cause =
  | LoadCause
  | 'supply air'
  | 'return air'
  | 'supply leak'
  | 'return leak'
  | 'supply conduction'
  | 'return conduction'
  | 'heating'
  | 'cooling'
  | 'fan heat'
  | 'door air'
  | 'transfer air'
  | 'induced infiltration'
  | 'zone ventilation'
  | 'storage';

/**
 * One line of the account: what passes from one place to another on the design hour.
 * Places are ids: a room, zone, duct part, 'system/air-handler', 'outdoors', 'ground', 'sun',
 * 'occupants', 'equipment', 'electricity', 'construction'.
 * Heat carried by air counts from the reference state, so every place closes for any reference.
 */
export type LedgerLine = {
  readonly from: string;
  readonly to: string;
  readonly what: string;
  readonly cause: Cause;
  readonly place?: LeakPlace;
  readonly system?: string;
  /** Part of the design hour in which it acts; 1 for what never stops. */
  readonly share: number;
  /** Air while it acts, kg/s. */
  readonly air_kgs: number;
  /** Heat and moisture averaged over the hour, W. */
  readonly sensible_W: number;
  readonly latent_W: number;
};

/** Every passage of air, heat and moisture in one mode; each place closes. */
export type Ledger = {
  readonly mode: Mode;
  readonly lines: readonly LedgerLine[];
  readonly referenceTemperature_C: number;
  readonly referenceHumidityRatio: number;
  /** Largest imbalance of any place over the throughput. */
  readonly residual: { readonly air: number; readonly sensible: number; readonly latent: number };
};
