import type { Account } from '../account/types.ts';
import { type GroupGame, groupGame } from './group-game.ts';
import { shapleyValues } from './shapley.ts';
import type { Imbalance, RoomGroup, Service } from './types.ts';

/**
 * Why one group of rooms is served better than another, with air or with heat: the share of its need that a group gets
 * is what registers deliver to its rooms over what they need together, and the imbalance is the share of the better less
 * that of the worse. Air is what enters while the fan runs over the airflow that the design asks for; heat (in cooling:
 * what is taken out) is what registers bring over the design hour as the house floats, over what they would have to bring
 * to hold the set point.
 *
 * The imbalance is split over what can be cured (for heat, duct walls too) and the layout that can not: Shapley values
 * over every subset of causes (2ⁿ air networks, n ≤ 8, each with up to 2⁴ ways to insulate), so that
 * Σ causes + layout = difference. The equipment is no part of it: more output of one system raises all its shares
 * in proportion, and what it makes of them is in the layout. Needs are held at the account's; see `registerHeat` for what else is.
 * @throws RangeError for a group with a room that is not in the account, or that needs nothing
 */
export const explainImbalance = (
  account: Account,
  of: Service,
  better: RoomGroup,
  worse: RoomGroup,
): Imbalance => imbalanceOf(groupGame(account, of, better, worse), of, [better, worse]);

/** The split of the difference in a game. */
export function imbalanceOf(
  { causes, of: [better, worse] }: GroupGame,
  of: Service,
  groups: Imbalance['groups'],
): Imbalance {
  const shareOfBetter = better.delivered.map((value) => value / better.needed);
  const shareOfWorse = worse.delivered.map((value) => value / worse.needed);
  const difference = shareOfBetter.map((share, mask) => share - shareOfWorse[mask]!);
  const values = shapleyValues(causes.length, difference);
  return {
    of,
    groups,
    shares: [shareOfBetter[0]!, shareOfWorse[0]!],
    difference: difference[0]!,
    // What a cure takes off the difference is its part of it.
    causes: causes
      .map(({ id, what }, k) => ({ id, what, share: -values[k]! }))
      .toSorted((a, b) => b.share - a.share),
    layout: difference[difference.length - 1]!,
  };
}
