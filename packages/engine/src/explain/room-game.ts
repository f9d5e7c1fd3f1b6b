import { airTemperatures } from '../account/air-temperatures.ts';
import type { Account, RoomStanding } from '../account/types.ts';
import { type Cure, curesFor } from './cures.ts';
import { deliveredTo } from './delivered-to.ts';
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
  /** Heat that its registers would have to bring to hold it at the set point, W. */
  readonly neededHeat_W: number;
  /** Of all heat that rooms need, the part that they would get with everything cured. */
  readonly houseShare: number;
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
  let houseShare = 1;
  solveSubsets(survey, mode, airTemperatures(survey, mode, loads), cures, (mask, air) => {
    air_m3s[mask] = deliveredTo(air, [room]);
    heatOf(air).forEach((all_W, insulated) => {
      const at = mask | (insulated << cures.length);
      heat_W[at] = all_W[index]!;
      if (at === heat_W.length - 1) {
        const sum = (values: Iterable<number>) => [...values].reduce((total, value) => total + value, 0);
        houseShare = sum(needed_W) > 0 ? sum(all_W) / sum(needed_W) : 1;
      }
    });
  });
  return {
    standing: rooms[index]!,
    cures,
    walls,
    air_m3s,
    heat_W,
    neededHeat_W: needed_W[index]!,
    houseShare,
  };
}
