import { solveWithFactor } from '../numerics/ldl.ts';
import type { EdgeTable, EdgeValues } from './edge-values.ts';
import type { CompiledCondition } from './solve-condition.ts';
import type { Measure } from './types.ts';

/** How a measure answers to edges' flows, nodes' pressures and unknowns, at one solved condition. */
export type MeasureSlopes = {
  readonly flow: Float64Array;
  readonly pressure: Float64Array;
  readonly theta: Float64Array;
};

/** Arrays that rows of sensitivities are worked out in. */
export type AdjointScratch = MeasureSlopes & {
  readonly right: Float64Array;
  readonly lambda: Float64Array;
};

export const adjointScratch = (edges: number, nodes: number, parameters: number): AdjointScratch => ({
  flow: new Float64Array(edges),
  pressure: new Float64Array(nodes),
  theta: new Float64Array(parameters),
  right: new Float64Array(nodes),
  lambda: new Float64Array(nodes),
});

/** Value of a measure in its solved condition; the slopes are added to `slopes`, which the caller has cleared. */
export function measureValue(
  measure: Measure,
  flow: Float64Array | undefined,
  pressure: Float64Array | undefined,
  theta: Float64Array,
  slopes: MeasureSlopes,
): number {
  switch (measure.kind) {
    case 'scaled': {
      const value = measure.nominal * Math.exp(theta[measure.parameter]!);
      slopes.theta[measure.parameter]! += value;
      return value;
    }
    case 'pressure':
      slopes.pressure[measure.node]! += 1;
      slopes.pressure[measure.to]! -= 1;
      return pressure![measure.node]! - pressure![measure.to]!;
    case 'flow': {
      let sum = 0;
      for (const { edge, sign } of measure.edges) {
        sum += sign * flow![edge]!;
        slopes.flow[edge]! += sign;
      }
      return sum;
    }
    case 'path temperature':
      return pathTemperature(measure, flow!, theta, slopes);
    case 'mix temperature':
      return mixTemperature(measure, flow!, slopes);
  }
}

/** Least flow that a temperature is worked out for, m³/s: with less the air takes the temperature around it. */
const leastFlow_m3s = 1e-5;

function pathTemperature(
  measure: Extract<Measure, { kind: 'path temperature' }>,
  flow: Float64Array,
  theta: Float64Array,
  slopes: MeasureSlopes,
): number {
  const units = measure.path.map(({ edge, conductance_WK, parameters }) => {
    let ua = conductance_WK;
    for (const parameter of parameters) ua *= Math.exp(theta[parameter]!);
    return ua / (measure.heatCapacity_Jm3K * Math.max(leastFlow_m3s, flow[edge]!));
  });
  let air_C = measure.start_C;
  const above_K = measure.path.map(({ around_C }, i) => {
    const kept = (air_C - around_C) * Math.exp(-units[i]!);
    air_C = around_C + kept;
    return kept;
  });
  // What a piece loses reaches the end weakened by the pieces behind it.
  let passed = 1;
  for (let i = measure.path.length - 1; i >= 0; i--) {
    const { edge, parameters } = measure.path[i]!;
    const perUnit = above_K[i]! * passed * units[i]!;
    for (const parameter of parameters) slopes.theta[parameter]! -= perUnit;
    if (flow[edge]! > leastFlow_m3s) slopes.flow[edge]! += perUnit / flow[edge]!;
    passed *= Math.exp(-units[i]!);
  }
  return air_C;
}

function mixTemperature(
  measure: Extract<Measure, { kind: 'mix temperature' }>,
  flow: Float64Array,
  slopes: MeasureSlopes,
): number {
  const fan = Math.max(leastFlow_m3s, flow[measure.fan]!);
  const spread = measure.around_C - measure.room_C;
  let leaked = 0;
  for (const edge of measure.leaks) {
    leaked -= Math.min(0, flow[edge]!);
    if (flow[edge]! < 0) slopes.flow[edge]! -= spread / fan;
  }
  slopes.flow[measure.fan]! -= (spread * leaked) / (fan * fan);
  return measure.room_C + (spread * leaked) / fan;
}

/**
 * ∂measure/∂θ by the adjoint: one back-substitution with the factor that the solve left behind,
 * dh/dθ = h_θ + Σ (w_e − (λ_from − λ_to))·∂q_e/∂θ with K·λ = h_P. Added to `row`.
 * @param slopes as `measureValue` left them; its flows, pressures and unknowns are cleared for the next
 */
export function addAdjointRow(
  compiled: CompiledCondition | undefined,
  table: EdgeTable,
  values: EdgeValues,
  scratch: AdjointScratch,
  row: Float64Array,
): void {
  const { flow: weight, pressure, theta, right, lambda } = scratch;
  for (let k = 0; k < theta.length; k++) row[k]! += theta[k]!;
  theta.fill(0);
  if (!compiled) return;
  const { edges, step, slope, flow, pattern, diagonal, lower } = compiled;
  right.fill(0);
  for (let node = 0; node < step.length; node++) {
    const at = step[node]!;
    if (at >= 0) right[at] = pressure[node]!;
  }
  for (let i = 0; i < edges.length; i++) {
    const e = edges[i]!;
    const w = weight[e]!;
    if (w === 0) continue;
    const a = step[table.from[e]!]!;
    const b = step[table.to[e]!]!;
    if (a >= 0) right[a] = right[a]! + w * slope[e]!;
    if (b >= 0) right[b] = right[b]! - w * slope[e]!;
  }
  solveWithFactor(pattern, diagonal, lower, right, lambda);
  for (let i = 0; i < edges.length; i++) {
    const e = edges[i]!;
    const a = step[table.from[e]!]!;
    const b = step[table.to[e]!]!;
    const answer = weight[e]! - (a >= 0 ? lambda[a]! : 0) + (b >= 0 ? lambda[b]! : 0);
    if (answer === 0) continue;
    const perLn = answer * flow[e]!;
    for (let t = table.termStart[e]!; t < table.termStart[e + 1]!; t++)
      row[table.termParameter[t]!]! += perLn * table.termWeight[t]!;
    const share = table.shareParameter[e]!;
    if (share >= 0) row[share]! += perLn * values.shareSlope[e]!;
    const source = table.sourceParameter[e]!;
    if (source >= 0) row[source]! += answer * slope[e]! * 2 * values.source_Pa[e]!;
  }
  weight.fill(0);
  pressure.fill(0);
}
