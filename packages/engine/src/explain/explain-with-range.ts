import type { Account } from '../account/types.ts';
import type { Calibration } from '../calibrate/calibration.ts';
import type { Survey } from '../survey/types.ts';
import { cureOf } from './cured-unknowns.ts';
import { type DrawnFlows, drawnFlows, ends, firstAndLast, otherServes } from './drawn-flows.ts';
import { drawnWarmth } from './drawn-warmth.ts';
import { airOf, heatOf } from './explain-room.ts';
import { equipmentPart, type RoomGame, roomGame } from './room-game.ts';
import type { RangedExplanation, RangedHeatExplanation, RangedRoomExplanation } from './types.ts';

/**
 * The shortage of a room in the most probable house, split exactly as by `explainRoom`, with the range of every part
 * over the houses that the readings allow. In each of them too the parts add up to its shortage, split there by what
 * each cause brings first and last. Heat has the air of each of them, as much warmer or colder than in the most probable
 * house with the same cures as its fan and equipment make it (`drawnWarmth`); by that the equipment's part has its range:
 * what all rooms together would lack there with everything cured. Rooms of other systems are as in the most probable.
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
  // The room itself first, so that what is drawn for it stands at 0.
  const others = account.rooms.filter((one) => one.room !== room).map((one) => one.room);
  const drawn = drawnFlows(
    survey,
    calibration,
    [room, ...others].map((one) => [one]),
    (model) => game.cures.map(({ id }) => cureOf(model, id, [room])),
  );
  return {
    air: rangedAir(game, drawn),
    heat: rangedHeat(game, drawn, account, survey, calibration, [room, ...others]),
  };
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

function rangedHeat(
  game: RoomGame,
  drawn: readonly DrawnFlows[],
  account: Account,
  survey: Survey,
  calibration: Calibration,
  rooms: readonly string[],
): RangedHeatExplanation {
  const central = heatOf(game);
  const { cures, walls, air_m3s, heat_W, neededHeat_W } = game;
  const players = [...cures, ...walls];
  const everything = heat_W.length - 1;
  const airMask = air_m3s.length - 1;
  const system = survey.systems.findIndex(({ id }) => id === calibration.system);
  const warmthOf = drawnWarmth(account, calibration.system, game.fan_m3s[system]!);
  const cured = rooms.map((room) => {
    const r = account.rooms.findIndex((one) => one.room === room);
    const heat_W = game.cured.heat_W[r]!;
    const own_m3s = game.cured.air_m3s[r]!;
    return { heat_W, own_m3s: otherServes(survey, calibration, [room]) ? 0 : own_m3s };
  });
  const houses = drawn.map(({ none, all, first, last }) => {
    const fanOf = (flows: readonly number[]) => flows.at(-1)!;
    const warmth = warmthOf(fanOf(none));
    const heat = (flows_m3s: readonly number[], mask: number): number => {
      const own_m3s = air_m3s[mask & airMask]!;
      const warmer = warmth(fanOf(flows_m3s), mask & airMask);
      return own_m3s > 0 ? (warmer * flows_m3s[0]! * heat_W[mask]!) / own_m3s : 0;
    };
    const bare = heat(none, 0);
    const whole = heat(all, everything);
    const warmer = warmth(fanOf(all), airMask);
    const equipment = equipmentPart(
      game,
      cured.map((one, g) => (one.own_m3s > 0 ? (warmer * all[g]! * one.heat_W) / one.own_m3s : one.heat_W)),
    );
    // A wall leaves the air as it is.
    const values = firstAndLast(
      bare,
      whole,
      players.map((_, k) => heat(first[k] ?? none, 1 << k)),
      players.map((_, k) => heat(last[k] ?? all, everything ^ (1 << k))),
    );
    return { bare, equipment, layout: neededHeat_W - whole - equipment, values };
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
    equipmentRange_W: ends(
      houses.map(({ equipment }) => equipment),
      central.equipment_W,
    ),
    layoutRange_W: ends(
      houses.map(({ layout }) => layout),
      central.layout_W,
    ),
  };
}
