import { evaluateMeasures, type ForwardModel, type Pressures } from './forward-model.ts';
import type { Measure } from './types.ts';

/** A figure that is asked of the house in use (condition 0) or of its unknowns alone. */
export type Target =
  /** Σ sign·flow, or its ln when it cannot change sign. */
  | {
      readonly kind: 'flow';
      readonly edges: readonly { readonly edge: number; readonly sign: number }[];
      readonly ln: boolean;
    }
  /** ln of constant + Σ factor·e^θ, each perhaps times the share that goes one way. */
  | {
      readonly kind: 'sum';
      readonly constant: number;
      readonly terms: readonly {
        readonly parameter: number;
        readonly factor: number;
        readonly share?: { readonly parameter: number; readonly goes: 'outdoors' | 'inside' };
      }[];
    }
  | { readonly kind: 'unknown'; readonly parameter: number };

/** Least size of a flow whose ln is taken, m³/s. */
const leastFlow_m3s = 1e-8;

/**
 * Values of targets at θ, and their rows ∂/∂θ when asked for. One solve of condition 0.
 * @param pressures start of the solve and its result
 */
export function evaluateTargets(
  forward: ForwardModel,
  targets: readonly Target[],
  theta: Float64Array,
  pressures: Pressures,
  rows?: readonly Float64Array[],
): Float64Array {
  const values = new Float64Array(targets.length);
  const flows = targets.flatMap((target, i) => (target.kind === 'flow' ? [i] : []));
  const measures = flows.map((i) => targets[i] as Extract<Target, { kind: 'flow' }>) as Measure[];
  const found = evaluateMeasures(forward, 0, measures, theta, pressures, rows && flows.map((i) => rows[i]!));
  flows.forEach((i, j) => {
    const target = targets[i]!;
    const value = found[j]!;
    if (target.kind !== 'flow' || !target.ln) {
      values[i] = value;
      return;
    }
    const size = Math.max(leastFlow_m3s, Math.abs(value));
    values[i] = Math.log(size);
    const row = rows?.[i];
    if (row) for (let k = 0; k < row.length; k++) row[k]! /= value < 0 ? -size : size;
  });
  targets.forEach((target, i) => {
    if (target.kind === 'flow') return;
    const row = rows?.[i];
    row?.fill(0);
    if (target.kind === 'unknown') {
      values[i] = theta[target.parameter]!;
      if (row) row[target.parameter] = 1;
      return;
    }
    const parts = target.terms.map(({ parameter, factor, share }) => {
      const part = factor * Math.exp(theta[parameter]!);
      if (!share) return part;
      const sign = share.goes === 'outdoors' ? 1 : -1;
      return part / (1 + Math.exp(-sign * theta[share.parameter]!));
    });
    const sum = parts.reduce((total, part) => total + part, target.constant);
    values[i] = Math.log(sum);
    if (!row) return;
    target.terms.forEach(({ parameter, share }, t) => {
      const weight = parts[t]! / sum;
      row[parameter]! += weight;
      if (!share) return;
      const sign = share.goes === 'outdoors' ? 1 : -1;
      row[share.parameter]! += weight * sign * (1 - 1 / (1 + Math.exp(-sign * theta[share.parameter]!)));
    });
  });
  return values;
}
