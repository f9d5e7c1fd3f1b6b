import type { Account } from '../account/types.ts';
import type { Calibration } from '../calibrate/calibration.ts';
import type { SurveyModel } from '../calibrate/model-of-survey.ts';
import type { Survey } from '../survey/types.ts';
import { cureOf } from './cured-unknowns.ts';
import { wayTo } from './cures.ts';
import { drawnFlows, ends, firstAndLast, otherServes } from './drawn-flows.ts';
import { type DrawnWarmth, drawnWarmth } from './drawn-warmth.ts';
import { imbalanceOf } from './explain-imbalance.ts';
import { groupGame } from './group-game.ts';
import type { RangedImbalance, RoomGroup, Service } from './types.ts';

/**
 * An imbalance in the most probable house, split as by `explainImbalance`, with the range of every part over the houses
 * that the readings allow. Heat has the air of each of them, as warm as `drawnWarmth` says.
 * @param account of the calibrated survey
 * @param survey the one that was calibrated
 * @returns undefined when a system other than the calibrated one serves any of the rooms: nothing was read of it
 * @throws RangeError as `explainImbalance`, or without draws
 */
export function imbalanceWithRange(
  account: Account,
  survey: Survey,
  calibration: Calibration,
  of: Service,
  better: RoomGroup,
  worse: RoomGroup,
): RangedImbalance | undefined {
  if (otherServes(survey, calibration, [...better.rooms, ...worse.rooms])) return undefined;
  const game = groupGame(account, of, better, worse);
  const { causes } = game;
  const [airMasks, masks] = [game.of[0].air_m3s.length, game.of[0].delivered.length];
  const cures = causes.slice(0, Math.log2(airMasks));
  const drawn = drawnFlows(survey, calibration, [better.rooms, worse.rooms], (model) =>
    cures.map(({ id }) => cureBetween(model, id, [better, worse])),
  );
  const system = survey.systems.findIndex(({ id }) => id === calibration.system);
  const warmthOf = drawnWarmth(account, calibration.system, game.fan_m3s[system]!);
  /** The difference with other flows, under a mask of causes. */
  const differenceIn = (warmth: DrawnWarmth) => (flows_m3s: readonly number[], mask: number) => {
    const warmer = of === 'heat' ? warmth(flows_m3s.at(-1)!, mask & (airMasks - 1)) : 1;
    const [ofBetter, ofWorse] = game.of.map(({ needed, delivered, air_m3s }, g) => {
      const own_m3s = air_m3s[mask & (airMasks - 1)]!;
      return own_m3s > 0 ? (flows_m3s[g]! * delivered[mask]!) / (own_m3s * needed) : 0;
    });
    return warmer * (ofBetter! - ofWorse!);
  };
  const everything = masks - 1;
  const houses = drawn.map(({ none, all, first, last }) => {
    const difference = differenceIn(warmthOf(none.at(-1)!));
    const bare = difference(none, 0);
    const cured = difference(all, everything);
    // A wall leaves the air as it is.
    const values = firstAndLast(
      bare,
      cured,
      causes.map((_, k) => difference(first[k] ?? none, 1 << k)),
      causes.map((_, k) => difference(last[k] ?? all, everything ^ (1 << k))),
    );
    return { bare, cured, values };
  });
  const central = imbalanceOf(game, of, [better, worse]);
  return {
    ...central,
    causes: central.causes.map((cause) => {
      const k = causes.findIndex(({ id }) => id === cause.id);
      return {
        ...cause,
        ...ends(
          houses.map(({ values }) => -values[k]!),
          cause.share,
        ),
      };
    }),
    differenceRange: ends(
      houses.map(({ bare }) => bare),
      central.difference,
    ),
    layoutRange: ends(
      houses.map(({ cured }) => cured),
      central.layout,
    ),
  };
}

/** What a cure of `curesBetween` does to the unknowns: what the cures of a room do that it is made of. */
function cureBetween(
  model: SurveyModel,
  id: string,
  groups: readonly [RoomGroup, RoomGroup],
): (theta: Float64Array) => void {
  const both = groups.flatMap(({ rooms }) => rooms);
  const made = (of: readonly string[], rooms: readonly string[]) =>
    of.map((one) => cureOf(model, one, rooms));
  const group = groups.find(
    ({ rooms }) => id === `leaks-${wayTo(rooms)}` || id === `restrictions-${wayTo(rooms)}`,
  );
  const cures = group
    ? made(id.startsWith('leaks-') ? ['own-joints', 'own-boots'] : ['slack', 'throttled'], group.rooms)
    : id === 'return'
      ? made(['return-leaks', 'filter'], both)
      : made([id], both);
  return (theta) => {
    for (const cure of cures) cure(theta);
  };
}
