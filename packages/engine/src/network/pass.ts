import { logOnePlus, powerOnePlus, SERIES_RANGE } from '../numerics/series.ts';
import { findPiece } from './fan-law.ts';
import { LAMINAR, TURBULENT, TWO_OVER_LN10 } from './friction.ts';
import {
  CONDUCTANCE,
  DUCT_FITTING,
  DUCT_FRICTION,
  DUCT_INVERSE_BASE,
  DUCT_INVERSE_REYNOLDS,
  DUCT_LOG_BASE,
  DUCT_REYNOLDS,
  DUCT_ROOT,
  DUCT_ROUGHNESS,
  DUCT_SMOOTH_BASE,
  ENTRY,
  FIXED_FLOW,
  FLOW,
  FOOT,
  FOOT_CUBIC,
  FOOT_LINEAR,
  FOOT_PRESSURE,
  FROM,
  KIND,
  KIND_DUCT,
  KIND_POWER,
  KIND_SQUARE,
  KIND_TABLE,
  LEAST_SLOPE,
  LINKS,
  OFFSET,
  POWER_AT_BASE,
  POWER_BY_PRESSURE,
  POWER_EXPONENT,
  POWER_INVERSE_BASE,
  POWER_INVERSE_EXPONENT,
  POWER_LOG_COEFFICIENT,
  SLOPE,
  SOURCE,
  SQUARE_RESISTANCE,
  STEP,
  STRIDE,
  TABLE_AT_LIMIT,
  TABLE_HELD_FLOW,
  TABLE_NUMBER,
  TABLE_PIECE,
  TABLE_SWITCH,
  TO,
} from './record.ts';

/** The arrays a pass works on. Nodes are numbered by elimination step, fixed nodes after the free ones. */
export type PassState = {
  readonly records: Float64Array;
  readonly links: Int32Array;
  readonly blend: Float64Array;
  readonly tables: readonly Float64Array[];
  readonly colebrook: boolean;
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
export const SUM_STALE = 5; // > 0 when a friction factor is still catching up with its flow

/** Error of a pressure balance that is round-off, as a share of the largest pressure in the network. */
const ROUND_OFF = 1e-15;

/** A friction root that moved less than this (relative) is exact to 1e-11 after its Newton step. */
const SETTLED = 1e-5;

/**
 * The hot loop: for records first … last−1, take the step that the latest linear solve gave, evaluate the law
 * and its slope at the new flow, and add the element's part of the next linear system.
 *
 * All kinds share one loop and one tail; records are sorted by kind, so the branches predict themselves. Nothing
 * is allocated here. 1/√f of a duct takes one Newton step on Colebrook's equation at each visit, so that it
 * converges together with the flow; logarithms and powers come from a series around a remembered point
 * whenever the argument is within 3 % of it.
 */
export function pass(state: PassState, first: number, last: number): void {
  const { records: R, links, blend, tables, colebrook, head, headStep, diagonal, lower, right, sums } = state;
  const allowance = ROUND_OFF * sums[SUM_DROP]!;
  let worstError = 0;
  let largestDrop = 0;
  let largestFlow = 0;
  let descent = 0;
  let end = 0;
  let stale = 0;
  for (let e = first, at = first * STRIDE, link = first * LINKS; e < last; e++, at += STRIDE, link += LINKS) {
    const from = links[link + FROM]!;
    const to = links[link + TO]!;
    const before = R[at + FLOW]!;
    const flow = R[at + SOURCE]! + R[at + CONDUCTANCE]! * (headStep[from]! - headStep[to]!);
    const size = Math.abs(flow);
    const drive = head[from]! - head[to]! - R[at + OFFSET]!;
    let drop = 0;
    let slope = LEAST_SLOPE;
    let isImposed = false;
    let imposed = 0;
    switch (links[link + KIND]) {
      case KIND_DUCT: {
        const reynolds = size * R[at + DUCT_REYNOLDS]!;
        const k = R[at + DUCT_FRICTION]!;
        const fitting = R[at + DUCT_FITTING]! * size;
        if (reynolds >= TURBULENT) {
          let root = R[at + DUCT_ROOT]!;
          let smooth: number;
          let share: number;
          if (colebrook) {
            smooth = 2.51 / reynolds;
            const z = R[at + DUCT_ROUGHNESS]! + smooth * root;
            let near = z * R[at + DUCT_INVERSE_BASE]! - 1;
            let log: number;
            if (near < SERIES_RANGE && near > -SERIES_RANGE) log = R[at + DUCT_LOG_BASE]! + logOnePlus(near);
            else {
              log = Math.log(z);
              R[at + DUCT_INVERSE_BASE] = 1 / z;
              R[at + DUCT_LOG_BASE] = log;
            }
            const u = (TWO_OVER_LN10 * smooth) / z;
            share = 1 / (1 + u);
            near = (root + TWO_OVER_LN10 * log) * share;
            root -= near;
            R[at + DUCT_ROOT] = root;
            if (near > SETTLED * root || near < -SETTLED * root) stale = 1;
          } else {
            let near = reynolds * R[at + DUCT_INVERSE_REYNOLDS]! - 1;
            if (near < SERIES_RANGE && near > -SERIES_RANGE) {
              smooth = R[at + DUCT_SMOOTH_BASE]! * powerOnePlus(near, -0.9);
            } else {
              smooth = 5.74 * Math.exp(-0.9 * Math.log(reynolds));
              R[at + DUCT_INVERSE_REYNOLDS] = 1 / reynolds;
              R[at + DUCT_SMOOTH_BASE] = smooth;
            }
            const z = R[at + DUCT_ROUGHNESS]! + smooth;
            near = z * R[at + DUCT_INVERSE_BASE]! - 1;
            let log: number;
            if (near < SERIES_RANGE && near > -SERIES_RANGE) log = R[at + DUCT_LOG_BASE]! + logOnePlus(near);
            else {
              log = Math.log(z);
              R[at + DUCT_INVERSE_BASE] = 1 / z;
              R[at + DUCT_LOG_BASE] = log;
            }
            root = -TWO_OVER_LN10 * log;
            R[at + DUCT_ROOT] = root;
            share = 1 - (0.9 * TWO_OVER_LN10 * smooth) / (z * root);
          }
          const friction = (k * size) / (root * root);
          drop = size * (friction + fitting);
          slope = 2 * (friction * share + fitting);
        } else if (reynolds <= LAMINAR) {
          const inverse = 1 / R[at + DUCT_REYNOLDS]!;
          const linear = 64 * k * inverse;
          drop = size * (linear + fitting);
          slope = linear + 2 * fitting;
        } else {
          const scale = k / (R[at + DUCT_REYNOLDS]! * R[at + DUCT_REYNOLDS]!);
          const b = 4 * e;
          if (colebrook) {
            const t = reynolds / LAMINAR - 1;
            drop = scale * (blend[b]! + t * (blend[b + 1]! + t * (blend[b + 2]! + t * blend[b + 3]!)));
            slope = blend[b + 1]! + t * (2 * blend[b + 2]! + t * 3 * blend[b + 3]!);
            slope = (scale * slope * R[at + DUCT_REYNOLDS]!) / LAMINAR;
          } else {
            const t = reynolds / LAMINAR;
            const factor = blend[b]! + t * (blend[b + 1]! + t * (blend[b + 2]! + t * blend[b + 3]!));
            const rise = blend[b + 1]! + t * (2 * blend[b + 2]! + t * 3 * blend[b + 3]!);
            drop = k * size * size * factor;
            slope = k * size * (2 * factor + t * rise);
          }
          drop += size * fitting;
          slope += 2 * fitting;
        }
        if (flow < 0) drop = -drop;
        break;
      }
      case KIND_SQUARE: {
        if (size >= R[at + FOOT]!) {
          slope = R[at + SQUARE_RESISTANCE]! * size;
          drop = slope * flow;
          slope += slope;
        } else {
          const cubic = R[at + FOOT_CUBIC]! * flow * flow;
          drop = flow * (R[at + FOOT_LINEAR]! + cubic);
          slope = R[at + FOOT_LINEAR]! + 3 * cubic;
        }
        break;
      }
      case KIND_POWER: {
        const driveSize = Math.abs(drive);
        if (R[at + POWER_BY_PRESSURE] === 1 && driveSize > FOOT_PRESSURE) {
          // A leak that its node hardly notices: take the flow from the pressure, which is nearly right already.
          const exponent = R[at + POWER_INVERSE_EXPONENT]!;
          const near = driveSize * R[at + POWER_INVERSE_BASE]! - 1;
          let leak: number;
          if (near < SERIES_RANGE && near > -SERIES_RANGE) {
            leak = R[at + POWER_AT_BASE]! * powerOnePlus(near, exponent);
          } else {
            leak = Math.exp(R[at + POWER_LOG_COEFFICIENT]! + exponent * Math.log(driveSize));
            R[at + POWER_INVERSE_BASE] = 1 / driveSize;
            R[at + POWER_AT_BASE] = leak;
          }
          isImposed = true;
          imposed = drive < 0 ? -leak : leak;
          slope = driveSize / (exponent * leak);
          drop = drive;
        } else if (size >= R[at + FOOT]!) {
          const exponent = R[at + POWER_EXPONENT]!;
          const near = size * R[at + POWER_INVERSE_BASE]! - 1;
          if (near < SERIES_RANGE && near > -SERIES_RANGE) {
            drop = R[at + POWER_AT_BASE]! * powerOnePlus(near, exponent);
          } else {
            drop = Math.exp(exponent * (Math.log(size) - R[at + POWER_LOG_COEFFICIENT]!));
            R[at + POWER_INVERSE_BASE] = 1 / size;
            R[at + POWER_AT_BASE] = drop;
          }
          slope = (exponent * drop) / size;
          if (flow < 0) drop = -drop;
        } else {
          const cubic = R[at + FOOT_CUBIC]! * flow * flow;
          drop = flow * (R[at + FOOT_LINEAR]! + cubic);
          slope = R[at + FOOT_LINEAR]! + 3 * cubic;
        }
        break;
      }
      case KIND_TABLE: {
        const table = tables[R[at + TABLE_NUMBER]!]!;
        const piece = findPiece(table, flow, R[at + TABLE_PIECE]!);
        R[at + TABLE_PIECE] = piece;
        slope = table[piece + 2]!;
        drop = table[piece + 1]! + slope * (flow - table[piece]!);
        const held = R[at + TABLE_HELD_FLOW]!;
        if (held < Number.POSITIVE_INFINITY) {
          // Either the flow is held and the table has rise to spare, or the table rules: the smaller gap decides.
          const toSpare = drive - drop;
          if (held - flow < toSpare * R[at + TABLE_SWITCH]!) {
            R[at + TABLE_AT_LIMIT] = 0;
            isImposed = true;
            imposed = held;
            drop = drive;
            // Steep enough to hold, soft enough that the matrix stays regular when the flow has nowhere to go.
            slope = HOLDING_STIFFNESS / R[at + TABLE_SWITCH]!;
          } else R[at + TABLE_AT_LIMIT] = 1;
        }
        break;
      }
      default: {
        isImposed = true;
        imposed = R[at + FIXED_FLOW]!;
        drop = drive;
        slope = Number.POSITIVE_INFINITY;
      }
    }
    if (slope < LEAST_SLOPE) slope = LEAST_SLOPE;
    const conductance = 1 / slope;
    const step = flow - before;
    let left: number;
    let source: number;
    let error: number;
    if (!isImposed) {
      left = drive - drop;
      source = flow + conductance * left;
      error = conductance * (Math.abs(left) - allowance);
      end -= step * left;
    } else {
      source = imposed;
      error = Math.abs(source - flow);
      left = (source - flow) * slope;
      if (slope < Number.POSITIVE_INFINITY) end -= step * left;
    }
    if (step !== 0) descent += step * step * R[at + SLOPE]!;
    R[at + FLOW] = flow;
    R[at + STEP] = step;
    R[at + SLOPE] = slope;
    R[at + CONDUCTANCE] = conductance;
    R[at + SOURCE] = source;
    diagonal[from] = diagonal[from]! + conductance;
    diagonal[to] = diagonal[to]! + conductance;
    right[from] = right[from]! - source;
    right[to] = right[to]! + source;
    const entry = links[link + ENTRY]!;
    lower[entry] = lower[entry]! - conductance;
    if (error > worstError) worstError = error;
    if (size > largestFlow) largestFlow = size;
    if (drop > largestDrop) largestDrop = drop;
    else if (-drop > largestDrop) largestDrop = -drop;
  }
  sums[SUM_ERROR] = worstError;
  sums[SUM_DROP] = largestDrop;
  sums[SUM_FLOW] = largestFlow;
  sums[SUM_DESCENT] = descent;
  sums[SUM_END] = end;
  sums[SUM_STALE] = stale;
}

/** Slope of a held flow in units of the fan's own mean slope. */
const HOLDING_STIFFNESS = 1e6;

/** Clears the linear system before a pass over all records. */
export function clearSystem(state: PassState): void {
  state.diagonal.fill(0);
  state.lower.fill(0);
  state.right.fill(0);
}
