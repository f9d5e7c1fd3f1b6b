import type { SurveyModel } from '../calibrate/model-of-survey.ts';
import { doorName, isRun, leakName, nearLoss, partName } from '../calibrate/survey-parameters.ts';
import { flexSlackFactor } from '../ducts/flex-slack.ts';
import { sectionGeometry } from '../ducts/section-geometry.ts';
import { cleanFilter_Pa, partsOnlyFor, straightSlack } from './cures.ts';

/** ln of what a sealed leak keeps: nothing that counts. */
const tight = -30;

/**
 * What a cure of `curesFor`, for some rooms together, does to the unknowns of the estimator.
 * @throws RangeError for a cure that there is not
 */
export function cureOf(
  model: SurveyModel,
  id: string,
  rooms: readonly string[],
): (theta: Float64Array) => void {
  const { survey, system, spots, parameters } = model;
  const own = partsOnlyFor(survey, rooms);
  const parts = new Map(system.parts.map((part) => [part.id, part]));
  const lower = (limits: readonly (readonly [unknown: string, most: number])[]) => {
    const found = limits.map(([unknown, most]) => ({ k: parameters.at(unknown), most }));
    return (theta: Float64Array) => {
      for (const { k, most } of found) theta[k] = Math.min(theta[k]!, most);
    };
  };
  const seal = (which: (spot: (typeof spots)[number]) => boolean) =>
    lower(spots.filter(which).map((spot) => [leakName(spot), tight]));
  const isOwn = (part: string | undefined) => part !== undefined && own.has(part);
  const hasTerminal = (part: string | undefined) =>
    part !== undefined && parts.get(part)!.terminal !== undefined;
  const runs = system.parts.filter((part) => isRun(part) && own.has(part.id));
  switch (id) {
    case 'own-joints':
      return seal(({ part, kind }) => isOwn(part) && kind !== 'boot');
    case 'own-boots':
      return seal(({ part, kind }) => isOwn(part) && kind === 'boot');
    case 'trunk-leaks':
      return seal(({ part, side }) => side === 'supply' && !isOwn(part) && !hasTerminal(part));
    case 'other-runs':
      return seal(({ part, side }) => side === 'supply' && !isOwn(part) && hasTerminal(part));
    case 'return-leaks':
      return seal(({ side }) => side === 'return');
    case 'slack':
      return lower(
        runs
          .filter(({ flexible }) => flexible)
          .map(({ id: part, section }) => [
            partName('slack', part),
            Math.log(flexSlackFactor(straightSlack, sectionGeometry(section).hydraulicDiameter_m)),
          ]),
      );
    case 'throttled':
      return lower(
        runs.flatMap((part) => [
          [partName('damper', part.id), Math.log(Math.max(0.1, nearLoss(openDamper(part))))] as const,
          [partName('register', part.id), Math.log(part.terminal!.lossCoefficient)] as const,
        ]),
      );
    case 'filter': {
      const drops = [
        system.airHandler.filter,
        ...system.parts.flatMap(({ terminal }) => terminal?.filter ?? []),
      ]
        .map(({ drop_Pa }) => drop_Pa)
        .filter((drop_Pa) => drop_Pa > 0);
      return lower([['filter', Math.log(cleanFilter_Pa / Math.max(...drops))]]);
    }
    case 'return-path': {
      const opened = survey.doors
        .filter(({ open, between }) => !open && between.some((space) => rooms.includes(space)))
        .map(
          ({ id: door, openArea_m2, shutArea_m2 }) =>
            [parameters.at(doorName(door)), Math.log(openArea_m2 / Math.max(1e-4, shutArea_m2))] as const,
        );
      return (theta) => {
        for (const [k, ln] of opened) theta[k] = Math.max(theta[k]!, ln);
      };
    }
    default:
      throw new RangeError(`no cure '${id}'`);
  }
}

const openDamper = (part: SurveyModel['system']['parts'][number]) =>
  part.damper === undefined ? part : { ...part, damper: 1 };
