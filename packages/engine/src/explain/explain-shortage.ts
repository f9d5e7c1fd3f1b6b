import { airTemperatures } from '../account/air-temperatures.ts';
import type { Account } from '../account/types.ts';
import { type Cure, curesFor } from './cures.ts';
import { deliveredTo } from './delivered-to.ts';
import { shapleyValues } from './shapley.ts';
import { type CuredAir, solveSubsets } from './solve-subsets.ts';
import type { Explanation } from './types.ts';

/**
 * Why a room is short of air: its shortage split over what can be cured, and the layout that can not.
 * Every subset of cures is solved (2ⁿ air networks, n ≤ 9), and each cause gets its Shapley value, so that
 * Σ causes + layout = needed − delivered, whatever the interactions. Needed airflow is held at the account's.
 */
export function explainShortage(account: Account, room: string): Explanation {
  const standing = account.rooms.find((one) => one.room === room);
  if (!standing) throw new RangeError(`no room '${room}' in this account`);
  const cures = curesFor(account.survey, room);
  const worth = worthBySubset(account, cures, (air) => deliveredTo(air, [room]));
  const values = shapleyValues(cures.length, worth);
  const causes = cures.map(({ id, what }, index) => ({ id, what, air_m3s: values[index]! }));
  return {
    room,
    shortage_m3s: standing.needed_m3s - worth[0]!,
    causes: causes.toSorted((a, b) => b.air_m3s - a.air_m3s),
    layout_m3s: standing.needed_m3s - worth[worth.length - 1]!,
  };
}

/** Worth of the air for every subset of cures. */
export function worthBySubset(
  { survey, mode, loads }: Account,
  cures: readonly Cure[],
  worthOf: (air: CuredAir) => number,
): Float64Array {
  const worth = new Float64Array(2 ** cures.length);
  solveSubsets(survey, mode, airTemperatures(survey, mode, loads), cures, (mask, air) => {
    worth[mask] = worthOf(air);
  });
  return worth;
}
