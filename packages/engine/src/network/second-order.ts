import { type LdlPattern, solveWithFactor } from '../numerics/ldl.ts';
import { findPiece } from './fan-law.ts';
import { type PassState, ROUND_OFF, SUM_ERROR, SUM_FLOW, SUM_LAG } from './pass.ts';
import { RECORD } from './record.ts';

const {
  BENDS,
  CONDUCTANCE,
  CURVATURE,
  FLOW,
  FROM,
  KIND_FIXED,
  KIND_TABLE,
  LEAST_SLOPE,
  LINKS,
  OFFSET,
  POINT,
  REACH,
  SLOPE,
  SOURCE,
  STEP,
  STRIDE,
  TABLE_AT_LIMIT,
  TABLE_HELD_FLOW,
  TABLE_NUMBER,
  TABLE_PIECE,
  TABLE_SWITCH,
  THIRD,
  TO,
} = RECORD;

/** What a step needs beside the pass: the factor of the latest linear solve and the second solution with it. */
export type StepState = PassState & {
  readonly pattern: LdlPattern;
  readonly pivots: Float64Array;
  readonly factor: Float64Array;
  readonly bend: Float64Array;
  /** Zeros, lent to whoever walks up the elimination tree. */
  readonly path: Float64Array;
};

/**
 * Adds the second-order part to the step (Chebyshev's method): a law that moves by d leaves its tangent by
 * ½·g″·d², and a source of that size in every element makes up for it. It takes one triangular solve with the
 * factor that is there, no law and no logarithm, and the error falls with its third power instead of its second.
 */
export function bendStep(state: StepState): void {
  const { records: R, bends: B, links, kindStart, headStep, right, bend, pattern } = state;
  right.fill(0);
  const end = kindStart[KIND_TABLE]!;
  for (let e = 0, at = 0, link = 0, own = 0; e < end; e++, at += STRIDE, link += LINKS, own += BENDS) {
    const from = links[link + FROM]!;
    const to = links[link + TO]!;
    const before = R[at + SOURCE]!;
    const flow = before + R[at + CONDUCTANCE]! * (headStep[from]! - headStep[to]!);
    const moved = Math.abs(flow - B[own + POINT]!);
    const change = Math.min(moved, B[own + REACH]!);
    const source = -B[own + CURVATURE]! * change * change;
    R[at + SOURCE] = before + source;
    R[at + STEP] = source;
    right[from] = right[from]! - source;
    right[to] = right[to]! + source;
  }
  solveWithFactor(pattern, state.pivots, state.factor, right, bend);
  for (let i = 0; i < pattern.size; i++) headStep[i] = headStep[i]! + bend[i]!;
}

/**
 * Whether Taylor's theorem keeps every law within `limit` (m³/s) of where the step at hand ends, so that nothing needs
 * to be evaluated again. Leaves the proven error and the largest flow in `sums`, the coming flows in STEP.
 *
 * @param bent whether the step has its second-order part
 */
export function provesStep(state: StepState, bent: boolean, limit: number): boolean {
  const { records: R, bends: B, links, kindStart, headStep, bend, sums } = state;
  let worst = sums[SUM_LAG]!;
  if (!(worst <= limit)) return false;
  let largest = 0;
  const end = kindStart[KIND_TABLE]!;
  for (let e = 0, at = 0, link = 0, own = 0; e < end; e++, at += STRIDE, link += LINKS, own += BENDS) {
    const from = links[link + FROM]!;
    const to = links[link + TO]!;
    const conductance = R[at + CONDUCTANCE]!;
    const flow = R[at + SOURCE]! + conductance * (headStep[from]! - headStep[to]!);
    const change = Math.abs(flow - B[own + POINT]!);
    // The source has made up for the square of the change before it was bent.
    const added = bent ? Math.abs(R[at + STEP]! + conductance * (bend[from]! - bend[to]!)) : 0;
    const missed = bent ? added * (2 * change + added) : change * change;
    const roundOff = 4 * ROUND_OFF * conductance * (Math.abs(headStep[from]!) + Math.abs(headStep[to]!));
    let error =
      Math.abs(B[own + CURVATURE]!) * missed + B[own + THIRD]! * change * change * change + roundOff;
    // A floored slope is no tangent.
    if (R[at + SLOPE]! <= LEAST_SLOPE) error += change;
    if (!(error <= limit && change + added <= B[own + REACH]!)) return false;
    R[at + STEP] = flow;
    if (error > worst) worst = error;
    const size = Math.abs(flow);
    if (size > largest) largest = size;
  }
  const last = kindStart[KIND_FIXED + 1]!;
  for (let e = end, at = end * STRIDE, link = end * LINKS; e < last; e++, at += STRIDE, link += LINKS) {
    const step = headStep[links[link + FROM]!]! - headStep[links[link + TO]!]!;
    const flow = R[at + SOURCE]! + R[at + CONDUCTANCE]! * step;
    if (e < kindStart[KIND_FIXED]! && !keepsPiece(state, at, link, flow, step)) return false;
    R[at + STEP] = flow;
    largest = Math.max(largest, Math.abs(flow));
  }
  sums[SUM_ERROR] = worst;
  sums[SUM_FLOW] = largest;
  return true;
}

/** Whether a table stays on its straight piece, and a fan that holds its flow goes on holding it or not. */
function keepsPiece(state: StepState, at: number, link: number, flow: number, step: number): boolean {
  const { records: R, links, head, tables } = state;
  const table = tables[R[at + TABLE_NUMBER]!]!;
  const piece = R[at + TABLE_PIECE]!;
  if (findPiece(table, flow, piece) !== piece) return false;
  const held = R[at + TABLE_HELD_FLOW]!;
  if (held === Number.POSITIVE_INFINITY) return true;
  const drive = head[links[link + FROM]!]! - head[links[link + TO]!]! + step - R[at + OFFSET]!;
  const drop = table[piece + 1]! + table[piece + 2]! * (flow - table[piece]!);
  const holds = held - flow < (drive - drop) * R[at + TABLE_SWITCH]!;
  return holds === (R[at + TABLE_AT_LIMIT] === 0);
}

/** Takes a proven step: the linear system in store then says "no further change" at the new flows. */
export function takeStep({ records: R, kindStart, head, headStep, right, pattern }: StepState): void {
  const last = kindStart[KIND_FIXED + 1]!;
  for (let e = 0, at = 0; e < last; e++, at += STRIDE) {
    const flow = R[at + STEP]!;
    R[at + FLOW] = flow;
    R[at + SOURCE] = flow;
  }
  for (let i = 0; i < pattern.size; i++) head[i] = head[i]! + headStep[i]!;
  right.fill(0);
}
