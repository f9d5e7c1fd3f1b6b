import type { Account } from '../account/types.ts';
import type { Calibration } from '../calibrate/calibration.ts';
import type { Survey } from '../survey/types.ts';
import { cureOf } from './cured-unknowns.ts';
import { type DrawnFlows, drawnFlows, ends, firstAndLast, otherServes } from './drawn-flows.ts';
import { airOf, heatOf } from './explain-room.ts';
import { type RoomGame, roomGame } from './room-game.ts';
import type { RangedExplanation, RangedHeatExplanation, RangedRoomExplanation } from './types.ts';

/**
 * The shortage of a room in the most probable house, split exactly as by `explainRoom`, with the range of every part
 * over the houses that the readings allow. In each of them too the parts add up to its shortage, split there by what
 * each cause brings first and last. Heat has the air of each of them, arriving as warm as in the most probable house
 * with the same cures.
 *
 * @param account of the calibrated survey
 * @param survey the one that was calibrated
 * @returns undefined when a system other than the calibrated one serves the room: nothing was read of it
 * @throws RangeError without draws, or for a room that is not in the account
 */
export function explainWithRange(
  account: Account,
  survey: Survey,
  calibration: Calibration,
  room: string,
): RangedRoomExplanation | undefined {
  if (otherServes(survey, calibration, [room])) return undefined;
  const game = roomGame(account, room);
  const drawn = drawnFlows(survey, calibration, [[room]], (model) =>
    game.cures.map(({ id }) => cureOf(model, id, [room])),
  );
  return { air: rangedAir(game, drawn), heat: rangedHeat(game, drawn) };
}

function rangedAir(game: RoomGame, drawn: readonly DrawnFlows[]): RangedExplanation {
  const central = airOf(game);
  const needed = game.standing.needed_m3s;
  const parts = drawn.map(({ none, all, first, last }) =>
    firstAndLast(
      none[0]!,
      all[0]!,
      first.map(([flow]) => flow!),
      last.map(([flow]) => flow!),
    ),
  );
  return {
    ...central,
    causes: central.causes.map((cause) => {
      const k = game.cures.findIndex(({ id }) => id === cause.id);
      const { low, high } = ends(
        parts.map((values) => values[k]!),
        cause.air_m3s,
      );
      return { ...cause, low_m3s: low, high_m3s: high };
    }),
    shortageRange_m3s: ends(
      drawn.map(({ none }) => needed - none[0]!),
      central.shortage_m3s,
    ),
    layoutRange_m3s: ends(
      drawn.map(({ all }) => needed - all[0]!),
      central.layout_m3s,
    ),
  };
}

function rangedHeat(game: RoomGame, drawn: readonly DrawnFlows[]): RangedHeatExplanation {
  const central = heatOf(game);
  const { cures, walls, air_m3s, heat_W, neededHeat_W } = game;
  const players = [...cures, ...walls];
  const everything = heat_W.length - 1;
  const heat = (flow_m3s: number, mask: number): number => {
    const own_m3s = air_m3s[mask & (air_m3s.length - 1)]!;
    return own_m3s > 0 ? (flow_m3s * heat_W[mask]!) / own_m3s : 0;
  };
  const houses = drawn.map(({ none, all, first, last }) => {
    const bare = heat(none[0]!, 0);
    const cured = heat(all[0]!, everything);
    // A wall leaves the air as it is.
    const values = firstAndLast(
      bare,
      cured,
      players.map((_, k) => heat((first[k] ?? none)[0]!, 1 << k)),
      players.map((_, k) => heat((last[k] ?? all)[0]!, everything ^ (1 << k))),
    );
    return { bare, cured, values };
  });
  return {
    ...central,
    causes: central.causes.map((cause) => {
      const k = players.findIndex(({ id }) => id === cause.id);
      const { low, high } = ends(
        houses.map(({ values }) => values[k]!),
        cause.heat_W,
      );
      return { ...cause, low_W: low, high_W: high };
    }),
    shortageRange_W: ends(
      houses.map(({ bare }) => neededHeat_W - bare),
      central.shortage_W,
    ),
    layoutRange_W: ends(
      houses.map(({ cured }) => neededHeat_W - cured - central.equipment_W),
      central.layout_W,
    ),
  };
}
