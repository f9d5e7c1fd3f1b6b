import { dot } from '../numerics/cholesky.ts';
import { type ForwardModel, forwardModel, predict, startPressures } from './forward-model.ts';
import type { WeightedHypothesis } from './search-defects.ts';
import { evaluateTargets, type Target } from './targets.ts';
import type { CalibrationModel } from './types.ts';
import { learntPart, standardRow } from './uncertainty.ts';

/** A figure that readings are to narrow, and how much its variance counts. */
export type WeighedTarget = { readonly target: Target; readonly weight: number };

/** What a reading not yet taken would be worth. */
export type Narrowing = {
  /** Variance of all targets together, before, and what the reading would take off it on average. */
  readonly variance: number;
  readonly removed: number;
};

/** Hypotheses that count in the mean. */
const mostHypotheses = 4;

/**
 * What each candidate reading would narrow, from the covariance around the heaviest hypotheses: cov(target, reading)² over
 * the variance that the reading would show. Where hypotheses ask for different repairs, a reading that parts them takes
 * off their disagreement too: Σ w_p·w_q·|gain_p − gain_q|²·(1 − e^(−separation/4)).
 *
 * @param candidates the same network, its condition 0 the house in use, with candidate readings as observations
 * @param gains what each repair wins, by hypothesis; absent when repairs are not the question
 */
export function expectedNarrowing(
  forward: ForwardModel,
  hypotheses: readonly WeightedHypothesis[],
  candidates: CalibrationModel,
  targets: readonly WeighedTarget[],
  gains?: (hypothesis: WeightedHypothesis) => readonly number[],
): Narrowing[] {
  const asked = forwardModel(candidates);
  const count = candidates.observations.length;
  const heavy = hypotheses.slice(0, mostHypotheses);
  const whole = heavy.reduce((sum, { weight }) => sum + weight, 0);
  const removed = new Float64Array(count);
  let variance = 0;
  const foretold: { mean: Float64Array; spread: Float64Array }[] = [];
  for (const hypothesis of heavy) {
    const { fit } = hypothesis;
    const weight = hypothesis.weight / whole;
    const mean = new Float64Array(count);
    const rows = new Float64Array(count * asked.unknowns);
    predict(asked, fit.prior, fit.theta, startPressures(asked), mean, rows);
    const readings = Array.from({ length: count }, (_, i) => {
      const row = rows.subarray(i * asked.unknowns, (i + 1) * asked.unknowns);
      const learnt = learntPart(fit, row);
      return { row, learnt, spread: 1 + Math.max(0, dot(row, row) - dot(learnt, learnt)) };
    });
    foretold.push({ mean, spread: Float64Array.from(readings, ({ spread }) => spread) });
    const slopes = targets.map(() => new Float64Array(forward.model.parameters.length));
    evaluateTargets(
      forward,
      targets.map(({ target }) => target),
      fit.theta,
      fit.pressures,
      slopes,
    );
    targets.forEach((target, t) => {
      const row = standardRow(fit.prior, slopes[t]!, forward.unknowns);
      const learnt = learntPart(fit, row);
      variance += weight * target.weight * Math.max(0, dot(row, row) - dot(learnt, learnt));
      readings.forEach((reading, i) => {
        const shared = dot(row, reading.row) - dot(learnt, reading.learnt);
        removed[i]! += (weight * target.weight * shared * shared) / reading.spread;
      });
    });
  }
  if (gains) {
    const won = heavy.map(gains);
    heavy.forEach((p, a) => {
      heavy.forEach((q, b) => {
        if (b <= a) return;
        const apart = won[a]!.reduce((sum, gain, i) => sum + (gain - won[b]![i]!) ** 2, 0);
        const disagreement = (p.weight / whole) * (q.weight / whole) * apart;
        variance += disagreement;
        for (let i = 0; i < count; i++) {
          const spread = (foretold[a]!.spread[i]! + foretold[b]!.spread[i]!) / 2;
          const separation = (foretold[a]!.mean[i]! - foretold[b]!.mean[i]!) ** 2 / spread;
          removed[i]! += disagreement * (1 - Math.exp(-separation / 4));
        }
      });
    });
  }
  return Array.from(removed, (taken) => ({ variance, removed: taken }));
}
