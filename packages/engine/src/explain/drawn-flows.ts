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
import { operating } from '../calibrate/survey-readings.ts';
import type { Measure } from '../calibrate/types.ts';
import type { Survey } from '../survey/types.ts';
import type { Ends } from './types.ts';

/**
 * Air that groups of rooms get in one house that the readings allow, m³/s, a number for each group, and after them what
 * the fan moves.
 */
export type DrawnFlows = {
  readonly none: readonly number[];
  readonly all: readonly number[];
  /** With one cure alone, and with all but one, by cure. */
  readonly first: readonly (readonly number[])[];
  readonly last: readonly (readonly number[])[];
};

/** Houses that the range of a cause is taken over: spread evenly over the draws. */
const mostDraws = 40;

/** Whether a system other than the calibrated one serves any of the rooms: of its air nothing was read. */
export const otherServes = (
  survey: Survey,
  { system }: Pick<Calibration, 'system'>,
  rooms: readonly string[],
): boolean =>
  survey.systems.some(
    ({ id, parts }) =>
      id !== system &&
      parts.some(({ side, terminal }) => side === 'supply' && terminal && rooms.includes(terminal.room)),
  );

/**
 * Air that groups of rooms get in each of the houses that the readings allow: as it is, with each cure as the first and
 * as the last, and with all.
 * @param cures what each does to the unknowns, in the model that it is given
 * @throws RangeError without draws
 */
export function drawnFlows(
  survey: Survey,
  { system, mode, probable, draws }: Calibration,
  groups: readonly (readonly string[])[],
  curesOf: (model: SurveyModel) => readonly ((theta: Float64Array) => void)[],
): DrawnFlows[] {
  if (draws.length === 0) throw new RangeError('ranges need a calibration with draws');
  const model = modelOfSurvey(survey, system, mode, surveyWith(survey, system, probable));
  const cures = curesOf(model);
  const { forward, measures } = houseInUse(model, groups);
  const count = Math.min(mostDraws, draws.length);
  const [bare, cured, now] = [startPressures(forward), startPressures(forward), startPressures(forward)];
  const noShifts = () => cures.map(() => new Float64Array(now[0]!.length));
  const [firstShift, lastShift] = [noShifts(), noShifts()];
  return Array.from({ length: count }, (_, i): DrawnFlows => {
    const theta = draws[Math.floor(((i + 0.5) * draws.length) / count)]!;
    const delivered = (which: (k: number) => boolean, pressures: Pressures): number[] => {
      const unknowns = theta.slice();
      cures.forEach((cure, k) => {
        if (which(k)) cure(unknowns);
      });
      const sums = [...groups.map(() => 0), 0];
      evaluateMeasures(
        forward,
        0,
        measures.map(({ measure }) => measure),
        unknowns,
        pressures,
      ).forEach((flow, m) => {
        sums[measures[m]!.group]! += Math.max(0, flow);
      });
      return sums;
    };
    /** The same from pressures one cure away, moved as that cure moved them in the draw before. */
    const near = (which: (k: number) => boolean, start: Pressures, shift: Float64Array) => {
      const [from, to] = [start[0]!, now[0]!];
      for (let n = 0; n < to.length; n++) to[n] = from[n]! + shift[n]!;
      const flows = delivered(which, now);
      for (let n = 0; n < to.length; n++) shift[n] = to[n]! - from[n]!;
      return flows;
    };
    const none = delivered(() => false, bare);
    const all = delivered(() => true, cured);
    const isAbsent = cures.map((cure) => {
      const unknowns = theta.slice();
      cure(unknowns);
      return unknowns.every((value, u) => value === theta[u]);
    });
    return {
      none,
      all,
      first: cures.map((_, k) => (isAbsent[k] ? none : near((other) => other === k, bare, firstShift[k]!))),
      last: cures.map((_, k) => (isAbsent[k] ? all : near((other) => other !== k, cured, lastShift[k]!))),
    };
  });
}

/**
 * Shapley values from what each cause brings as the first and as the last: their mean, exact as long as causes act on
 * each other in pairs. What threes and more leave over is shared in proportion, so that the parts add up.
 * @param first worth with each cause alone; `last` with all but each
 */
export function firstAndLast(
  none: number,
  all: number,
  first: readonly number[],
  last: readonly number[],
): number[] {
  const means = first.map((worth, k) => (worth - none + (all - last[k]!)) / 2);
  const size = means.reduce((sum, value) => sum + Math.abs(value), 0);
  const left = all - none - means.reduce((sum, value) => sum + value, 0);
  return means.map((value) => (size > 0 ? value + (left * Math.abs(value)) / size : value));
}

/**
 * 5 and 95 % points of a few values; the most probable house is one that the readings allow, so no range leaves its
 * value out.
 */
export function ends(values: readonly number[], probable: number): Ends {
  const sorted = values.toSorted((a, b) => a - b);
  const at = (p: number) => sorted[Math.round(p * (sorted.length - 1))]!;
  return { low: Math.min(probable, at(0.05)), high: Math.max(probable, at(0.95)) };
}

function houseInUse(
  model: SurveyModel,
  groups: readonly (readonly string[])[],
): { forward: ForwardModel; measures: { group: number; measure: Measure }[] } {
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
    measures: [
      ...system.parts.flatMap(({ side, terminal }) => {
        const group = groups.findIndex(
          (rooms) => side === 'supply' && terminal && rooms.includes(terminal.room),
        );
        return group < 0 ? [] : [{ group, measure: flowThrough(edges.terminals.get(terminal!.id)!) }];
      }),
      { group: groups.length, measure: flowThrough(edges.fan) },
    ],
  };
}

const flowThrough = (edge: number): Measure => ({ kind: 'flow', edges: [{ edge, sign: 1 }] });
