import type { Reading } from '../readings/types.ts';
import type { Survey } from '../survey/types.ts';
import { type CalibratedModel, modelOfReadings } from './calibrate.ts';
import type { Calibration } from './calibration.ts';
import { expectedNarrowing, type WeighedTarget } from './expected-narrowing.ts';
import { type HouseLoss, placeRepairs, repairGains } from './first-repair.ts';
import { fitReadings } from './fit.ts';
import { priorOf } from './prior.ts';
import { type ReadingCost, worthPerMinute } from './rank-readings.ts';
import type { WeightedHypothesis } from './search-defects.ts';
import { withReadings } from './survey-readings.ts';
import type { CalibrationModel } from './types.ts';

/** A reading that could be taken: its value is not known yet, its accuracy is. */
export type CandidateReading = Omit<Reading, 'value' | 'state' | 'path'> & ReadingCost;

/** What the answer is wanted for. */
export type ReadingGoal =
  /** Leakage to and from outside while the fan runs. */
  | { readonly kind: 'leakage' }
  /** Air that one room gets. */
  | { readonly kind: 'room'; readonly room: string }
  /** Which place to repair first: flows of all registers, leaks, and where hypotheses ask for different repairs. */
  | { readonly kind: 'first repair'; readonly needed_m3s?: Readonly<Record<string, number>> };

export type RankedReading = {
  readonly reading: string;
  /** Standard deviation of what is wanted, now and as expected after the reading, m³/s. */
  readonly spread_m3s: number;
  readonly expected_m3s: number;
  /** Share of the variance that the reading is expected to take off, and the same per minute with its set-up. */
  readonly narrowing: number;
  readonly narrowingPerMinute: number;
};

export type NextReadingOptions = {
  readonly goal: ReadingGoal;
  /** Set-ups that stand already. */
  readonly ready?: readonly string[];
};

/** Weight of a leak's variance against that of a register's flow: what is lost counts less than what is missed. */
const leakWeight = 0.7 ** 2;
/** Hypotheses that count. */
const mostHypotheses = 4;

/**
 * Which of the candidate readings would narrow the answer most per minute, best first: expected narrowing from the
 * covariance of the calibrated house. Candidates that its model has no use for are left out.
 *
 * @param readings those of the calibration
 * @throws RangeError for a goal's room without a register
 */
export function nextReading(
  survey: Survey,
  readings: readonly Reading[],
  calibration: Calibration,
  candidates: readonly CandidateReading[],
  { goal, ready = [] }: NextReadingOptions,
): RankedReading[] {
  const { system, mode } = calibration;
  const doubted = new Set(calibration.doubts.map(({ reading }) => reading));
  const sound = readings.filter(({ id }) => !doubted.has(id));
  const { calibrated } = modelOfReadings(survey, sound, { system, mode });
  const asked = askedModel(calibrated, candidates);
  const hypotheses = refitted(calibrated, calibration);
  const targets = targetsOf(calibrated, goal);
  const loss = goal.kind === 'first repair' ? lossOf(calibrated, goal.needed_m3s) : undefined;
  const repairs = placeRepairs(calibrated.forward);
  const found = expectedNarrowing(
    calibrated.forward,
    hypotheses,
    asked,
    targets,
    loss && (({ fit }) => repairGains(calibrated.forward, repairs, loss, fit.theta, fit.pressures)),
  );
  const used = asked.observations.map(({ id }) => candidates.find((one) => one.id === id)!);
  const worth = worthPerMinute(
    used,
    found.map(({ removed, variance }) => (variance > 0 ? removed / variance : 0)),
    ready,
  );
  return used
    .map(({ id }, i): RankedReading => {
      const { variance, removed } = found[i]!;
      return {
        reading: id,
        spread_m3s: Math.sqrt(variance),
        expected_m3s: Math.sqrt(Math.max(0, variance - removed)),
        narrowing: variance > 0 ? removed / variance : 0,
        narrowingPerMinute: worth[i]!,
      };
    })
    .toSorted((a, b) => b.narrowingPerMinute - a.narrowingPerMinute);
}

/** The calibrated network with the candidates as observations, condition 0 the house in use. */
function askedModel(calibrated: CalibratedModel, candidates: readonly CandidateReading[]): CalibrationModel {
  const asReadings = candidates.map(
    ({ id, subject, setup, accuracy, outdoor_C }): Reading => ({
      id,
      subject,
      setup,
      value: 0,
      accuracy,
      state: '',
      path: '',
      ...(outdoor_C === undefined ? {} : { outdoor_C }),
    }),
  );
  return withReadings(calibrated.survey, asReadings).model;
}

/** Hypotheses of a calibration with their curvature, from where they were left. */
function refitted({ model, forward }: CalibratedModel, calibration: Calibration): WeightedHypothesis[] {
  const index = new Map(model.parameters.map(({ id }, k) => [id, k]));
  return calibration.hypotheses.slice(0, mostHypotheses).map(({ defects: names, probability, z }) => {
    const defects = names.map((name) => index.get(name)!);
    const fit = fitReadings(
      forward,
      priorOf(model, defects),
      { z, pressures: model.conditions.map(() => new Float64Array(model.nodeCount)) },
      { mostIterations: 3 },
    );
    return { defects, fit, logWeight: fit.logEvidence, weight: probability };
  });
}

function targetsOf({ survey }: CalibratedModel, goal: ReadingGoal): WeighedTarget[] {
  const { edges, spots, system } = survey;
  const flow = (ids: readonly number[], weight: number): WeighedTarget => ({
    target: { kind: 'flow', edges: ids.map((edge) => ({ edge, sign: 1 })), ln: false },
    weight,
  });
  const outdoor = spots.filter((spot) => spot.outside !== spot.inside);
  const registers = system.parts.flatMap(({ side, terminal }) =>
    side === 'supply' && terminal ? [terminal] : [],
  );
  switch (goal.kind) {
    case 'leakage':
      return (['supply', 'return'] as const).map((side) =>
        flow(
          outdoor.filter((spot) => spot.side === side).flatMap(({ id }) => edges.leaks.get(id)!.outside),
          1,
        ),
      );
    case 'room': {
      const own = registers.filter(({ room }) => room === goal.room);
      if (own.length === 0) throw new RangeError(`no register is in room '${goal.room}'`);
      return [
        flow(
          own.map(({ id }) => edges.terminals.get(id)!),
          1,
        ),
      ];
    }
    case 'first repair':
      return [
        ...registers.map(({ id }) => flow([edges.terminals.get(id)!], 1)),
        ...outdoor.map(({ id }) => flow(edges.leaks.get(id)!.outside, leakWeight)),
      ];
  }
}

/** What is lost in a house: what rooms need is shared over their registers by free area. */
function lossOf({ survey }: CalibratedModel, needed_m3s?: Readonly<Record<string, number>>): HouseLoss {
  const { edges, spots, system, mode } = survey;
  const registers = system.parts.flatMap(({ side, terminal }) =>
    side === 'supply' && terminal ? [terminal] : [],
  );
  const area = (room?: string) =>
    registers.reduce((sum, one) => sum + (!room || one.room === room ? one.freeArea_m2 : 0), 0);
  return {
    registers: registers.map(({ id, room, freeArea_m2 }) => ({
      edge: edges.terminals.get(id)!,
      needed_m3s: needed_m3s
        ? ((needed_m3s[room] ?? 0) * freeArea_m2) / area(room)
        : (system.designAirflow_m3s[mode] * freeArea_m2) / area(),
    })),
    outdoorLeaks: spots.flatMap((spot) =>
      spot.outside === spot.inside ? [] : edges.leaks.get(spot.id)!.outside,
    ),
  };
}
