import type { Account } from '@airledger/engine';
import { placeLedger } from './place-ledger.ts';

/** What happens to the air in one duct part, in a line; flows while the fan runs, heat averaged over the hour. */
export type PartPassage = {
  readonly enters_m3s: number;
  /** Net air out of the duct through its leaks; negative where it sucks air in. */
  readonly leaksOut_m3s: number;
  /** Net sensible heat out of the duct with leaks and through its wall, W. */
  readonly leakHeat_W: number;
  readonly wallHeat_W: number;
};

/** Sums up the lines of one duct part. */
export const partPassage = (account: Account, part: string): PartPassage => {
  const sums = { enters_m3s: 0, leaksOut_m3s: 0, leakHeat_W: 0, wallHeat_W: 0 };
  for (const { line, direction, air_m3s, sensible_W } of placeLedger(account, part).entries)
    if (line.cause === 'supply leak' || line.cause === 'return leak') {
      sums.leaksOut_m3s -= air_m3s;
      sums.leakHeat_W -= sensible_W;
    } else if (line.cause === 'supply conduction' || line.cause === 'return conduction')
      sums.wallHeat_W -= sensible_W;
    else if (direction === 'in') sums.enters_m3s += air_m3s;
  return sums;
};
