import { type LdlPattern, solveWithFactor } from '../numerics/ldl.ts';
import { findPiece } from './fan-law.ts';
import { FRICTION } from './friction.ts';
import { type PassState, ROUND_OFF, rootGrowth, SUM_ERROR, SUM_FLOW, SUM_LAG } from './pass.ts';
import { RECORD } from './record.ts';

const {
  BENDS,
  BY_PRESSURE,
  CONDUCTANCE,
  CURVATURE,
  DUCT_FITTING,
  DUCT_FRICTION,
  DUCT_LAG,
  DUCT_REYNOLDS,
  DUCT_ROOT,
  EXPONENT,
  FLOW,
  FOOT,
  FOOT_CUBIC,
  FOOT_PRESSURE,
  FROM,
  KIND_DUCT,
  KIND_FIXED,
  KIND_POWER,
  KIND_SQUARE,
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

const { LAMINAR, TURBULENT, TWO_OVER_LN10 } = FRICTION;
const HALF_LN10 = 1 / TWO_OVER_LN10;

/** A law is taken to bend like its second derivative for a change of at most this share of its flow … */
const LARGEST_SHARE = 0.5;
const FAR_TURBULENT = TURBULENT / (1 - LARGEST_SHARE);
/** … and a proof holds in this share of that. */
const PROVEN_SHARE = 0.1;
/** Third derivatives of powers are at most so many times larger there than at the point (exponents 1 to 3). */
const THIRD_GROWTH = 1.6;
/** A sixth of the third derivative over the slope is in turbulent ducts, whose exponent is 1.7 to 2, at most a squared curvature … */
const DUCT_THIRD = 1;
/** … and between laminar and turbulent flow at most this over Q². */
const BLEND_THIRD = 50;

/** What a step needs beside the pass: the factor of the latest linear solve and the second solution with it. */
export type StepState = PassState & {
  readonly bends: Float64Array;
  readonly pattern: LdlPattern;
  readonly pivots: Float64Array;
  readonly factor: Float64Array;
  readonly bend: Float64Array;
  /** Zeros, lent to whoever walks up the elimination tree. */
  readonly path: Float64Array;
};

/**
 * Writes into `bends` how each law leaves its tangent. Only the two functions below ask for it, so a pass does not
 * reckon it: most passes of a cold solve come before the first bent step.
 */
export function measureBends(state: StepState): void {
  const { kindStart } = state;
  measureDucts(state, kindStart[KIND_DUCT]!, kindStart[KIND_SQUARE]!);
  measureOpenings(state, kindStart[KIND_SQUARE]!, kindStart[KIND_TABLE]!);
}

/** The same for one record. */
export function measureBend(state: StepState, kind: number, record: number): void {
  if (kind === KIND_DUCT) measureDucts(state, record, record + 1);
  else if (kind <= KIND_POWER) measureOpenings(state, record, record + 1);
}

function measureDucts(state: StepState, first: number, last: number): void {
  const { records: R, bends: B, colebrook } = state;
  for (let e = first, at = first * STRIDE, own = first * BENDS; e < last; e++, at += STRIDE, own += BENDS) {
    const flow = R[at + FLOW]!;
    const size = Math.abs(flow);
    const perFlow = R[at + DUCT_REYNOLDS]!;
    const reynolds = size * perFlow;
    if (reynolds < TURBULENT) {
      measureSlowDuct(state, e);
      continue;
    }
    const root = R[at + DUCT_ROOT]!;
    const lag = R[at + DUCT_LAG]!;
    const friction = R[at + DUCT_FRICTION]! / (root * root);
    // −d ln(lag)/d ln Q, by the derivative of either formula
    const left = 1 - lag * root * HALF_LN10;
    const decline = colebrook ? (1 - lag) * left : lag + left - 0.1;
    const turn = friction * ((1 - lag) * (1 - 2 * lag) + lag * decline) + R[at + DUCT_FITTING]!;
    const curvature = (flow < 0 ? -turn : turn) * R[at + CONDUCTANCE]!;
    B[own + POINT] = flow;
    B[own + CURVATURE] = curvature;
    B[own + THIRD] = DUCT_THIRD * curvature * curvature;
    B[own + REACH] = reynolds > FAR_TURBULENT ? LARGEST_SHARE * size : size - TURBULENT / perFlow;
  }
}

/** Laminar flow and the cubic up to turbulent flow. */
function measureSlowDuct({ records: R, bends: B, blend, colebrook }: StepState, record: number): void {
  const at = record * STRIDE;
  const own = record * BENDS;
  const flow = R[at + FLOW]!;
  const size = Math.abs(flow);
  const friction = R[at + DUCT_FRICTION]!;
  const perFlow = R[at + DUCT_REYNOLDS]!;
  const reynolds = size * perFlow;
  let turn = R[at + DUCT_FITTING]!; // half the second derivative
  let third = 0;
  let reach = (LAMINAR - reynolds) / perFlow;
  if (reynolds > LAMINAR) {
    const b = 4 * record;
    const b2 = blend[b + 2]!;
    const b3 = blend[b + 3]!;
    if (colebrook) turn += (friction * (b2 + (reynolds / LAMINAR - 1) * 3 * b3)) / (LAMINAR * LAMINAR);
    else {
      const t = reynolds / LAMINAR;
      turn += friction * (blend[b]! + t * (3 * blend[b + 1]! + t * (6 * b2 + t * 10 * b3)));
    }
    third = BLEND_THIRD / (size * size);
    reach = Math.min(reynolds - LAMINAR, TURBULENT - reynolds) / perFlow;
  }
  B[own + POINT] = flow;
  B[own + CURVATURE] = (flow < 0 ? -turn : turn) * R[at + CONDUCTANCE]!;
  B[own + THIRD] = third;
  B[own + REACH] = Math.min(LARGEST_SHARE * size, reach);
}

/** Squares and powers. */
function measureOpenings(state: StepState, first: number, last: number): void {
  const { records: R, bends: B, links, head } = state;
  for (
    let e = first, at = first * STRIDE, link = first * LINKS, own = first * BENDS;
    e < last;
    e++, at += STRIDE, link += LINKS, own += BENDS
  ) {
    let byPressure = R[at + BY_PRESSURE] === 1;
    if (byPressure) {
      const drive = head[links[link + FROM]!]! - head[links[link + TO]!]! - R[at + OFFSET]!;
      byPressure = Math.abs(drive) > FOOT_PRESSURE;
    }
    const point = byPressure ? R[at + SOURCE]! : R[at + FLOW]!;
    const size = Math.abs(point);
    const outside = size - R[at + FOOT]!;
    B[own + POINT] = point;
    if (outside < 0) {
      const third = R[at + FOOT_CUBIC]! * R[at + CONDUCTANCE]!;
      B[own + CURVATURE] = 3 * third * point;
      B[own + THIRD] = third;
      B[own + REACH] = -outside;
      continue;
    }
    const m = R[at + EXPONENT]!;
    const inverse = 1 / point;
    const curvature = 0.5 * (m - 1) * inverse;
    B[own + CURVATURE] = curvature;
    B[own + THIRD] = (THIRD_GROWTH / 3) * (byPressure ? 2 * m - 1 : Math.abs(m - 2)) * curvature * inverse;
    B[own + REACH] = Math.min(outside, LARGEST_SHARE * size);
  }
}

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
    if (!(error <= limit && change + added <= PROVEN_SHARE * B[own + REACH]!)) return false;
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
  const ductsEnd = kindStart[KIND_SQUARE]!;
  for (let e = 0, at = 0; e < last; e++, at += STRIDE) {
    const flow = R[at + STEP]!;
    if (e < ductsEnd)
      R[at + DUCT_ROOT] = R[at + DUCT_ROOT]! * rootGrowth(R[at + DUCT_LAG]!, 1 - R[at + FLOW]! / flow);
    R[at + FLOW] = flow;
    R[at + SOURCE] = flow;
  }
  for (let i = 0; i < pattern.size; i++) head[i] = head[i]! + headStep[i]!;
  right.fill(0);
}
