import { type GmresWorkspace, gmres, gmresWorkspace } from '../numerics/gmres.ts';
import { type LdlPattern, solveWithFactor } from '../numerics/ldl.ts';
import { densityRatio, dipTables, fallingResistance } from './element-law.ts';
import { type PieceTable, tableSlope, tableValue } from './fan-law.ts';
import type { PassState } from './pass.ts';
import { RECORD } from './record.ts';
import type { Junction, NetworkAir, NetworkElement } from './types.ts';

const { CONDUCTANCE, ENTRY, FLOW, FROM, LINKS, OFFSET, SLOPE, SOURCE, STRIDE, TO } = RECORD;

/**
 * Drops that depend on the flow of *another* element (static-pressure leaks, tees) or that fall with the own one
 * (negative loss coefficients, stall dips). They make the Jacobian unsymmetric, so they stay outside the
 * symmetric factor: the factor preconditions a small GMRES on the flows that the terms depend on, which makes
 * the step a full Newton step at the price of a few triangular solves.
 */
export type CrossTerms = {
  readonly terms: readonly CrossTerm[];
  /** Records whose flows the terms depend on. */
  readonly columns: Int32Array;
  /** Derivatives of the offsets, rebuilt at each pass: offset of `row` by flow of `columns[column]`. */
  readonly entryRow: Int32Array;
  readonly entryColumn: Int32Array;
  readonly entryValue: Float64Array;
  readonly work: {
    readonly gmres: GmresWorkspace;
    readonly right: Float64Array;
    readonly solution: Float64Array;
    readonly nodes: Float64Array;
    readonly heads: Float64Array;
  };
};

type CrossTerm = {
  readonly row: number;
  readonly common: number;
  /** Adds offset, derivative by own flow and by common flow into `out`. */
  readonly evaluate: (own: number, common: number, out: Float64Array) => void;
};

/** Most GMRES directions kept; tees and static leaks need three to ten. */
const DIRECTIONS = 40;

/**
 * Collects the cross terms of a network.
 * @param place record number of an element, or −1 when it is set aside
 */
export function crossTerms(
  elements: readonly NetworkElement[],
  air: NetworkAir,
  place: Int32Array,
  nodeCount: number,
): CrossTerms | undefined {
  const terms: CrossTerm[] = [];
  elements.forEach((element, index) => {
    const row = place[index]!;
    if (row < 0) return;
    const add = (common: number, evaluate: CrossTerm['evaluate']) => {
      if (place[common]! >= 0) terms.push({ row, common: place[common]!, evaluate });
    };
    if (element.kind === 'leak' && element.staticOf !== undefined) {
      add(element.staticOf, staticTerm(elements[element.staticOf]!, air));
    }
    if (element.junction !== undefined) {
      const common = elements[element.junction.common]!;
      const density = air.density_kgm3;
      add(
        element.junction.common,
        junctionTerm(
          element.junction,
          density * densityRatio(element, air),
          density * densityRatio(common, air),
        ),
      );
    }
    const falling = fallingResistance(element, air);
    if (falling < 0) add(index, fallingTerm(falling));
    const dip = dipTables(element, air);
    if (dip !== undefined) add(index, dipTerm(dip.envelope, dip.raw));
  });
  if (terms.length === 0) return undefined;
  const columns = Int32Array.from(new Set(terms.flatMap((term) => [term.common, term.row])));
  const columnOf = new Map([...columns].map((record, column) => [record, column]));
  // Two entries for each term: by the common flow, and by the own flow where that falls.
  return {
    terms,
    columns,
    entryRow: Int32Array.from(terms.flatMap((term) => [term.row, term.row])),
    entryColumn: Int32Array.from(
      terms.flatMap((term) => [columnOf.get(term.common)!, columnOf.get(term.row)!]),
    ),
    entryValue: new Float64Array(2 * terms.length),
    work: {
      gmres: gmresWorkspace(columns.length, Math.min(DIRECTIONS, columns.length)),
      right: new Float64Array(columns.length),
      solution: new Float64Array(columns.length),
      nodes: new Float64Array(nodeCount),
      heads: new Float64Array(nodeCount),
    },
  };
}

/** A leak sees the total pressure of its node less the velocity pressure of the duct it sits on. */
function staticTerm(duct: NetworkElement, air: NetworkAir): CrossTerm['evaluate'] {
  const area = 'area_m2' in duct ? duct.area_m2 : Number.POSITIVE_INFINITY;
  const k = (air.density_kgm3 * densityRatio(duct, air)) / (2 * area * area);
  return (_own, common, out) => {
    out[0] = out[0]! + k * common * common;
    out[2] = out[2]! + 2 * k * common;
  };
}

/**
 * The three tee terms of Junction as quadratic forms of both flows. Densities may differ (the streams mix), so
 * each velocity pressure takes its own.
 */
function junctionTerm(junction: Junction, ownDensity: number, commonDensity: number): CrossTerm['evaluate'] {
  const own = ownDensity / (2 * junction.ownArea_m2 ** 2);
  const whole = commonDensity / (2 * junction.commonArea_m2 ** 2);
  const { kind } = junction;
  const k = junction.coefficient ?? (kind === 'converging' ? 1 : kind === 'diverging-branch' ? 0.95 : 0.4);
  return (ownFlow, commonFlow, out) => {
    const q = Math.max(0, commonFlow);
    const b = Math.min(Math.max(0, ownFlow), q);
    // Where a limit holds, the limited flow moves with the common one or not at all.
    const commonMoves = commonFlow > 0 ? 1 : 0;
    const ownMoves = ownFlow > 0 && ownFlow < q ? 1 : 0;
    const ownFollows = ownFlow >= q ? commonMoves : 0;
    let value: number;
    let byOwn: number;
    let byCommon: number;
    if (kind === 'converging') {
      const rest = q - b;
      value = whole * (q * q - 2 * rest * rest) + own * b * b;
      byOwn = 4 * whole * rest + 2 * own * b;
      byCommon = whole * (2 * q - 4 * rest);
    } else if (kind === 'diverging-branch') {
      value = whole * q * q;
      byOwn = 0;
      byCommon = 2 * whole * q;
    } else {
      const commonRoot = Math.sqrt(whole);
      const ownRoot = Math.sqrt(own);
      const difference = commonRoot * q - ownRoot * b;
      value = difference * difference;
      byOwn = -2 * ownRoot * difference;
      byCommon = 2 * commonRoot * difference;
    }
    out[0] = out[0]! + k * value;
    out[1] = out[1]! + k * byOwn * ownMoves;
    out[2] = out[2]! + k * (byCommon * commonMoves + byOwn * ownFollows);
  };
}

/** −R·Q·|Q|: the negative part of a loss coefficient. */
function fallingTerm(resistance: number): CrossTerm['evaluate'] {
  return (own, _common, out) => {
    out[0] = out[0]! + resistance * own * Math.abs(own);
    out[1] = out[1]! + 2 * resistance * Math.abs(own);
  };
}

/** What separates the true fan table from its falling envelope. */
function dipTerm(envelope: PieceTable, raw: PieceTable): CrossTerm['evaluate'] {
  return (own, _common, out) => {
    out[0] = out[0]! + tableValue(envelope, own) - tableValue(raw, own);
    out[1] = out[1]! + tableSlope(envelope, own) - tableSlope(raw, own);
  };
}

const OUT = new Float64Array(3);

/** Sets the offsets for the flows that the coming pass will arrive at, and keeps the derivatives. */
export function updateOffsets(cross: CrossTerms, state: PassState): void {
  const { records, links, headStep } = state;
  const coming = (record: number): number => {
    const at = record * STRIDE;
    const link = record * LINKS;
    const step = headStep[links[link + FROM]!]! - headStep[links[link + TO]!]!;
    return records[at + SOURCE]! + records[at + CONDUCTANCE]! * step;
  };
  clearOffsets(cross, state);
  cross.terms.forEach((term, i) => {
    OUT.fill(0);
    term.evaluate(coming(term.row), coming(term.common), OUT);
    const at = term.row * STRIDE;
    records[at + OFFSET] = records[at + OFFSET]! + OUT[0]!;
    cross.entryValue[2 * i] = OUT[2]!;
    cross.entryValue[2 * i + 1] = OUT[1]!;
  });
}

/** Takes all cross terms out of the laws (the tee-free start). */
export function clearOffsets(cross: CrossTerms, state: PassState): void {
  for (const term of cross.terms) state.records[term.row * STRIDE + OFFSET] = 0;
}

/**
 * Moves rising own slopes into the symmetric matrix, where they help; only what couples two flows or falls is
 * left to GMRES. Call after the pass and before the factorisation.
 */
export function absorbOwnSlopes(cross: CrossTerms, state: PassState): void {
  const { records, links, diagonal, lower, right } = state;
  for (let i = 0; i < cross.terms.length; i++) {
    const rise = cross.entryValue[2 * i + 1]!;
    if (rise <= 0) continue;
    const record = cross.terms[i]!.row;
    const at = record * STRIDE;
    const link = record * LINKS;
    const before = records[at + CONDUCTANCE]!;
    const sourceBefore = records[at + SOURCE]!;
    // By the conductance and not by SLOPE: a flat law has been floored there.
    const slope = 1 / before + rise;
    const change = 1 / slope - before;
    const flow = records[at + FLOW]!;
    const source = flow + (sourceBefore - flow) / (before * slope);
    const from = links[link + FROM]!;
    const to = links[link + TO]!;
    diagonal[from] = diagonal[from]! + change;
    diagonal[to] = diagonal[to]! + change;
    lower[links[link + ENTRY]!] = lower[links[link + ENTRY]!]! - change;
    right[from] = right[from]! - (source - sourceBefore);
    right[to] = right[to]! + (source - sourceBefore);
    records[at + SLOPE] = slope;
    records[at + CONDUCTANCE] = 1 / slope;
    records[at + SOURCE] = source;
    cross.entryValue[2 * i + 1] = 0;
  }
}

/** A factor of the symmetric part, as left by factorAndSolve. */
export type Factor = {
  readonly pattern: LdlPattern;
  readonly inversePivots: Float64Array;
  readonly lower: Float64Array;
};

/**
 * Turns the symmetric step in `state.headStep` into the full Newton step: changes head steps and sources.
 * @param tolerance relative accuracy of the linear solve
 */
export function correctStep(cross: CrossTerms, state: PassState, factor: Factor, tolerance: number): void {
  const { records, links, headStep } = state;
  const { columns, work } = cross;
  for (let j = 0; j < columns.length; j++) {
    const at = columns[j]! * STRIDE;
    const link = columns[j]! * LINKS;
    work.right[j] =
      records[at + SOURCE]! -
      records[at + FLOW]! +
      records[at + CONDUCTANCE]! * (headStep[links[link + FROM]!]! - headStep[links[link + TO]!]!);
  }
  solveColumns(cross, state, factor, work.right, work.solution, tolerance);
  respond(cross, state, factor, work.solution);
  for (let i = 0; i < factor.pattern.size; i++) headStep[i] = headStep[i]! + work.heads[i]!;
  for (let i = 0; i < cross.entryRow.length; i++) {
    const at = cross.entryRow[i]! * STRIDE;
    records[at + SOURCE] =
      records[at + SOURCE]! -
      records[at + CONDUCTANCE]! * cross.entryValue[i]! * work.solution[cross.entryColumn[i]!]!;
  }
}

/**
 * Solves for the changes of the flows the terms depend on: (I + P·G·T)·u = right, with T the derivatives of the
 * offsets, G the symmetric response of flows to pressure sources, P the choice of columns.
 */
export function solveColumns(
  cross: CrossTerms,
  state: PassState,
  factor: Factor,
  right: Float64Array,
  solution: Float64Array,
  tolerance: number,
): void {
  const apply = (input: Float64Array, output: Float64Array): void => {
    respond(cross, state, factor, input);
    columnFlows(cross, state, output);
    for (let i = 0; i < cross.entryRow.length; i++) {
      const column = columnIndexOfRow(cross, i);
      output[column] =
        output[column]! -
        state.records[cross.entryRow[i]! * STRIDE + CONDUCTANCE]! *
          cross.entryValue[i]! *
          input[cross.entryColumn[i]!]!;
    }
    for (let j = 0; j < output.length; j++) output[j] = input[j]! - output[j]!;
  };
  gmres(apply, right, solution, tolerance, cross.work.gmres);
}

/** The transposed system, for adjoints: (I + Tᵀ·G·Pᵀ)·v = right. */
export function solveColumnsTransposed(
  cross: CrossTerms,
  state: PassState,
  factor: Factor,
  right: Float64Array,
  solution: Float64Array,
  tolerance: number,
): void {
  const { records, links } = state;
  const apply = (input: Float64Array, output: Float64Array): void => {
    cross.work.nodes.fill(0);
    for (let j = 0; j < input.length; j++) {
      addSource(state, cross.work.nodes, cross.columns[j]!, input[j]!);
    }
    solveWithFactor(factor.pattern, factor.inversePivots, factor.lower, cross.work.nodes, cross.work.heads);
    output.set(input);
    for (let i = 0; i < cross.entryRow.length; i++) {
      const row = cross.entryRow[i]!;
      const heads = cross.work.heads;
      const spread = heads[links[row * LINKS + FROM]!]! - heads[links[row * LINKS + TO]!]!;
      const own = input[columnIndexOfRow(cross, i)]!;
      const column = cross.entryColumn[i]!;
      output[column] =
        output[column]! + cross.entryValue[i]! * records[row * STRIDE + CONDUCTANCE]! * (spread + own);
    }
  };
  gmres(apply, right, solution, tolerance, cross.work.gmres);
}

/** Column number of the record of entry i: every second entry is the row's own column. */
function columnIndexOfRow(cross: CrossTerms, i: number): number {
  return cross.entryColumn[i | 1]!;
}

/** Puts a pressure source on a record into the right-hand side of the node balance. */
export function addSource(state: PassState, nodes: Float64Array, record: number, pressure: number): void {
  const flow = state.records[record * STRIDE + CONDUCTANCE]! * pressure;
  const from = state.links[record * LINKS + FROM]!;
  const to = state.links[record * LINKS + TO]!;
  nodes[from] = nodes[from]! - flow;
  nodes[to] = nodes[to]! + flow;
}

/** Head response (work.heads) to the pressure sources −T·u of given changes u of the column flows. */
function respond(cross: CrossTerms, state: PassState, factor: Factor, change: Float64Array): void {
  const { nodes, heads } = cross.work;
  nodes.fill(0);
  for (let i = 0; i < cross.entryRow.length; i++) {
    const value = cross.entryValue[i]!;
    if (value !== 0) addSource(state, nodes, cross.entryRow[i]!, -value * change[cross.entryColumn[i]!]!);
  }
  solveWithFactor(factor.pattern, factor.inversePivots, factor.lower, nodes, heads);
}

/** Flow that work.heads drives through each column. */
function columnFlows(cross: CrossTerms, state: PassState, output: Float64Array): void {
  const { records, links } = state;
  const { heads } = cross.work;
  for (let j = 0; j < cross.columns.length; j++) {
    const record = cross.columns[j]!;
    output[j] =
      records[record * STRIDE + CONDUCTANCE]! *
      (heads[links[record * LINKS + FROM]!]! - heads[links[record * LINKS + TO]!]!);
  }
}
