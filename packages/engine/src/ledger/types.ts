import type { LoadCause } from '../loads/types.ts';
import type { LeakPlace, Mode } from '../survey/types.ts';

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
 * One line of the account, averaged over the design hour: what passes from one place to another.
 * Places are ids: a room, zone, duct part, 'system/air-handler', 'outdoors', 'ground', 'sun', 'occupants', 'equipment'.
 * Heat carried by air counts from the reference state, so every place closes for any reference.
 */
export type LedgerLine = {
  readonly from: string;
  readonly to: string;
  readonly what: string;
  readonly cause: Cause;
  readonly place?: LeakPlace;
  readonly system?: string;
  readonly air_kgs: number;
  readonly sensible_W: number;
  readonly latent_W: number;
};

export type Ledger = {
  readonly mode: Mode;
  readonly lines: readonly LedgerLine[];
  readonly referenceTemperature_C: number;
  readonly referenceHumidityRatio: number;
  /** Largest imbalance of any place over the throughput. */
  readonly residual: { readonly air: number; readonly sensible: number; readonly latent: number };
};
