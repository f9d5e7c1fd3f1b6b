import { account } from '../account/account.ts';
import type { Account } from '../account/types.ts';
import { damperOpening } from '../ducts/fitting-loss.ts';
import type { Mode, Survey } from '../survey/types.ts';
import { type DamperRun, runsOf, withDampers } from './damper-runs.ts';
import { type EqualShares, equalShares } from './equal-shares.ts';
import { obstaclesIn } from './obstacles.ts';
import { registerTargets } from './register-targets.ts';
import { shareSpread } from './share-spread.ts';
import type { BalancedSeason, DamperSetting } from './types.ts';

/** Needs follow what ducts lose, and so a little the settings; they are settled when they move less than this. */
const settledNeed = 1e-3;
const mostRounds = 6;

/**
 * Damper positions at which every room gets the same share of the air it needs in one season, with the least
 * throttling: in each system at least one damper stays wide open.
 *
 * @throws RangeError when a system has no air to share out, or the season asks for none
 */
export function balanceSeason(survey: Survey, mode: Mode): BalancedSeason {
  const before = account(survey, mode);
  const { runs } = runsOf(before);
  const open = account(
    withDampers(
      survey,
      runs,
      runs.map(() => 1),
    ),
    mode,
    before,
  );
  const openFlow = runs.map(({ element }) => open.air.solution.flow_m3s[element]!);
  let balanced = open;
  let targets = registerTargets(open, runs, openFlow);
  let found: EqualShares | undefined;
  for (let round = 0; round < mostRounds; round++) {
    if (!targets.some((target) => target > 0))
      throw new RangeError(`no room needs air for ${mode}, so there is nothing to share out`);
    const now = runsOf(balanced);
    found = equalShares(now.network, now.runs, targets, found?.coefficient);
    balanced = account(withDampers(survey, runs, openings(found)), mode, balanced);
    const next = registerTargets(balanced, runs, openFlow);
    const moved = Math.max(...next.map((target, i) => Math.abs(target - targets[i]!) / targets[i]!));
    targets = next;
    if (moved < settledNeed) break;
  }
  const settings = damperSettings(balanced, runs, openings(found!), targets);
  return {
    mode,
    settings,
    systems: found!.systems.map((system) => ({
      ...system,
      externalStaticBefore_Pa: externalStatic(before, system.system),
      externalStatic_Pa: externalStatic(balanced, system.system),
    })),
    before: shareSpread(before),
    after: shareSpread(balanced),
    account: balanced,
    obstacles: obstaclesIn(balanced, settings),
  };
}

const openings = ({ coefficient }: EqualShares) =>
  coefficient.map((value) => (value === undefined ? undefined : damperOpening(value)));

const externalStatic = ({ systems }: Account, id: string) =>
  systems.find(({ system }) => system === id)!.externalStatic_Pa;

/** Settings as a person reads them, with the flows of the account in which they stand. */
const damperSettings = (
  { air }: Account,
  found: readonly DamperRun[],
  positions: readonly (number | undefined)[],
  targets: readonly number[],
): DamperSetting[] =>
  found.map(({ system, terminal, room, element, damper }, i) => ({
    system,
    terminal,
    room,
    ...(damper ? { part: damper.part, before: damper.position, position: positions[i]! } : {}),
    target_m3s: targets[i]!,
    flow_m3s: air.solution.flow_m3s[element]!,
  }));
