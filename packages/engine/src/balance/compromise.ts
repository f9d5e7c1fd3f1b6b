import { account } from '../account/account.ts';
import { damperOpening } from '../ducts/fitting-loss.ts';
import type { Mode, Survey } from '../survey/types.ts';
import { runsOf, withDampers } from './damper-runs.ts';
import { equalShares } from './equal-shares.ts';
import { obstaclesIn } from './obstacles.ts';
import { shareSpread } from './share-spread.ts';
import type { BalancedSeason, Compromise, DamperSetting } from './types.ts';

/**
 * One set of positions for both seasons. Each register aims at the geometric mean of its parts of the air in heating
 * and in cooling, so that it departs from each by the same ratio: that makes the larger of the two departures least.
 * The positions are set where the systems move more air.
 *
 * @param seasons the house balanced for each season
 */
export function compromise(survey: Survey, seasons: readonly BalancedSeason[]): Compromise {
  const leading = seasons.toSorted((a, b) => total(b) - total(a))[0];
  if (!leading) throw new RangeError('a compromise needs at least one season');
  const { network, runs } = runsOf(leading.account);
  const targets = runs.map(({ system }, index) => {
    const parts = seasons.map((season) => season.settings[index]!.target_m3s / total(season, system));
    const mean = parts.reduce((product, part) => product * part, 1) ** (1 / parts.length);
    return mean * total(leading, system);
  });
  const found = equalShares(network, runs, targets);
  const positions = found.coefficient.map((value) =>
    value === undefined ? undefined : damperOpening(value),
  );
  const judged = seasons.map(({ mode, account: near }) =>
    judge(withDampers(survey, runs, positions), mode, near),
  );
  const { air } = judged[seasons.indexOf(leading)]!.account;
  const settings = leading.settings.map(
    (setting, i): DamperSetting => ({
      ...setting,
      ...(positions[i] !== undefined && { position: positions[i] }),
      target_m3s: targets[i]!,
      flow_m3s: air.solution.flow_m3s[runs[i]!.element]!,
    }),
  );
  return {
    settings,
    seasons: judged.map((season) => ({ ...season, obstacles: obstaclesIn(season.account, settings) })),
  };
}

function judge(survey: Survey, mode: Mode, near: BalancedSeason['account']) {
  const settled = account(survey, mode, near);
  return { mode, account: settled, spread: shareSpread(settled) };
}

const total = ({ settings }: BalancedSeason, system?: string): number =>
  settings
    .filter((setting) => system === undefined || setting.system === system)
    .reduce((sum, setting) => sum + setting.target_m3s, 0);
