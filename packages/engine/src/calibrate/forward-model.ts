import { type EdgeTable, type EdgeValues, edgeTable, emptyEdgeValues, setEdgeValues } from './edge-values.ts';
import { type AdjointScratch, addAdjointRow, adjointScratch, measureValue } from './observe.ts';
import { type Prior, toStandardRow, unknownCount } from './prior.ts';
import { type CompiledCondition, compileCondition, solveCondition } from './solve-condition.ts';
import type { CalibrationModel, Measure } from './types.ts';

/** A model ready to be evaluated again and again. Its arrays are shared between calls: one evaluation at a time. */
export type ForwardModel = {
  readonly model: CalibrationModel;
  readonly table: EdgeTable;
  readonly values: EdgeValues;
  readonly conditions: readonly CompiledCondition[];
  /** Observations by condition; those without one stand last. */
  readonly observed: readonly (readonly number[])[];
  readonly scratch: AdjointScratch;
  readonly row: Float64Array;
  readonly unknowns: number;
};

/** Pressures of every condition, the start of the next solve. */
export type Pressures = readonly Float64Array[];

export function forwardModel(model: CalibrationModel): ForwardModel {
  const table = edgeTable(model.edges);
  const observed = [...model.conditions, undefined].map((_, c) =>
    model.observations.flatMap(({ condition }, i) =>
      condition === c || (condition < 0 && c === model.conditions.length) ? [i] : [],
    ),
  );
  return {
    model,
    table,
    values: emptyEdgeValues(table.count),
    conditions: model.conditions.map((condition) => compileCondition(model, table, condition)),
    observed,
    scratch: adjointScratch(table.count, model.nodeCount, model.parameters.length),
    row: new Float64Array(model.parameters.length),
    unknowns: unknownCount(model),
  };
}

export const startPressures = ({ model }: ForwardModel): Float64Array[] =>
  model.conditions.map(() => new Float64Array(model.nodeCount));

/**
 * What every observation would read at θ, and how it answers to z, each divided by its standard deviation.
 * @param pressures start of the solves, and their result
 * @param jacobian m × unknowns in row order, overwritten; absent when only values are wanted
 */
export function predict(
  forward: ForwardModel,
  prior: Prior,
  theta: Float64Array,
  pressures: Pressures,
  predicted: Float64Array,
  jacobian?: Float64Array,
): void {
  const { model, table, values, scratch, row, unknowns } = forward;
  setEdgeValues(table, theta, values);
  jacobian?.fill(0);
  forward.observed.forEach((observations, c) => {
    const compiled = forward.conditions[c];
    if (observations.length === 0) return;
    const pressure = pressures[c];
    if (compiled) solveCondition(compiled, table, values, pressure!);
    for (const i of observations) {
      const { measure, sd } = model.observations[i]!;
      predicted[i] = measureValue(measure, compiled?.flow, pressure, theta, scratch) / sd;
      if (jacobian) {
        row.fill(0);
        addAdjointRow(compiled, table, values, scratch, row);
        toStandardRow(prior, row, 1 / sd, jacobian, i * unknowns);
      } else clearSlopes(scratch);
    }
  });
}

function clearSlopes({ flow, pressure, theta }: AdjointScratch): void {
  flow.fill(0);
  pressure.fill(0);
  theta.fill(0);
}

/** Values of further measures in one condition at θ, with their rows ∂/∂θ when asked for. */
export function evaluateMeasures(
  forward: ForwardModel,
  condition: number,
  measures: readonly Measure[],
  theta: Float64Array,
  pressures: Pressures,
  rows?: readonly Float64Array[],
): number[] {
  const { table, values, scratch } = forward;
  setEdgeValues(table, theta, values);
  const compiled = forward.conditions[condition]!;
  const pressure = pressures[condition]!;
  solveCondition(compiled, table, values, pressure);
  return measures.map((measure, i) => {
    const value = measureValue(measure, compiled.flow, pressure, theta, scratch);
    if (rows) {
      rows[i]!.fill(0);
      addAdjointRow(compiled, table, values, scratch, rows[i]!);
    } else clearSlopes(scratch);
    return value;
  });
}
