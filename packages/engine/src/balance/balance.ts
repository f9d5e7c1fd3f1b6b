import { type Mode, modes, type Survey } from '../survey/types.ts';
import { balanceSeason } from './balance-season.ts';
import { compromise } from './compromise.ts';
import type { BalancedSeason, Compromise } from './types.ts';

/** A house balanced for each season that it has equipment for, and for all of them at once. */
export type Balance = { readonly seasons: readonly BalancedSeason[]; readonly compromise: Compromise };

/**
 * Balances a house for heating, for cooling and for both.
 * @throws RangeError when no system moves air, or none has equipment for a season
 */
export function balance(survey: Survey): Balance {
  const wanted = modes.filter((mode) => hasEquipment(survey, mode));
  const seasons = wanted.map((mode) => balanceSeason(survey, mode));
  return { seasons, compromise: compromise(survey, seasons) };
}

const hasEquipment = ({ systems }: Survey, mode: Mode): boolean =>
  systems.some(({ equipment, designAirflow_m3s }) => equipment[mode] && designAirflow_m3s[mode] > 0);
