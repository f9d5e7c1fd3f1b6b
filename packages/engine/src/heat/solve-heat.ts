import type { Air } from '../air/types.ts';
import type { Loads } from '../loads/types.ts';
import type { ZoneTerms } from '../loads/zone-terms.ts';
import type { Mode, Survey } from '../survey/types.ts';
import { modelHouse } from './house-model.ts';
import { settle } from './settle.ts';
import type { Heat } from './types.ts';

/**
 * Temperatures and moisture of a house whose air is solved: rooms float, each thermostat's room is held by the
 * run fraction of its equipment, buffer zones and ducts close their own balances.
 *
 * Along a duct T leaves as T_s + (T_in − T_s)·e^(−UA/ṁcp); at nodes air mixes by mass; leaks carry enthalpy.
 * Every duct temperature is affine in the rooms' and zones', so one small dense system holds the whole house.
 * Systems share one fan-on part of the hour, the longest; a system that needs less gives its output in part.
 *
 * Solved twice: as the house floats, and with every room at its set point, which is what the loads with ducts
 * stand on (there the run fraction may pass 1: the equipment would have to be that much larger).
 */
export function solveHeat(
  survey: Survey,
  mode: Mode,
  loads: Loads,
  zones: Readonly<Record<string, ZoneTerms>>,
  air: Air,
): Heat {
  const house = modelHouse(survey, mode, loads, zones, air);
  const { flow, terms, source, specificHeat_JkgK, fanPower_W } = house;
  return {
    mode,
    flow,
    terms,
    source,
    specificHeat_JkgK,
    fanPower_W,
    floating: settle(house, false),
    atSetPoint: settle(house, true),
  };
}
