import { factorAndSolve } from '../numerics/ldl.ts';
import { findAmbiguousFans } from './ambiguous-fans.ts';
import { type CompiledNetwork, holdFlow, restoreSides, setSide } from './compile.ts';
import { absorbOwnSlopes, clearOffsets, correctStep, updateOffsets } from './cross-terms.ts';
import { tableValue } from './fan-law.ts';
import { pass, SUM_DESCENT, SUM_DROP, SUM_END, SUM_ERROR, SUM_FLOW } from './pass.ts';
import { RECORD } from './record.ts';
import { bendStep, measureBends, provesStep, takeStep } from './second-order.ts';
import type { NetworkSolution } from './types.ts';

const {
  CONDUCTANCE,
  ENTRY,
  FIXED_FLOW,
  FLOW,
  FROM,
  KIND,
  KIND_FIXED,
  KIND_POWER,
  KIND_SQUARE,
  KIND_TABLE,
  LINKS,
  OFFSET,
  SOURCE,
  START,
  STEP,
  STRIDE,
  TABLE_AT_LIMIT,
  TABLE_HELD_FLOW,
  TABLE_NUMBER,
  TO,
} = RECORD;

/** Flow-equivalent error of every law, relative to the largest flow, at which a solve ends. */
const RESIDUAL_TOLERANCE = 1e-10;

/** The scale of the residual never falls below this share of the largest flow at 10 Pa ("everything off"). */
const FLOW_FLOOR = 1e-5;

/** After this many iterations small leaks go back to the flow side, which can not overshoot. */
const LEAK_PATIENCE = 15;

/** Tees and stall dips join when the plain network is solved this well. */
const CROSS_JOIN = 1e-3;

/** Accuracy of the linear solve behind one Newton step with cross terms: enough for a thousandfold gain. */
const CROSS_TOLERANCE = 1e-3;

const MOST_ITERATIONS = 200;

/** From this residual on steps get their second-order part and may be good enough without another look at the laws … */
const BEND_FROM = 2.5e-3;
/** (as long as the records stay near the processor: fetching more takes as long as a pass, which gains more) … */
const MOST_BENT = 10_000;
/** … and from this one on even a plain step may. */
const PLAIN_FROM = 1e-6;

/** A step is taken in full when the content's derivative at its end is at most this share of that at its start. */
const SLOPE_SHARE = 0.5;

/** How far and how long the solver goes on. */
export type SolveOptions = {
  /** 'cold' forgets earlier flows; 'warm' (the default after a first solve) starts from them. */
  readonly start?: 'cold' | 'warm';
  /** A state that is thought to be nearer than the latest: where a warm solve starts instead. */
  readonly near?: Pick<NetworkSolution, 'flow_m3s' | 'pressure_Pa'>;
};

/**
 * Solves a network: global gradient method on flows and pressures (Todini & Pilati 1988) in correction form, with
 * a line search on the content Σ∫Δp dQ (Millar 1951; Collins et al. 1978), which is convex as long as every
 * law rises, so the solve gets there from anywhere. Tees, static-pressure leaks and stall dips
 * join near the solution with full Newton steps. The final residual is always of the true equations.
 *
 * Never throws on a hard network: look at `converged` and `worst`.
 */
export function solveNetwork(compiled: CompiledNetwork, options: SolveOptions = {}): NetworkSolution {
  const warm = compiled.solved && options.start !== 'cold';
  if (warm && options.near) startFrom(compiled, options.near);
  if (compiled.allByFlow) restoreSides(compiled);
  let run = iterate(compiled, warm);
  if (!run.converged && warm) {
    const cold = iterate(compiled, false);
    run = { converged: cold.converged, iterations: run.iterations + cold.iterations };
  }
  compiled.solved = run.converged;
  compiled.assembled = run.converged && compiled.cross === undefined;
  return readSolution(compiled, run);
}

type Run = { readonly converged: boolean; readonly iterations: number };

function iterate(compiled: CompiledNetwork, warm: boolean): Run {
  const { cross, headStep, sums } = compiled;
  if (compiled.allByFlow) restoreSides(compiled);
  let crossJoined = cross !== undefined && warm;
  let lastError = Number.POSITIVE_INFINITY;
  let relative = warm ? 0 : Number.POSITIVE_INFINITY;
  if (!warm) startCold(compiled);
  else if (!compiled.assembled) {
    holdFlows(compiled);
    evaluate(compiled, crossJoined);
  }
  for (let iteration = 1; iteration <= MOST_ITERATIONS; iteration++) {
    if (crossJoined) absorbOwnSlopes(cross!, compiled);
    linearStep(compiled, crossJoined);
    if (cross === undefined && relative <= BEND_FROM) {
      const mayBend = compiled.active <= MOST_BENT;
      const mayProve = iteration > 1;
      const mayBePlain = mayProve && relative <= PLAIN_FROM;
      // What the last solve measured is good enough for a first step from there.
      const measured = warm && iteration === 1 && compiled.assembled;
      if (!measured && (mayBend || mayBePlain)) measureBends(compiled);
      const plain = mayBePlain && proves(compiled, false);
      const bent = mayBend && !plain;
      if (bent) bendStep(compiled);
      if (plain || (bent && mayProve && proves(compiled, true))) {
        takeStep(compiled);
        if (isBalanced(compiled)) return { converged: true, iterations: iteration };
        holdFlows(compiled);
        headStep.fill(0);
      }
    }
    moveHeads(compiled);
    evaluate(compiled, crossJoined);
    // The first step brings the flows into balance; only after it is a step a descent.
    if (iteration > 1) {
      if (crossJoined) halveWhenWorse(compiled, lastError);
      else searchLine(compiled);
    }
    const error = relativeError(compiled);
    relative = error;
    if (!Number.isFinite(error + sums[SUM_END]!)) return { converged: false, iterations: iteration };
    if (error <= RESIDUAL_TOLERANCE && (warm || iteration > 1) && isBalanced(compiled)) {
      if (cross === undefined || crossJoined) return { converged: true, iterations: iteration };
    }
    lastError = sums[SUM_ERROR]!;
    if (cross !== undefined && !crossJoined && error <= CROSS_JOIN) {
      crossJoined = true;
      holdFlows(compiled);
      evaluate(compiled, true);
      lastError = Number.POSITIVE_INFINITY;
    }
    if (iteration === LEAK_PATIENCE) linearizeAllByFlow(compiled);
  }
  return { converged: false, iterations: MOST_ITERATIONS };
}

function relativeError(compiled: CompiledNetwork): number {
  const { sums } = compiled;
  return sums[SUM_ERROR]! / flowScale(compiled);
}

function flowScale({ sums, largestStart }: CompiledNetwork): number {
  return Math.max(sums[SUM_FLOW]!, FLOW_FLOOR * largestStart, Number.MIN_VALUE);
}

/** Whether continuity holds as well as the laws: a long step across a great conductance leaves round-off in its flows. */
function isBalanced(compiled: CompiledNetwork): boolean {
  compiled.imbalance = largestImbalance(compiled);
  return compiled.imbalance <= RESIDUAL_TOLERANCE * flowScale(compiled);
}

/** Largest error of continuity at a free node, m³/s. */
function largestImbalance({ records, links, balance, active, pattern }: CompiledNetwork): number {
  balance.fill(0);
  for (let record = 0, at = 0, link = 0; record < active; record++, at += STRIDE, link += LINKS) {
    const flow = records[at + FLOW]!;
    const from = links[link + FROM]!;
    const to = links[link + TO]!;
    balance[from] = balance[from]! - flow;
    balance[to] = balance[to]! + flow;
  }
  let worst = 0;
  for (let i = 0; i < pattern.size; i++) worst = Math.max(worst, Math.abs(balance[i]!));
  return worst;
}

/** Evaluates all laws at the coming flows and assembles the system of the next step. */
function evaluate(compiled: CompiledNetwork, withCross: boolean): void {
  if (compiled.cross !== undefined) {
    if (withCross) updateOffsets(compiled.cross, compiled);
    else clearOffsets(compiled.cross, compiled);
  }
  pass(compiled);
}

/** Solves the assembled system for the change of the pressures; the system itself stays for later edits. */
function linearStep(compiled: CompiledNetwork, withCross: boolean): void {
  const { pattern, diagonal, lower, pivots, factor, right, headStep, closedNodes } = compiled;
  // Closed nodes have no equation of their own: theirs reads "no change".
  for (let i = 0; i < closedNodes.length; i++) diagonal[closedNodes[i]!] = 1;
  pivots.set(diagonal);
  factor.set(lower);
  factorAndSolve(pattern, pivots, factor, right, headStep);
  if (withCross) {
    correctStep(
      compiled.cross!,
      compiled,
      { pattern, inversePivots: pivots, lower: factor },
      CROSS_TOLERANCE,
    );
  }
}

function moveHeads({ pattern, head, headStep }: CompiledNetwork): void {
  for (let i = 0; i < pattern.size; i++) head[i] = head[i]! + headStep[i]!;
}

function proves(compiled: CompiledNetwork, bent: boolean): boolean {
  return provesStep(compiled, bent, RESIDUAL_TOLERANCE * flowScale(compiled));
}

/** Takes flows and pressures of elements and nodes as the present ones. */
function startFrom(
  compiled: CompiledNetwork,
  { flow_m3s, pressure_Pa }: Pick<NetworkSolution, 'flow_m3s' | 'pressure_Pa'>,
): void {
  const { records, source, step, head, pattern, active } = compiled;
  for (let record = 0; record < active; record++)
    records[record * STRIDE + FLOW] = flow_m3s[source[record]!]!;
  for (let node = 0; node < step.length; node++) {
    const pressure = pressure_Pa[node]!;
    // Fixed nodes have their own; closed ones have none.
    if (step[node]! < pattern.size && !Number.isNaN(pressure)) head[step[node]!] = pressure;
  }
  compiled.assembled = false;
}

/** One linear network of secants at 10 Pa, fans as the line from shut-off pressure to free flow. */
function startCold(compiled: CompiledNetwork): void {
  const { records, links, head, tables, pattern, diagonal, lower, right, active, sums } = compiled;
  head.fill(0, 0, pattern.size);
  sums.fill(0);
  diagonal.fill(0);
  lower.fill(0);
  right.fill(0);
  for (let record = 0; record < active; record++) {
    const at = record * STRIDE;
    const link = record * LINKS;
    const from = links[link + FROM]!;
    const to = links[link + TO]!;
    let drive = head[from]! - head[to]!;
    let conductance = records[at + START]!;
    if (links[link + KIND] === KIND_TABLE) drive -= tableValue(tables[records[at + TABLE_NUMBER]!]!, 0);
    let source = conductance * drive;
    if (links[link + KIND] === KIND_FIXED) {
      conductance = 0;
      source = records[at + FIXED_FLOW]!;
    }
    records[at + FLOW] = 0;
    records[at + STEP] = 0;
    records[at + OFFSET] = 0;
    records[at + CONDUCTANCE] = conductance;
    records[at + SOURCE] = source;
    diagonal[from] = diagonal[from]! + conductance;
    diagonal[to] = diagonal[to]! + conductance;
    right[from] = right[from]! - source;
    right[to] = right[to]! + source;
    const entry = links[link + ENTRY]!;
    lower[entry] = lower[entry]! - conductance;
  }
}

function holdFlows(compiled: CompiledNetwork): void {
  for (let record = 0; record < compiled.active; record++) holdFlow(compiled.records, record * STRIDE);
}

/**
 * Shortens a step that climbs out of the valley: seeks t with a small derivative of the content along the step by
 * regula falsi with the Illinois rule. The evaluation that told so is the one the next iteration needs anyway, so
 * an accepted step costs nothing.
 */
function searchLine(compiled: CompiledNetwork): void {
  const { sums } = compiled;
  const target = SLOPE_SHARE * sums[SUM_DESCENT]!;
  let highValue = sums[SUM_END]!;
  if (!(highValue > target)) return;
  const search = keepStep(compiled);
  let low = 0;
  let lowValue = -sums[SUM_DESCENT]!;
  let high = 1;
  for (let i = 0; i < 30; i++) {
    let t = low - (lowValue * (high - low)) / (highValue - lowValue);
    const margin = 0.1 * (high - low);
    t = Math.min(Math.max(t, low + margin), high - margin);
    const value = evaluateAlong(compiled, search, t, false);
    if (Math.abs(value) <= target) return;
    if (value > 0) {
      high = t;
      highValue = value;
      lowValue /= 2;
    } else {
      low = t;
      lowValue = value;
      highValue /= 2;
    }
  }
}

/** With cross terms there is no content to descend; a step that makes the worst law worse is halved. */
function halveWhenWorse(compiled: CompiledNetwork, lastError: number): void {
  if (!(compiled.sums[SUM_ERROR]! > 2 * lastError)) return;
  evaluateAlong(compiled, keepStep(compiled), 0.5, true);
}

type KeptStep = { readonly flow: Float64Array; readonly step: Float64Array };

/** Flows before the latest step and the step itself. Allocates: only steps that overshoot come here. */
function keepStep(compiled: CompiledNetwork): KeptStep {
  const { records, active } = compiled;
  const flow = new Float64Array(active);
  const step = new Float64Array(active);
  for (let record = 0; record < active; record++) {
    step[record] = records[record * STRIDE + STEP]!;
    flow[record] = records[record * STRIDE + FLOW]! - step[record]!;
  }
  return { flow, step };
}

/** Evaluates the network at flow + t·step and returns the derivative of the content there. */
function evaluateAlong(compiled: CompiledNetwork, kept: KeptStep, t: number, withCross: boolean): number {
  const { records, active } = compiled;
  for (let record = 0; record < active; record++) {
    records[record * STRIDE + SOURCE] = kept.flow[record]! + t * kept.step[record]!;
    records[record * STRIDE + CONDUCTANCE] = 0;
  }
  evaluate(compiled, withCross);
  let derivative = 0;
  for (let record = 0; record < active; record++) {
    const at = record * STRIDE;
    const conductance = records[at + CONDUCTANCE]!;
    if (conductance > 0) {
      derivative -= (kept.step[record]! * (records[at + SOURCE]! - records[at + FLOW]!)) / conductance;
    }
  }
  return derivative;
}

function linearizeAllByFlow(compiled: CompiledNetwork): void {
  const { links, active } = compiled;
  for (let record = 0; record < active; record++) {
    const kind = links[record * LINKS + KIND];
    if (kind === KIND_POWER || kind === KIND_SQUARE) setSide(compiled, record, 0);
  }
  compiled.allByFlow = true;
}

function readSolution(compiled: CompiledNetwork, run: Run): NetworkSolution {
  const { records, head, step, source, active, elements, closedNodes } = compiled;
  const flow_m3s = new Float64Array(elements.length);
  const pressure_Pa = new Float64Array(step.length);
  for (let record = 0; record < active; record++)
    flow_m3s[source[record]!] = records[record * STRIDE + FLOW]!;
  for (let i = 0; i < step.length; i++) pressure_Pa[i] = head[step[i]!]!;
  if (closedNodes.length > 0) {
    const closed = new Set(closedNodes);
    for (let i = 0; i < step.length; i++) if (closed.has(step[i]!)) pressure_Pa[i] = Number.NaN;
  }
  const imbalance = run.converged ? compiled.imbalance : largestImbalance(compiled);
  const solution = {
    flow_m3s,
    pressure_Pa,
    residual: relativeError(compiled),
    continuityResidual: imbalance / flowScale(compiled),
    iterations: run.iterations,
    converged: run.converged,
    setAside: compiled.setAside,
    fanAtLimit: fansAtLimit(compiled),
    ambiguousFans: run.converged ? findAmbiguousFans(compiled) : [],
  };
  const worst = run.converged ? undefined : worstElement(compiled);
  return worst === undefined ? solution : { ...solution, worst };
}

function fansAtLimit({ records, source, kindStart }: CompiledNetwork): number[] {
  const found: number[] = [];
  for (let record = kindStart[KIND_TABLE]!; record < kindStart[KIND_TABLE + 1]!; record++) {
    const at = record * STRIDE;
    const isHeld = records[at + TABLE_HELD_FLOW]! < Number.POSITIVE_INFINITY;
    if (isHeld && records[at + TABLE_AT_LIMIT] === 1) found.push(source[record]!);
  }
  return found;
}

function worstElement(compiled: CompiledNetwork): NetworkSolution['worst'] {
  const { records, active, source, elements, sums } = compiled;
  let worst = -1;
  let largest = -1;
  for (let record = 0; record < active; record++) {
    const at = record * STRIDE;
    const error = Math.abs(records[at + SOURCE]! - records[at + FLOW]!);
    if (Number.isFinite(error) && error <= largest) continue;
    worst = record;
    largest = error;
    if (!Number.isFinite(error)) break;
  }
  if (worst < 0) return undefined;
  const element = source[worst]!;
  const { id, kind } = elements[element]!;
  const flow = records[worst * STRIDE + FLOW]!;
  const reason = Number.isFinite(largest)
    ? `${kind} '${id}': its law still misses the pressures by a flow of ${largest.toPrecision(3)} m³/s at ${flow.toPrecision(3)} m³/s (largest drop in the network ${sums[SUM_DROP]!.toPrecision(3)} Pa)`
    : `${kind} '${id}': its flow or pressure left the range of numbers`;
  return { element, reason };
}
