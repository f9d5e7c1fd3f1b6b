import { entryIndex, factorAndSolve, type LdlPattern, ldlPattern } from '../numerics/ldl.ts';
import { powerOnePlus, SERIES_HALF_WIDTH } from '../numerics/series.ts';
import type { EdgeTable, EdgeValues } from './edge-values.ts';
import type { CalibrationModel, Condition } from './types.ts';

/** Below this pressure difference every law bends to a straight line, Pa: slopes stay finite. */
const foot_Pa = 0.05;
/** A Newton step below this ends the solve, Pa; the error left is of its square over the foot. */
const lastStep_Pa = 1e-4;
const mostSteps = 60;

/** One condition laid out for the solver, with the arrays it works in. */
export type CompiledCondition = {
  readonly edges: Int32Array;
  /** e^ln of what is eased, per active edge. */
  readonly factor: Float64Array;
  /** Where the power of an active edge was worked out last, as 1/base, and what it is there. */
  readonly inverseBase: Float64Array;
  readonly powerAtBase: Float64Array;
  readonly held: Condition['held'];
  readonly pattern: LdlPattern;
  /** Elimination step of a node, −1 when it is held or no air can reach it. */
  readonly step: Int32Array;
  /** Where an active edge enters the lower triangle, −1 when an end is held. */
  readonly entry: Int32Array;
  readonly diagonal: Float64Array;
  readonly lower: Float64Array;
  readonly right: Float64Array;
  readonly change: Float64Array;
  /** Flow and slope of each edge of the model; closed ones stay 0. */
  readonly flow: Float64Array;
  readonly slope: Float64Array;
};

export function compileCondition(
  model: CalibrationModel,
  table: EdgeTable,
  condition: Condition,
): CompiledCondition {
  const closed = new Set(condition.closed);
  const held = new Set(condition.held.map(({ node }) => node));
  const open = model.edges.map((_, e) => e).filter((e) => !closed.has(e));
  const reached = reachable(model, open, held);
  const active = open.filter((e) => reached.has(table.from[e]!));
  const free = [...reached].filter((node) => !held.has(node));
  const index = new Int32Array(model.nodeCount).fill(-1);
  free.forEach((node, i) => {
    index[node] = i;
  });
  const pairs = active.flatMap((e) => {
    const [a, b] = [index[table.from[e]!]!, index[table.to[e]!]!];
    return a >= 0 && b >= 0 ? [a, b] : [];
  });
  const pattern = ldlPattern(free.length, Int32Array.from(pairs));
  const step = index.map((i) => (i < 0 ? -1 : pattern.position[i]!));
  const eased = new Map(condition.eased.map(({ edge, ln }) => [edge, Math.exp(ln)]));
  return {
    edges: Int32Array.from(active),
    factor: Float64Array.from(active, (e) => eased.get(e) ?? 1),
    inverseBase: new Float64Array(active.length),
    powerAtBase: new Float64Array(active.length),
    held: condition.held,
    pattern,
    step,
    entry: Int32Array.from(active, (e) => {
      const [a, b] = [step[table.from[e]!]!, step[table.to[e]!]!];
      return a >= 0 && b >= 0 ? entryIndex(pattern, a, b) : -1;
    }),
    diagonal: new Float64Array(free.length),
    lower: new Float64Array(pattern.row.length),
    right: new Float64Array(free.length),
    change: new Float64Array(free.length),
    flow: new Float64Array(table.count),
    slope: new Float64Array(table.count),
  };
}

/** Nodes that air can reach from a held one: the others have no pressure. */
function reachable(model: CalibrationModel, open: readonly number[], held: ReadonlySet<number>): Set<number> {
  const beside = new Map<number, number[]>();
  for (const e of open) {
    const { from, to } = model.edges[e]!;
    beside.set(from, [...(beside.get(from) ?? []), to]);
    beside.set(to, [...(beside.get(to) ?? []), from]);
  }
  const reached = new Set(held);
  const queue = [...held];
  for (let node = queue.pop(); node !== undefined; node = queue.pop()) {
    for (const next of beside.get(node) ?? []) {
      if (reached.has(next)) continue;
      reached.add(next);
      queue.push(next);
    }
  }
  return reached;
}

/**
 * Pressures at which every free node is in balance, by Newton steps with a search along the step on the derivative of
 * the co-content (the sum over edges of ∫ q dx, a convex function whose minimum is the solution; Millar 1951).
 * `pressure` is the start and the result; the factor of the last step, flows and slopes stay in `compiled`.
 * @returns Newton steps taken
 * @throws RangeError when it does not settle, which the law's convexity rules out for finite unknowns
 */
export function solveCondition(
  compiled: CompiledCondition,
  table: EdgeTable,
  values: EdgeValues,
  pressure: Float64Array,
): number {
  const { pattern, step, diagonal, lower, right, change } = compiled;
  for (const { node, pressure_Pa } of compiled.held) pressure[node] = pressure_Pa;
  for (let steps = 1; steps <= mostSteps; steps++) {
    setFlows(compiled, table, values, pressure);
    assemble(compiled, table);
    factorAndSolve(pattern, diagonal, lower, right, change);
    let largest = 0;
    for (let i = 0; i < change.length; i++) largest = Math.max(largest, Math.abs(change[i]!));
    if (!Number.isFinite(largest)) throw new RangeError('a condition of the house has no finite pressures');
    const share = largest > 1 ? searchAlong(compiled, table, values, pressure) : 1;
    for (let node = 0; node < step.length; node++) {
      const at = step[node]!;
      if (at >= 0) pressure[node] = pressure[node]! + share * change[at]!;
    }
    if (share === 1 && largest < lastStep_Pa) {
      followStep(compiled, table);
      return steps;
    }
  }
  throw new RangeError('a condition of the house does not settle');
}

function setFlows(
  compiled: CompiledCondition,
  table: EdgeTable,
  values: EdgeValues,
  pressure: Float64Array,
): void {
  const { edges, factor, flow, slope } = compiled;
  for (let i = 0; i < edges.length; i++) {
    const e = edges[i]!;
    const x = pressure[table.from[e]!]! - pressure[table.to[e]!]! + values.source_Pa[e]!;
    const square = x * x;
    const soft = square + foot_Pa * foot_Pa;
    const n = table.exponent[e]!;
    const power = factor[i]! * values.coefficient[e]! * softPower(compiled, i, soft, n);
    flow[e] = power * x;
    slope[e] = (power / soft) * (n * square + foot_Pa * foot_Pa);
  }
}

/** (x² + ε²)^((n−1)/2) of an active edge, by a series around where it was worked out last. */
function softPower(
  { inverseBase, powerAtBase }: CompiledCondition,
  i: number,
  soft: number,
  n: number,
): number {
  if (n === 0.5) return 1 / Math.sqrt(Math.sqrt(soft));
  const exponent = 0.5 * (n - 1);
  const change = soft * inverseBase[i]! - 1;
  if (Math.abs(change) < SERIES_HALF_WIDTH) return powerAtBase[i]! * powerOnePlus(change, exponent);
  const power = Math.exp(exponent * Math.log(soft));
  inverseBase[i] = 1 / soft;
  powerAtBase[i] = power;
  return power;
}

function assemble(compiled: CompiledCondition, table: EdgeTable): void {
  const { edges, entry, step, diagonal, lower, right, flow, slope } = compiled;
  diagonal.fill(0);
  lower.fill(0);
  right.fill(0);
  for (let i = 0; i < edges.length; i++) {
    const e = edges[i]!;
    const a = step[table.from[e]!]!;
    const b = step[table.to[e]!]!;
    const q = flow[e]!;
    const k = slope[e]!;
    if (a >= 0) {
      diagonal[a] = diagonal[a]! + k;
      right[a] = right[a]! - q;
    }
    if (b >= 0) {
      diagonal[b] = diagonal[b]! + k;
      right[b] = right[b]! + q;
    }
    const at = entry[i]!;
    if (at >= 0) lower[at] = lower[at]! - k;
  }
}

/** Share of the step at which the co-content has almost stopped falling: 1 when it still falls at the end. */
function searchAlong(
  compiled: CompiledCondition,
  table: EdgeTable,
  values: EdgeValues,
  pressure: Float64Array,
): number {
  const start = -slopeAlong(compiled, table, values, pressure, 0);
  let [low, high] = [0, 1];
  let [atLow, atHigh] = [-start, slopeAlong(compiled, table, values, pressure, 1)];
  if (atHigh <= 0.5 * start) return 1;
  for (let i = 0; i < 8; i++) {
    const share = Math.min(
      Math.max((low * atHigh - high * atLow) / (atHigh - atLow), low + 0.05 * (high - low)),
      high - 0.05 * (high - low),
    );
    const at = slopeAlong(compiled, table, values, pressure, share);
    if (Math.abs(at) <= 0.2 * start) return share;
    if (at > 0) [high, atHigh] = [share, at];
    else [low, atLow] = [share, at];
  }
  return low > 0 ? low : high;
}

/** Derivative of the co-content along the step, `share` of the way. */
function slopeAlong(
  compiled: CompiledCondition,
  table: EdgeTable,
  values: EdgeValues,
  pressure: Float64Array,
  share: number,
): number {
  const { edges, factor, step, change } = compiled;
  let sum = 0;
  for (let i = 0; i < edges.length; i++) {
    const e = edges[i]!;
    const a = step[table.from[e]!]!;
    const b = step[table.to[e]!]!;
    const direction = (a >= 0 ? change[a]! : 0) - (b >= 0 ? change[b]! : 0);
    if (direction === 0) continue;
    const x = pressure[table.from[e]!]! - pressure[table.to[e]!]! + values.source_Pa[e]! + share * direction;
    const soft = x * x + foot_Pa * foot_Pa;
    sum +=
      factor[i]! * values.coefficient[e]! * softPower(compiled, i, soft, table.exponent[e]!) * x * direction;
  }
  return sum;
}

/** Flows after a last small step, along their slopes. */
function followStep(compiled: CompiledCondition, table: EdgeTable): void {
  const { edges, step, change, flow, slope } = compiled;
  for (let i = 0; i < edges.length; i++) {
    const e = edges[i]!;
    const a = step[table.from[e]!]!;
    const b = step[table.to[e]!]!;
    flow[e] = flow[e]! + slope[e]! * ((a >= 0 ? change[a]! : 0) - (b >= 0 ? change[b]! : 0));
  }
}
