import type { Account } from '../account/types.ts';
import { curesBetween } from './cures.ts';
import { deliveredTo } from './delivered-to.ts';
import { worthBySubset } from './explain-shortage.ts';
import { shapleyValues } from './shapley.ts';
import type { Imbalance, RoomGroup } from './types.ts';

/**
 * Why one group of rooms gets more of the air that it needs than another: the difference of delivered over needed air,
 * split over what can be cured and the layout that can not. Shapley values over every subset of cures (n ≤ 8), so that
 * Σ causes + layout = difference. Needed airflows are held at the account's.
 * @throws RangeError for a group with a room that is not in the account, or that needs no air
 */
export function explainImbalance(account: Account, better: RoomGroup, worse: RoomGroup): Imbalance {
  const [neededBetter, neededWorse] = [neededBy(account, better), neededBy(account, worse)];
  const cures = curesBetween(account.survey, better, worse);
  const worth = worthBySubset(
    account,
    cures,
    (air) => deliveredTo(air, worse.rooms) / neededWorse - deliveredTo(air, better.rooms) / neededBetter,
  );
  const values = shapleyValues(cures.length, worth);
  const causes = cures.map(({ id, what }, index) => ({ id, what, share: values[index]! }));
  const delivered = ({ rooms }: RoomGroup) =>
    account.rooms.reduce((sum, one) => sum + (rooms.includes(one.room) ? one.delivered_m3s : 0), 0);
  return {
    groups: [better, worse],
    shares: [delivered(better) / neededBetter, delivered(worse) / neededWorse],
    difference: -worth[0]!,
    causes: causes.toSorted((a, b) => b.share - a.share),
    layout: -worth[worth.length - 1]!,
  };
}

/** Air that a group of rooms needs, m³/s, above zero. */
export function neededBy(account: Account, { name, rooms }: RoomGroup): number {
  const needed = rooms.map(
    (room) => account.rooms.find((one) => one.room === room)?.needed_m3s ?? Number.NaN,
  );
  const sum = needed.reduce((total, flow) => total + flow, 0);
  if (!(sum > 0)) throw new RangeError(`'${name}' needs no air in this account`);
  return sum;
}
