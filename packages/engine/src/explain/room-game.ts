import { airTemperatures } from '../account/air-temperatures.ts';
import type { Account, RoomStanding } from '../account/types.ts';
import { type Cure, curesFor } from './cures.ts';
import { deliveredTo } from './delivered-to.ts';
import { fanFlow } from './drawn-warmth.ts';
import { type DuctWalls, wallsFor } from './duct-walls.ts';
import { registerHeat } from './register-heat.ts';
import { needed } from './served.ts';
import { solveSubsets } from './solve-subsets.ts';

/** What a room gets under every subset of what can be cured on its way. */
export type RoomGame = {
  readonly standing: RoomStanding;
  readonly cures: readonly Cure[];
  readonly walls: readonly DuctWalls[];
  /** Air by mask of cures, m³/s. */
  readonly air_m3s: Float64Array;
  /** Heat by mask of cures, then of walls, W. */
  readonly heat_W: Float64Array;
  /** What the fan of each system moves, in the order of the survey, by mask of cures, m³/s. */
  readonly fan_m3s: readonly Float64Array[];
  /** Air and heat of every room with everything cured, in the order of the survey, m³/s and W. */
  readonly cured: { readonly air_m3s: readonly number[]; readonly heat_W: readonly number[] };
  /** Heat that its registers would have to bring to hold it at the set point, W. */
  readonly neededHeat_W: number;
  /** What all rooms together need, W. */
  readonly houseNeeds_W: number;
};

/**
 * Solves the air for every subset of cures, and carries the heat in each through ducts of which every subset of walls
 * is perfectly insulated.
 * @throws RangeError for a room that is not in the account
 */
export function roomGame(account: Account, room: string): RoomGame {
  const { survey, mode, loads, rooms } = account;
  const index = rooms.findIndex((one) => one.room === room);
  if (index < 0) throw new RangeError(`no room '${room}' in this account`);
  const cures = curesFor(survey, room);
  const walls = wallsFor(account, room);
  const air_m3s = new Float64Array(2 ** cures.length);
  const heat_W = new Float64Array(2 ** (cures.length + walls.length));
  const heatOf = registerHeat(account, walls);
  const needed_W = needed(account, 'heat');
  const fan_m3s = survey.systems.map(() => new Float64Array(air_m3s.length));
  let cured: RoomGame['cured'] = { air_m3s: [], heat_W: [] };
  solveSubsets(survey, mode, airTemperatures(survey, mode, loads), cures, (mask, air) => {
    air_m3s[mask] = deliveredTo(air, [room]);
    survey.systems.forEach(({ id }, s) => {
      fan_m3s[s]![mask] = fanFlow(air, id);
    });
    const ways_W = heatOf(air);
    ways_W.forEach((all_W, insulated) => {
      heat_W[mask | (insulated << cures.length)] = all_W[index]!;
    });
    if (mask === air_m3s.length - 1)
      cured = {
        air_m3s: rooms.map((one) => deliveredTo(air, [one.room])),
        heat_W: [...ways_W.at(-1)!],
      };
  });
  return {
    standing: rooms[index]!,
    cures,
    walls,
    air_m3s,
    heat_W,
    fan_m3s,
    cured,
    neededHeat_W: needed_W[index]!,
    houseNeeds_W: needed_W.reduce((sum, value) => sum + value, 0),
  };
}

/** A room's part of what all rooms together lack with everything cured, given what they then get, W. */
export const equipmentPart = (
  { neededHeat_W, houseNeeds_W }: RoomGame,
  brought_W: readonly number[],
): number =>
  houseNeeds_W > 0 ? neededHeat_W * (1 - brought_W.reduce((sum, value) => sum + value, 0) / houseNeeds_W) : 0;
