import type { Account } from '../account/types.ts';
import { equipmentPart, type RoomGame, roomGame } from './room-game.ts';
import { shapleyValues } from './shapley.ts';
import type { Explanation, HeatExplanation, RoomExplanation } from './types.ts';

/**
 * Why a room is short of air and of heat (in cooling: of cooling): both shortages split over the same causes, and over
 * the walls of its ducts for heat. Every subset of causes is run (2ⁿ air networks, n ≤ 9, each with 2³ ways to insulate),
 * and each cause gets its Shapley value, so that causes + equipment + layout = needed − brought, whatever the interactions.
 * What the room needs is held at the account's; see `registerHeat` for what else is.
 * @throws RangeError for a room that is not in the account
 */
export function explainRoom(account: Account, room: string): RoomExplanation {
  const game = roomGame(account, room);
  return { air: airOf(game), heat: heatOf(game) };
}

/** The split of the shortage of air in a game. */
export function airOf({ standing, cures, air_m3s }: RoomGame): Explanation {
  const values = shapleyValues(cures.length, air_m3s);
  const causes = cures.map(({ id, what }, k) => ({ id, what, air_m3s: values[k]! }));
  return {
    room: standing.room,
    shortage_m3s: standing.needed_m3s - air_m3s[0]!,
    causes: causes.toSorted((a, b) => b.air_m3s - a.air_m3s),
    layout_m3s: standing.needed_m3s - air_m3s[air_m3s.length - 1]!,
  };
}

/** The split of the shortage of heat in a game. */
export function heatOf(game: RoomGame): HeatExplanation {
  const { standing, cures, walls, heat_W, neededHeat_W, cured } = game;
  const players = [...cures, ...walls];
  const values = shapleyValues(players.length, heat_W);
  const causes = players.map(({ id, what }, k) => ({ id, what, heat_W: values[k]! }));
  const equipment_W = equipmentPart(game, cured.heat_W);
  return {
    room: standing.room,
    needed_W: neededHeat_W,
    shortage_W: neededHeat_W - heat_W[0]!,
    causes: causes.toSorted((a, b) => b.heat_W - a.heat_W),
    equipment_W,
    layout_W: neededHeat_W - heat_W[heat_W.length - 1]! - equipment_W,
  };
}
