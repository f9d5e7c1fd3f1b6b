import type { Account } from '../account/types.ts';
import { curesBetween } from './cures.ts';
import { deliveredTo, worthBySubset } from './explain-shortage.ts';
import { shapleyValues } from './shapley.ts';
import type { Imbalance } from './types.ts';

/**
 * Why one room gets more of what it needs than another: the difference of delivered over needed air, split over what
 * can be cured and the layout that can not. Shapley values over every subset of cures (n ≤ 8), so that
 * Σ causes + layout = difference. Needed airflows are held at the account's.
 * @throws RangeError for a room that is not in the account or needs no air
 */
export function explainImbalance(account: Account, better: string, worse: string): Imbalance {
  const needed = [better, worse].map((room) => {
    const standing = account.rooms.find((one) => one.room === room);
    if (!standing || !(standing.needed_m3s > 0))
      throw new RangeError(`room '${room}' needs no air in this account`);
    return standing.needed_m3s;
  }) as [number, number];
  const cures = curesBetween(account.survey, better, worse);
  const worth = worthBySubset(
    account,
    cures,
    (air) => deliveredTo(air, worse) / needed[1] - deliveredTo(air, better) / needed[0],
  );
  const values = shapleyValues(cures.length, worth);
  const causes = cures.map(({ id, what }, index) => ({ id, what, share: values[index]! }));
  return {
    rooms: [better, worse],
    difference: -worth[0]!,
    causes: causes.toSorted((a, b) => b.share - a.share),
    layout: -worth[worth.length - 1]!,
  };
}
