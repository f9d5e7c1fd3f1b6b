import { choleskySolve, dot, solveLower } from '../numerics/cholesky.ts';
import { normalShare } from '../numerics/normal-share.ts';
import type { Fit } from './fit.ts';
import type { Prior } from './prior.ts';

/** A row ∂/∂θ as a row ∂/∂z. */
export function standardRow(prior: Prior, row: Float64Array, unknowns: number): Float64Array {
  const out = new Float64Array(unknowns);
  row.forEach((slope, k) => {
    out[k] = slope * prior.sd[k]!;
    const group = prior.group[k]!;
    if (group >= 0) out[row.length + group]! += slope * prior.groupSd[k]!;
  });
  return out;
}

/**
 * L⁻¹·J·t for a row t = ∂/∂z: with it the posterior covariance of two figures is s·t − (L⁻¹·J·s)·(L⁻¹·J·t).
 */
export function learntPart(fit: Fit, row: Float64Array): Float64Array {
  const n = row.length;
  const m = fit.predicted.length;
  const learnt = new Float64Array(m);
  for (let i = 0; i < m; i++) {
    let sum = 0;
    for (let k = 0; k < n; k++) sum += fit.jacobian[i * n + k]! * row[k]!;
    learnt[i] = sum;
  }
  solveLower(fit.factor, m, learnt);
  return learnt;
}

/** Standard deviation of a figure with row ∂/∂z, before and after the readings. */
export function deviations(
  fit: Fit,
  row: Float64Array,
): { readonly prior: number; readonly posterior: number } {
  const before = dot(row, row);
  const learnt = learntPart(fit, row);
  return { prior: Math.sqrt(before), posterior: Math.sqrt(Math.max(0, before - dot(learnt, learnt))) };
}

/**
 * What each reading says against all others together, in standard deviations, and how far they foretell it (1: wholly,
 * 0: nothing else bears on it): t_i = b_i/√(A⁻¹)_ii, A = J·Jᵀ + 1, b = A⁻¹·(d − g + J·z).
 */
export function deletionResiduals(
  fit: Fit,
  readings: Float64Array,
): { readonly residual: number; readonly foretold: number }[] {
  const m = readings.length;
  const n = fit.z.length;
  const b = new Float64Array(m);
  for (let i = 0; i < m; i++) {
    let sum = readings[i]! - fit.predicted[i]!;
    for (let k = 0; k < n; k++) sum += fit.jacobian[i * n + k]! * fit.z[k]!;
    b[i] = sum;
  }
  choleskySolve(fit.factor, m, b);
  return Array.from({ length: m }, (_, i) => {
    const unit = new Float64Array(m);
    unit[i] = 1;
    solveLower(fit.factor, m, unit);
    const inverse = dot(unit, unit);
    return { residual: b[i]! / Math.sqrt(inverse), foretold: inverse };
  });
}

/** Value below which a share `p` of a mixture of normals lies. */
export function mixtureQuantile(
  parts: readonly { readonly mean: number; readonly sd: number; readonly weight: number }[],
  p: number,
): number {
  let low = Math.min(...parts.map(({ mean, sd }) => mean - 8 * sd));
  let high = Math.max(...parts.map(({ mean, sd }) => mean + 8 * sd));
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    let below = 0;
    for (const { mean, sd, weight } of parts)
      below += weight * (sd > 0 ? normalShare((middle - mean) / sd) : middle >= mean ? 1 : 0);
    if (below < p) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
