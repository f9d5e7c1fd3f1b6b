import type { Account } from '../account/types.ts';
import { surveyWith } from '../calibrate/calibrated-survey.ts';
import type { Calibration } from '../calibrate/calibration.ts';
import {
  evaluateMeasures,
  type ForwardModel,
  forwardModel,
  type Pressures,
  startPressures,
} from '../calibrate/forward-model.ts';
import { modelOfSurvey, type SurveyModel } from '../calibrate/model-of-survey.ts';
import { conditionOf } from '../calibrate/survey-conditions.ts';
import { doorName, isRun, leakName, nearLoss, partName } from '../calibrate/survey-parameters.ts';
import { operating } from '../calibrate/survey-readings.ts';
import type { Measure } from '../calibrate/types.ts';
import { flexSlackFactor } from '../ducts/flex-slack.ts';
import { sectionGeometry } from '../ducts/section-geometry.ts';
import type { Survey } from '../survey/types.ts';
import { cleanFilter_Pa, partsOnlyFor, straightSlack } from './cures.ts';
import { explainShortage } from './explain-shortage.ts';
import type { RangedExplanation } from './types.ts';

/** Houses that the range of a cause is taken over: spread evenly over the draws. */
const mostDraws = 40;
/** ln of what a sealed leak keeps: nothing that counts. */
const tight = -30;

/**
 * The shortage of a room in the most probable house, split exactly as by `explainShortage`, with the range of every part
 * over the houses that the readings allow. In each of them too the parts add up to its shortage, split there by what
 * each cause brings first and last.
 *
 * @param account of the calibrated survey
 * @param survey the one that was calibrated
 * @throws RangeError without draws, or for a room that is not in the account
 */
export function explainWithRange(
  account: Account,
  survey: Survey,
  calibration: Calibration,
  room: string,
): RangedExplanation {
  const { draws } = calibration;
  if (draws.length === 0) throw new RangeError('ranges need a calibration with draws');
  const central = explainShortage(account, room);
  const needed = central.shortage_m3s + deliveredIn(account, room);
  const model = modelOfSurvey(
    survey,
    calibration.system,
    calibration.mode,
    surveyWith(survey, calibration.system, calibration.probable),
  );
  const { forward, measures } = houseInUse(model, room);
  const cures = central.causes.map(({ id }) => cureOf(model, id, room));
  const count = Math.min(mostDraws, draws.length);
  const [bare, cured, now] = [startPressures(forward), startPressures(forward), startPressures(forward)];
  const parts = Array.from({ length: count }, (_, i) => {
    const theta = draws[Math.floor(((i + 0.5) * draws.length) / count)]!;
    const delivered = (which: (k: number) => boolean, pressures: Pressures) => {
      const unknowns = theta.slice();
      cures.forEach((cure, k) => {
        if (which(k)) cure(unknowns);
      });
      const flows = evaluateMeasures(forward, 0, measures, unknowns, pressures);
      return flows.reduce((sum, flow) => sum + Math.max(0, flow), 0);
    };
    /** The same from pressures of which it is one cure away. */
    const near = (which: (k: number) => boolean, start: Pressures) => {
      now[0]!.set(start[0]!);
      return delivered(which, now);
    };
    const none = delivered(() => false, bare);
    const all = delivered(() => true, cured);
    return {
      values: firstAndLast(
        cures.map((_, k) => near((other) => other === k, bare) - none),
        cures.map((_, k) => all - near((other) => other !== k, cured)),
        all - none,
      ),
      shortage: needed - none,
      layout: needed - all,
    };
  });
  return {
    ...central,
    causes: central.causes.map((cause, k) => {
      const { low, high } = ends(parts.map(({ values }) => values[k]!));
      return { ...cause, low_m3s: low, high_m3s: high };
    }),
    shortageRange_m3s: ends(parts.map(({ shortage }) => shortage)),
    layoutRange_m3s: ends(parts.map(({ layout }) => layout)),
  };
}

/**
 * Shapley values from what each cause brings as the first and as the last: their mean, exact as long as causes act on
 * each other in pairs. What threes and more leave over is shared in proportion, so that the parts add up.
 */
function firstAndLast(first: readonly number[], last: readonly number[], whole: number): number[] {
  const means = first.map((gain, k) => (gain + last[k]!) / 2);
  const size = means.reduce((sum, value) => sum + Math.abs(value), 0);
  const left = whole - means.reduce((sum, value) => sum + value, 0);
  return means.map((value) => (size > 0 ? value + (left * Math.abs(value)) / size : value));
}

const deliveredIn = ({ rooms }: Account, room: string): number =>
  rooms.find((one) => one.room === room)!.delivered_m3s;

function houseInUse(model: SurveyModel, room: string): { forward: ForwardModel; measures: Measure[] } {
  const { edges, parameters, system, survey, mode } = model;
  const { condition } = conditionOf(survey, model, operating(mode));
  return {
    forward: forwardModel({
      nodeCount: edges.nodeCount,
      edges: edges.edges,
      parameters: parameters.list,
      groupCount: parameters.groupCount,
      conditions: [condition],
      observations: [],
    }),
    measures: system.parts.flatMap(({ side, terminal }): Measure[] =>
      side === 'supply' && terminal?.room === room
        ? [{ kind: 'flow', edges: [{ edge: edges.terminals.get(terminal.id)!, sign: 1 }] }]
        : [],
    ),
  };
}

/** What a cure of `curesFor` does to the unknowns. */
function cureOf(model: SurveyModel, id: string, room: string): (theta: Float64Array) => void {
  const { survey, system, spots, parameters } = model;
  const own = partsOnlyFor(survey, room);
  const parts = new Map(system.parts.map((part) => [part.id, part]));
  const lower = (limits: readonly (readonly [unknown: string, most: number])[]) => {
    const found = limits.map(([unknown, most]) => [parameters.at(unknown), most] as const);
    return (theta: Float64Array) => {
      for (const [k, most] of found) theta[k] = Math.min(theta[k]!, most);
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
        .filter(({ open, between }) => !open && between.includes(room))
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

/** 5 and 95 % points of a few values. */
function ends(values: readonly number[]): { low: number; high: number } {
  const sorted = values.toSorted((a, b) => a - b);
  const at = (p: number) => sorted[Math.round(p * (sorted.length - 1))]!;
  return { low: at(0.05), high: at(0.95) };
}
