import { type Fit, fitReadings, scaledReadings } from './fit.ts';
import { forwardModel, startPressures } from './forward-model.ts';
import { priorOf, widePrior } from './prior.ts';
import type { WeightedHypothesis } from './search-defects.ts';
import type { CalibrationModel } from './types.ts';
import { deletionResiduals } from './uncertainty.ts';

/** One reading against all others together. */
export type Check = {
  readonly observation: string;
  /** How far it lies from what the others foretell, in standard deviations. */
  readonly residual: number;
  /** What the others foretell, same unit, and the standard deviation of the difference. */
  readonly foretold: number;
  readonly sd: number;
  /** Share of the reading that the others bear on: below 0.1 nothing else speaks about it. */
  readonly checked: number;
};

/** Beyond this many standard deviations a reading is asked about. */
export const doubtfulResidual = 4;
const mostDoubts = 4;

/** Every reading against the others, under a fit. */
export function checksOf(model: CalibrationModel, fit: Fit, readings: Float64Array): Check[] {
  return deletionResiduals(fit, readings).map(({ residual, foretold }, i) => {
    const { id, sd, value } = model.observations[i]!;
    const spread = sd / Math.sqrt(foretold);
    return {
      observation: id,
      residual,
      foretold: value - residual * spread,
      sd: spread,
      checked: foretold,
    };
  });
}

/**
 * Readings that the others contradict, worst first. One bad reading lifts its neighbours, so the worst is set aside and
 * the rest looked at again. The prior is the wide one: nothing hangs on which defects a search has found.
 */
export function contradicted(model: CalibrationModel): {
  readonly checks: readonly Check[];
  readonly doubted: readonly Check[];
} {
  let left = model;
  let checks: readonly Check[] = [];
  const doubted: Check[] = [];
  for (let round = 0; round <= mostDoubts; round++) {
    const forward = forwardModel(left);
    const fit = fitReadings(
      forward,
      widePrior(left),
      { z: new Float64Array(forward.unknowns), pressures: startPressures(forward) },
      { mostIterations: 30 },
    );
    const found = checksOf(left, fit, scaledReadings(forward));
    if (round === 0) checks = found;
    const worst = found.toSorted((a, b) => Math.abs(b.residual) - Math.abs(a.residual))[0];
    if (!worst || Math.abs(worst.residual) < doubtfulResidual || round === mostDoubts) break;
    doubted.push(worst);
    left = { ...left, observations: left.observations.filter(({ id }) => id !== worst.observation) };
  }
  return { checks, doubted };
}

/** Whether the defects found explain what the ordinary house does not: the reading is then no longer contradicted. */
export function explainedBy(
  model: CalibrationModel,
  hypotheses: readonly WeightedHypothesis[],
  observation: string,
): number {
  const forward = forwardModel(model);
  const readings = scaledReadings(forward);
  const at = model.observations.findIndex(({ id }) => id === observation);
  let explained = 0;
  for (const { fit, defects, weight } of hypotheses.slice(0, 8)) {
    const prior = priorOf(model, defects);
    const again = fitReadings(forward, prior, fit, { mostIterations: 3 });
    if (Math.abs(deletionResiduals(again, readings)[at]!.residual) < doubtfulResidual) explained += weight;
  }
  return explained;
}
