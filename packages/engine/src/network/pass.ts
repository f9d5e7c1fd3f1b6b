import { logOnePlus, powerOnePlus, SERIES_HALF_WIDTH } from '../numerics/series.ts';
import { findPiece } from './fan-law.ts';
import { FRICTION } from './friction.ts';
import { RECORD } from './record.ts';

const {
  BY_PRESSURE,
  CONDUCTANCE,
  DROP,
  DUCT_FITTING,
  DUCT_FRICTION,
  DUCT_INVERSE_BASE,
  DUCT_LAG,
  DUCT_LOG_BASE,
  DUCT_REYNOLDS,
  DUCT_ROOT,
  DUCT_ROUGHNESS,
  ENTRY,
  EXPONENT,
  FIXED_FLOW,
  FLOW,
  FOOT,
  FOOT_CUBIC,
  FOOT_LINEAR,
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
  POWER_AT_BASE,
  POWER_INVERSE_BASE,
  POWER_LOG_COEFFICIENT,
  SLOPE,
  SOURCE,
  SQUARE_INVERSE,
  SQUARE_RESISTANCE,
  STEP,
  STRIDE,
  TABLE_AT_LIMIT,
  TABLE_HELD_FLOW,
  TABLE_NUMBER,
  TABLE_PIECE,
  TABLE_SWITCH,
  TO,
} = RECORD;
const { LAMINAR, TURBULENT, TWO_OVER_LN10 } = FRICTION;
const SERIES_RANGE = SERIES_HALF_WIDTH;
/** 1/√f goes along with a flow that grew by at most this share of what it is now. */
const LARGEST_SHARE = 0.5;
const HALF_LN10 = 1 / TWO_OVER_LN10;

/**
 * The hot loops of the solver. A pass takes the step of the latest linear solve in every element, evaluates its law
 * and slope at the new flow (one loop for each kind: short loops keep their numbers in registers), and then
 * adds all elements to the next linear system in one loop. Nothing is allocated here.
 *
 * 1/√f of a duct takes one step of third order (Chebyshev's) on Colebrook's equation at each visit, so that it converges together with the
 * flow; logarithms and powers come from a series around a remembered point whenever the argument is near it.
 */

/** The arrays a pass works on. Nodes are numbered by elimination step, fixed nodes after the free ones. */
export type PassState = {
  readonly records: Float64Array;
  readonly links: Int32Array;
  readonly blend: Float64Array;
  readonly tables: readonly Float64Array[];
  readonly colebrook: boolean;
  /** First record of each kind, and one past the last record that takes part at KIND_TIGHT. */
  readonly kindStart: Int32Array;
  /** Total pressure of each node and its change in the latest linear solve. */
  readonly head: Float64Array;
  readonly headStep: Float64Array;
  /** The linear system of the next step. The last entry of `lower` collects what touches a fixed node. */
  readonly diagonal: Float64Array;
  readonly lower: Float64Array;
  readonly right: Float64Array;
  readonly sums: Float64Array;
};

/** What a pass leaves in `sums`. */
export const SUM_ERROR = 0; // largest flow-equivalent error, m³/s
export const SUM_DROP = 1; // largest drop of an element, Pa
export const SUM_FLOW = 2; // largest flow, m³/s
export const SUM_DESCENT = 3; // −(derivative of the content along the step) at its start
export const SUM_END = 4; // derivative of the content along the step at its end
export const SUM_LAG = 5; // largest flow-equivalent error of a friction root
export const SUMS = 6;

/** Error of a pressure balance that is round-off, as a share of the largest pressure in the network. */
export const ROUND_OFF = 1e-15;

/** Slope of a held flow in units of the fan's own mean slope. */
const HOLDING_STIFFNESS = 1e6;

/** Records evaluated before they are assembled: few enough to stay in the processor's nearest cache. */
const BLOCK = 128;

/** Evaluates all elements at the coming flows and assembles the system of the next step from nothing. */
export function pass(state: PassState): void {
  const { kindStart, diagonal, lower, right, sums } = state;
  diagonal.fill(0);
  lower.fill(0);
  right.fill(0);
  const allowance = ROUND_OFF * sums[SUM_DROP]!;
  sums.fill(0);
  for (let kind = KIND_DUCT; kind <= KIND_TABLE; kind++) {
    const end = kindStart[kind + 1]!;
    for (let first = kindStart[kind]!; first < end; first += BLOCK) {
      const last = Math.min(first + BLOCK, end);
      evaluateLaws(state, kind, first, last);
      assemble(state, first, last, allowance);
    }
  }
  imposeFlows(state, kindStart[KIND_FIXED]!, kindStart[KIND_FIXED + 1]!);
}

/** The same for one record, added to the system in store. */
export function passOne(state: PassState, kind: number, record: number): void {
  if (kind === KIND_FIXED) imposeFlows(state, record, record + 1);
  else {
    evaluateLaws(state, kind, record, record + 1);
    assemble(state, record, record + 1, 0);
  }
}

/** Evaluates the laws of some records of one kind at their coming flows. */
export function evaluateLaws(state: PassState, kind: number, first: number, last: number): void {
  switch (kind) {
    case KIND_DUCT:
      evaluateDucts(state, first, last);
      break;
    case KIND_SQUARE:
      evaluateSquares(state, first, last);
      break;
    case KIND_POWER:
      evaluatePowers(state, first, last);
      break;
    case KIND_TABLE:
      evaluateTables(state, first, last);
  }
}

function evaluateDucts(state: PassState, first: number, last: number): void {
  const { records: R, links, headStep, sums, colebrook } = state;
  let descent = sums[SUM_DESCENT]!;
  let worstLag = sums[SUM_LAG]!;
  for (let e = first, at = first * STRIDE, link = first * LINKS; e < last; e++, at += STRIDE, link += LINKS) {
    const before = R[at + FLOW]!;
    const flow =
      R[at + SOURCE]! +
      R[at + CONDUCTANCE]! * (headStep[links[link + FROM]!]! - headStep[links[link + TO]!]!);
    const size = Math.abs(flow);
    const perFlow = R[at + DUCT_REYNOLDS]!;
    const reynolds = size * perFlow;
    const step = flow - before;
    R[at + FLOW] = flow;
    R[at + STEP] = step;
    descent += step * step * R[at + SLOPE]!;
    if (reynolds < TURBULENT) {
      evaluateSlowDuct(state, e, flow, reynolds);
      continue;
    }
    const inverseReynolds = 1 / reynolds;
    let root =
      R[at + DUCT_ROOT]! * rootGrowth(R[at + DUCT_LAG]!, 1 - Math.abs(before) * perFlow * inverseReynolds);
    const smooth = colebrook ? 2.51 * inverseReynolds : 5.74 * Math.exp(-0.9 * Math.log(reynolds));
    const z = R[at + DUCT_ROUGHNESS]! + (colebrook ? smooth * root : smooth);
    const near = z * R[at + DUCT_INVERSE_BASE]! - 1;
    let log: number;
    if (near < SERIES_RANGE && near > -SERIES_RANGE) log = R[at + DUCT_LOG_BASE]! + logOnePlus(near);
    else {
      log = Math.log(z);
      R[at + DUCT_INVERSE_BASE] = 1 / z;
      R[at + DUCT_LOG_BASE] = log;
    }
    // How 1/√f follows the flow: lag = d ln(1/√f)/d ln Q.
    let lag: number;
    if (colebrook) {
      const pull = TWO_OVER_LN10 * smooth;
      lag = pull / (z + pull);
      const moved = (root + TWO_OVER_LN10 * log) * (1 - lag);
      // Half of Colebrook's second derivative over its first is −lag²/(1 − lag)·ln(10)/4.
      const bent = moved * (1 - 0.5 * HALF_LN10 * lag * lag * (1 + lag + lag * lag) * moved);
      root -= bent;
      // The slope belongs to the new root: 1/(1 − u) to second order.
      const u = lag * bent * HALF_LN10;
      const rest = Math.abs(lag * moved);
      lag *= 1 + u + u * u;
      const error = size * rest * rest * rest;
      if (error > worstLag) worstLag = error;
    } else {
      root = -TWO_OVER_LN10 * log;
      lag = (0.9 * TWO_OVER_LN10 * smooth) / (z * root);
    }
    R[at + DUCT_ROOT] = root;
    R[at + DUCT_LAG] = lag;
    const friction = R[at + DUCT_FRICTION]! / (root * root);
    const fitting = R[at + DUCT_FITTING]!;
    R[at + DROP] = flow * size * (friction + fitting);
    R[at + SLOPE] = 2 * size * (friction * (1 - lag) + fitting);
  }
  sums[SUM_LAG] = worstLag;
  sums[SUM_DESCENT] = descent;
}

/** Laminar flow and the cubic up to turbulent flow. */
function evaluateSlowDuct(state: PassState, record: number, flow: number, reynolds: number): void {
  const { records: R, blend, colebrook } = state;
  const at = record * STRIDE;
  const size = Math.abs(flow);
  const k = R[at + DUCT_FRICTION]!;
  const perFlow = R[at + DUCT_REYNOLDS]!;
  let drop: number;
  let slope: number;
  if (reynolds <= LAMINAR) {
    slope = (64 * k) / perFlow;
    drop = slope * size;
  } else {
    const b = 4 * record;
    const t = colebrook ? reynolds / LAMINAR - 1 : reynolds / LAMINAR;
    const value = blend[b]! + t * (blend[b + 1]! + t * (blend[b + 2]! + t * blend[b + 3]!));
    const rise = blend[b + 1]! + t * (2 * blend[b + 2]! + t * 3 * blend[b + 3]!);
    if (colebrook) {
      drop = (k / (perFlow * perFlow)) * value;
      slope = ((k / perFlow) * rise) / LAMINAR;
    } else {
      drop = k * size * size * value;
      slope = k * size * (2 * value + t * rise);
    }
  }
  const fitting = R[at + DUCT_FITTING]! * size;
  drop += fitting * size;
  R[at + DROP] = flow < 0 ? -drop : drop;
  R[at + SLOPE] = slope + 2 * fitting;
}

/**
 * Factor on 1/√f of a duct whose flow grew by `share` of what it is now: −ln(1 − d) = d + d²/2 … is how far the
 * logarithm of the flow goes.
 */
export function rootGrowth(lag: number, share: number): number {
  return Math.abs(share) < LARGEST_SHARE ? 1 + lag * share * (1 + 0.5 * share) : 1;
}

function evaluateSquares(state: PassState, first: number, last: number): void {
  const { records: R, links, head, headStep, sums } = state;
  let descent = sums[SUM_DESCENT]!;
  for (let e = first, at = first * STRIDE, link = first * LINKS; e < last; e++, at += STRIDE, link += LINKS) {
    const from = links[link + FROM]!;
    const to = links[link + TO]!;
    const before = R[at + FLOW]!;
    const flow = R[at + SOURCE]! + R[at + CONDUCTANCE]! * (headStep[from]! - headStep[to]!);
    const step = flow - before;
    R[at + FLOW] = flow;
    R[at + STEP] = step;
    descent += step * step * R[at + SLOPE]!;
    const resistance = R[at + SQUARE_RESISTANCE]!;
    const drive = head[from]! - head[to]! - R[at + OFFSET]!;
    if (R[at + BY_PRESSURE] === 1 && Math.abs(drive) > FOOT_PRESSURE) {
      const size = Math.sqrt(Math.abs(drive) * R[at + SQUARE_INVERSE]!);
      const slope = 2 * resistance * size;
      R[at + SLOPE] = slope;
      R[at + DROP] = drive - ((drive < 0 ? -size : size) - flow) * slope;
      continue;
    }
    const size = Math.abs(flow);
    if (size < R[at + FOOT]!) {
      evaluateFoot(R, at, flow);
      continue;
    }
    const slope = resistance * size;
    R[at + DROP] = slope * flow;
    R[at + SLOPE] = slope + slope;
  }
  sums[SUM_DESCENT] = descent;
}

/** The cubic below a millipascal. */
function evaluateFoot(R: Float64Array, at: number, flow: number): void {
  const curved = R[at + FOOT_CUBIC]! * flow * flow;
  R[at + DROP] = flow * (R[at + FOOT_LINEAR]! + curved);
  R[at + SLOPE] = R[at + FOOT_LINEAR]! + 3 * curved;
}

function evaluatePowers(state: PassState, first: number, last: number): void {
  const { records: R, links, head, headStep, sums } = state;
  let descent = sums[SUM_DESCENT]!;
  for (let e = first, at = first * STRIDE, link = first * LINKS; e < last; e++, at += STRIDE, link += LINKS) {
    const from = links[link + FROM]!;
    const to = links[link + TO]!;
    const before = R[at + FLOW]!;
    const flow = R[at + SOURCE]! + R[at + CONDUCTANCE]! * (headStep[from]! - headStep[to]!);
    const step = flow - before;
    R[at + FLOW] = flow;
    R[at + STEP] = step;
    descent += step * step * R[at + SLOPE]!;
    // A leak that its node hardly notices takes its flow from the pressure, which is nearly right already; anything
    // else takes its pressure from the flow. Both read the same power of "argument".
    const drive = head[from]! - head[to]! - R[at + OFFSET]!;
    const byPressure = R[at + BY_PRESSURE] === 1 && Math.abs(drive) > FOOT_PRESSURE;
    const argument = Math.abs(byPressure ? drive : flow);
    if (!byPressure && argument < R[at + FOOT]!) {
      evaluateFoot(R, at, flow);
      continue;
    }
    const exponent = byPressure ? 1 / R[at + EXPONENT]! : R[at + EXPONENT]!;
    const near = argument * R[at + POWER_INVERSE_BASE]! - 1;
    let value: number;
    if (near < SERIES_RANGE && near > -SERIES_RANGE) {
      value = R[at + POWER_AT_BASE]! * powerOnePlus(near, exponent);
    } else {
      const log = Math.log(argument);
      const logC = R[at + POWER_LOG_COEFFICIENT]!;
      value = Math.exp(byPressure ? logC + exponent * log : exponent * (log - logC));
      R[at + POWER_INVERSE_BASE] = 1 / argument;
      R[at + POWER_AT_BASE] = value;
    }
    if (byPressure) {
      const slope = argument / (exponent * value);
      R[at + SLOPE] = slope;
      R[at + DROP] = drive - ((drive < 0 ? -value : value) - flow) * slope;
    } else {
      R[at + SLOPE] = (exponent * value) / argument;
      R[at + DROP] = flow < 0 ? -value : value;
    }
  }
  sums[SUM_DESCENT] = descent;
}

function evaluateTables(state: PassState, first: number, last: number): void {
  const { records: R, links, head, headStep, tables, sums } = state;
  let descent = sums[SUM_DESCENT]!;
  for (let e = first, at = first * STRIDE, link = first * LINKS; e < last; e++, at += STRIDE, link += LINKS) {
    const from = links[link + FROM]!;
    const to = links[link + TO]!;
    const before = R[at + FLOW]!;
    const flow = R[at + SOURCE]! + R[at + CONDUCTANCE]! * (headStep[from]! - headStep[to]!);
    const table = tables[R[at + TABLE_NUMBER]!]!;
    const piece = findPiece(table, flow, R[at + TABLE_PIECE]!);
    let slope = table[piece + 2]!;
    let drop = table[piece + 1]! + slope * (flow - table[piece]!);
    const held = R[at + TABLE_HELD_FLOW]!;
    if (held < Number.POSITIVE_INFINITY) {
      // Either the flow is held and the table has rise to spare, or the table rules: the smaller gap decides.
      const drive = head[from]! - head[to]! - R[at + OFFSET]!;
      const toSpare = drive - drop;
      const holds = held - flow < toSpare * R[at + TABLE_SWITCH]!;
      R[at + TABLE_AT_LIMIT] = holds ? 0 : 1;
      if (holds) {
        // Steep enough to hold, soft enough that the matrix stays regular when the flow has nowhere to go.
        slope = HOLDING_STIFFNESS / R[at + TABLE_SWITCH]!;
        drop = drive - (held - flow) * slope;
      }
    }
    const step = flow - before;
    R[at + FLOW] = flow;
    R[at + STEP] = step;
    descent += step * step * R[at + SLOPE]!;
    R[at + TABLE_PIECE] = piece;
    R[at + DROP] = drop;
    R[at + SLOPE] = slope;
  }
  sums[SUM_DESCENT] = descent;
}

/** Adds evaluated records to the linear system and takes stock of their errors. */
function assemble(state: PassState, first: number, last: number, allowance: number): void {
  const { records: R, links, head, diagonal, lower, right, sums } = state;
  let worstError = sums[SUM_ERROR]!;
  let largestDrop = sums[SUM_DROP]!;
  let largestFlow = sums[SUM_FLOW]!;
  let end = sums[SUM_END]!;
  for (let e = first, at = first * STRIDE, link = first * LINKS; e < last; e++, at += STRIDE, link += LINKS) {
    const from = links[link + FROM]!;
    const to = links[link + TO]!;
    const entry = links[link + ENTRY]!;
    const flow = R[at + FLOW]!;
    const step = R[at + STEP]!;
    const drop = R[at + DROP]!;
    const slope = R[at + SLOPE]!;
    const conductance = slope > LEAST_SLOPE ? 1 / slope : 1 / LEAST_SLOPE;
    const left = head[from]! - head[to]! - R[at + OFFSET]! - drop;
    const source = flow + conductance * left;
    R[at + CONDUCTANCE] = conductance;
    R[at + SOURCE] = source;
    diagonal[from] = diagonal[from]! + conductance;
    diagonal[to] = diagonal[to]! + conductance;
    right[from] = right[from]! - source;
    right[to] = right[to]! + source;
    lower[entry] = lower[entry]! - conductance;
    const error = conductance * (Math.abs(left) - allowance);
    const size = Math.abs(flow);
    const dropSize = Math.abs(drop);
    if (error > worstError) worstError = error;
    if (size > largestFlow) largestFlow = size;
    if (dropSize > largestDrop) largestDrop = dropSize;
    end -= step * left;
  }
  const lag = sums[SUM_LAG]!;
  sums[SUM_ERROR] = Math.max(lag, worstError);
  sums[SUM_DROP] = largestDrop;
  sums[SUM_FLOW] = largestFlow;
  sums[SUM_END] = end;
}

/** Imposed flows enter the balance of their nodes and nothing else. */
function imposeFlows(state: PassState, first: number, last: number): void {
  const { records: R, links, right, sums } = state;
  for (let e = first; e < last; e++) {
    const at = e * STRIDE;
    const source = R[at + FIXED_FLOW]!;
    const flow = R[at + SOURCE]!;
    const from = links[e * LINKS + FROM]!;
    const to = links[e * LINKS + TO]!;
    R[at + STEP] = flow - R[at + FLOW]!;
    R[at + FLOW] = flow;
    R[at + SOURCE] = source;
    R[at + CONDUCTANCE] = 0;
    right[from] = right[from]! - source;
    right[to] = right[to]! + source;
    sums[SUM_ERROR] = Math.max(sums[SUM_ERROR]!, Math.abs(source - flow));
    sums[SUM_FLOW] = Math.max(sums[SUM_FLOW]!, Math.abs(flow));
  }
}
