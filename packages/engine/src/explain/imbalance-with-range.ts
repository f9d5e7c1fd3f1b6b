import type { Account } from '../account/types.ts';
import type { Calibration } from '../calibrate/calibration.ts';
import type { SurveyModel } from '../calibrate/model-of-survey.ts';
import type { Survey } from '../survey/types.ts';
import { cureOf } from './cured-unknowns.ts';
import { drawnFlows, ends, firstAndLast, otherServes } from './drawn-flows.ts';
import { explainImbalance, neededBy } from './explain-imbalance.ts';
import type { RangedImbalance, RoomGroup } from './types.ts';

/**
 * An imbalance in the most probable house, split as by `explainImbalance`, with the range of every part over the houses
 * that the readings allow.
 * @param account of the calibrated survey
 * @param survey the one that was calibrated
 * @returns undefined when a system other than the calibrated one serves any of the rooms: nothing was read of it
 * @throws RangeError as `explainImbalance`, or without draws
 */
export function imbalanceWithRange(
  account: Account,
  survey: Survey,
  calibration: Calibration,
  better: RoomGroup,
  worse: RoomGroup,
): RangedImbalance | undefined {
  const rooms = [...better.rooms, ...worse.rooms];
  if (otherServes(survey, calibration, rooms)) return undefined;
  const central = explainImbalance(account, better, worse);
  const [neededBetter, neededWorse] = [neededBy(account, better), neededBy(account, worse)];
  const ids = central.causes.map(({ id }) => id);
  const drawn = drawnFlows(survey, calibration, [better.rooms, worse.rooms], (model) =>
    ids.map((id) => cureBetween(model, id, [better, worse])),
  );
  const worth = ([ofBetter, ofWorse]: readonly number[]) => ofWorse! / neededWorse - ofBetter! / neededBetter;
  const parts = drawn.map(({ none, all, first, last }) =>
    firstAndLast(worth(none), worth(all), first.map(worth), last.map(worth)),
  );
  return {
    ...central,
    causes: central.causes.map((cause, k) => ({
      ...cause,
      ...ends(
        parts.map((values) => values[k]!),
        cause.share,
      ),
    })),
    differenceRange: ends(
      drawn.map(({ none }) => -worth(none)),
      central.difference,
    ),
    layoutRange: ends(
      drawn.map(({ all }) => -worth(all)),
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
  const group = groups.find(({ name }) => id === `leaks-${name}` || id === `restrictions-${name}`);
  const cures = group
    ? made(id.startsWith('leaks-') ? ['own-joints', 'own-boots'] : ['slack', 'throttled'], group.rooms)
    : id === 'return'
      ? made(['return-leaks', 'filter'], both)
      : made([id], both);
  return (theta) => {
    for (const cure of cures) cure(theta);
  };
}
