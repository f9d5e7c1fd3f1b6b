import type { Range } from './calibration.ts';
import type { Figure } from './calibration-targets.ts';
import type { Fit } from './fit.ts';
import type { ForwardModel } from './forward-model.ts';
import type { Draw } from './posterior-sample.ts';
import type { WeightedHypothesis } from './search-defects.ts';
import { evaluateTargets } from './targets.ts';
import { deviations, mixtureQuantile, standardRow } from './uncertainty.ts';

/** A figure's value in one hypothesis or draw, how sure it is there, and how much that counts. */
export type Part = { readonly mean: number; readonly sd: number; readonly weight: number };

/** Figures by id, each as a mixture of normals. */
export type Mixtures = ReadonlyMap<string, readonly Part[]>;

/** Values of every figure at the hypotheses, each with the spread that its curvature leaves. */
export function mixturesOfHypotheses(
  forward: ForwardModel,
  figures: readonly Figure[],
  hypotheses: readonly WeightedHypothesis[],
): Mixtures {
  const parts = new Map<string, Part[]>(figures.map(({ id }) => [id, []]));
  const rows = figures.map(() => new Float64Array(forward.model.parameters.length));
  const targets = figures.map(({ target }) => target);
  for (const { fit, weight } of hypotheses) {
    const values = evaluateTargets(forward, targets, fit.theta, fit.pressures, rows);
    figures.forEach((figure, i) => {
      const { posterior } = deviations(fit, standardRow(fit.prior, rows[i]!, forward.unknowns));
      const sd = Math.hypot(posterior, modelSd(figure, values[i]!));
      parts.get(figure.id)!.push({ mean: values[i]!, sd, weight });
    });
  }
  return parts;
}

/** What the laws leave open: of a logarithm the share itself. */
const modelSd = ({ target, modelError = 0 }: Figure, value: number): number =>
  target.kind === 'flow' && !target.ln ? modelError * Math.abs(value) : modelError;

/** Values of every figure in the draws. */
export function mixturesOfDraws(
  forward: ForwardModel,
  figures: readonly Figure[],
  draws: readonly Draw[],
): Mixtures {
  const parts = new Map<string, Part[]>(figures.map(({ id }) => [id, []]));
  const targets = figures.map(({ target }) => target);
  for (const { theta, pressures } of draws) {
    const values = evaluateTargets(forward, targets, theta, pressures);
    figures.forEach((figure, i) => {
      const sd = modelSd(figure, values[i]!);
      parts.get(figure.id)!.push({ mean: values[i]!, sd, weight: 1 / draws.length });
    });
  }
  return parts;
}

/** Posterior over prior spread of every figure, under one fit. */
export function narrowing(
  forward: ForwardModel,
  figures: readonly Figure[],
  fit: Fit,
): ReadonlyMap<string, number> {
  const rows = figures.map(() => new Float64Array(forward.model.parameters.length));
  evaluateTargets(
    forward,
    figures.map(({ target }) => target),
    fit.theta,
    fit.pressures,
    rows,
  );
  return new Map(
    figures.map(({ id }, i) => {
      const { prior, posterior } = deviations(fit, standardRow(fit.prior, rows[i]!, forward.unknowns));
      return [id, prior > 0 ? posterior / prior : 0];
    }),
  );
}

/** 5, 50 and 95 % points of a mixture, turned by `as` (a rising function). */
export function rangeOf(parts: readonly Part[], as: (value: number) => number): Range {
  const at = parts.every(({ sd }) => sd === 0) ? sampleQuantile : mixtureQuantile;
  return { low: as(at(parts, 0.05)), middle: as(at(parts, 0.5)), high: as(at(parts, 0.95)) };
}

/** Quantile of equally weighted values, straight between neighbours. */
function sampleQuantile(parts: readonly Part[], p: number): number {
  const sorted = parts.map(({ mean }) => mean).sort((a, b) => a - b);
  const at = Math.min(sorted.length - 1, Math.max(0, p * sorted.length - 0.5));
  const below = Math.floor(at);
  const low = sorted[below]!;
  const high = sorted[Math.min(sorted.length - 1, below + 1)]!;
  return low + (high - low) * (at - below);
}
