import { factorAndSolve, solveWithFactor } from '../numerics/ldl.ts';
import { type CompiledNetwork, holdFlow } from './compile.ts';
import {
  absorbOwnSlopes,
  addSource,
  type CrossTerms,
  type Factor,
  solveColumns,
  solveColumnsTransposed,
} from './cross-terms.ts';
import { type PassState, pass } from './pass.ts';
import { RECORD } from './record.ts';

const { CONDUCTANCE, FROM, LINKS, STRIDE, TO } = RECORD;

/** Accuracy of the linear solve where tees or static-pressure leaks couple flows. */
const TOLERANCE = 1e-13;

/** Derivatives at a solved state; they keep to that state whatever is solved afterwards. */
export type FlowSensitivity = {
  /** Change of every flow (m³/s) and every node pressure (Pa) for one more pascal of drop in an element. */
  forward(element: number): { readonly flow: Float64Array; readonly pressure: Float64Array };
  /** Change of one flow for one more pascal of drop in each element, (m³/s)/Pa. */
  adjointOfFlow(element: number): Float64Array;
  /** Change of one node's pressure for one more pascal of drop in each element, Pa/Pa. */
  adjointOfPressure(node: number): Float64Array;
};

/**
 * Derivatives of a solved network by the drops of its elements, from the network's own factor at the final state.
 * With an element's law Δp(Q; θ), dx/dθ = (change for one pascal)·∂Δp/∂θ at fixed Q. For Δp = R·Q^m and
 * θ = ln R, ∂Δp/∂θ is the drop itself; for a leak Q = C·Δpⁿ and θ = ln C it is −Δp/n. An adjoint costs one or two
 * triangular solves (a few more with cross terms), however many parameters there are.
 *
 * Elements set aside and imposed flows have zeros. @throws Error when the network has not been solved
 */
export function flowSensitivity(compiled: CompiledNetwork): FlowSensitivity {
  if (!compiled.solved) throw new Error('sensitivities need a solved network');
  const { pattern, links, place, source, active, step } = compiled;
  const state: PassState = {
    ...compiled,
    records: compiled.records.slice(),
    diagonal: compiled.diagonal.slice(),
    lower: compiled.lower.slice(),
    right: compiled.right.slice(),
    sums: compiled.sums.slice(),
  };
  const records = state.records;
  const cross: CrossTerms | undefined =
    compiled.cross === undefined
      ? undefined
      : { ...compiled.cross, entryValue: compiled.cross.entryValue.slice() };
  if (cross !== undefined) absorbOwnSlopes(cross, state);
  else {
    // A proven last step has left the tangents where they were before it.
    for (let record = 0; record < active; record++) holdFlow(records, record * STRIDE);
    pass(state);
  }
  for (const node of compiled.closedNodes) state.diagonal[node] = 1;
  const nodes = new Float64Array(step.length);
  const heads = new Float64Array(step.length);
  factorAndSolve(pattern, state.diagonal, state.lower, nodes, heads);
  const factor: Factor = { pattern, inversePivots: state.diagonal, lower: state.lower };

  const spread = (record: number) =>
    heads[links[record * LINKS + FROM]!]! - heads[links[record * LINKS + TO]!]!;
  const conductance = (record: number) => records[record * STRIDE + CONDUCTANCE]!;
  /** Leaves in `heads` the response to pressure sources, one for each record. */
  const respondTo = (sources: Float64Array): void => {
    nodes.fill(0);
    for (let record = 0; record < active; record++) {
      if (sources[record] !== 0) addSource(state, nodes, record, sources[record]!);
    }
    solveWithFactor(pattern, state.diagonal, state.lower, nodes, heads);
  };
  const flowOf = (record: number, sources: Float64Array) =>
    conductance(record) * (spread(record) + sources[record]!);
  /** By record to by element. */
  const byElement = (value: (record: number) => number): Float64Array => {
    const result = new Float64Array(place.length);
    for (let record = 0; record < active; record++) result[source[record]!] = value(record);
    return result;
  };
  /** Tᵀ: what the offsets' derivatives make of one number for each record, gathered by column. */
  const gather = (terms: CrossTerms, value: (record: number) => number): Float64Array => {
    const columns = new Float64Array(terms.columns.length);
    terms.entryRow.forEach((row, i) => {
      const column = terms.entryColumn[i]!;
      columns[column] = columns[column]! + terms.entryValue[i]! * value(row);
    });
    return columns;
  };

  const forward = (element: number) => {
    const sources = new Float64Array(active);
    const record = place[element]!;
    if (record >= 0) sources[record] = -1;
    respondTo(sources);
    if (cross !== undefined && record >= 0) {
      const right = Float64Array.from(cross.columns, (column) => flowOf(column, sources));
      const change = new Float64Array(right.length);
      solveColumns(cross, state, factor, right, change, TOLERANCE);
      cross.entryRow.forEach((row, i) => {
        sources[row] = sources[row]! - cross.entryValue[i]! * change[cross.entryColumn[i]!]!;
      });
      respondTo(sources);
    }
    return {
      flow: byElement((at) => flowOf(at, sources)),
      pressure: Float64Array.from(step, (at) => heads[at]!),
    };
  };

  const adjointOfFlow = (element: number) => {
    const weights = new Float64Array(active);
    const record = place[element]!;
    if (record >= 0) weights[record] = 1;
    respondTo(weights);
    if (cross !== undefined) {
      const right = gather(cross, (row) => -flowOf(row, weights));
      const change = new Float64Array(right.length);
      solveColumnsTransposed(cross, state, factor, right, change, TOLERANCE);
      cross.columns.forEach((column, j) => {
        weights[column] = weights[column]! + change[j]!;
      });
      respondTo(weights);
    }
    return byElement((at) => -flowOf(at, weights));
  };

  const adjointOfPressure = (node: number) => {
    nodes.fill(0);
    nodes[step[node]!] = 1;
    solveWithFactor(pattern, state.diagonal, state.lower, nodes, heads);
    const direct = new Float64Array(active);
    // A fixed node's pressure does not move: its heads stay zero.
    for (let record = 0; record < active && step[node]! < pattern.size; record++) {
      direct[record] = -conductance(record) * spread(record);
    }
    const weights = new Float64Array(active);
    if (cross !== undefined) {
      const right = gather(cross, (row) => direct[row]!);
      const change = new Float64Array(right.length);
      solveColumnsTransposed(cross, state, factor, right, change, TOLERANCE);
      cross.columns.forEach((column, j) => {
        weights[column] = change[j]!;
      });
    }
    respondTo(weights);
    return byElement((at) => flowOf(at, weights) - direct[at]!);
  };

  return { forward, adjointOfFlow, adjointOfPressure };
}
