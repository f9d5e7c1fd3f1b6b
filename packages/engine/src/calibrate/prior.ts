import type { CalibrationModel } from './types.ts';

/** The prior in force: ordinary, with some places taken as defective, or widened to hold both. */
export type Prior = {
  readonly mean: Float64Array;
  readonly sd: Float64Array;
  /** Index of the common factor of each unknown, −1 for none, and its weight. */
  readonly group: Int32Array;
  readonly groupSd: Float64Array;
};

/** Length of z: one for each unknown, one for each common factor. */
export const unknownCount = ({ parameters, groupCount }: CalibrationModel): number =>
  parameters.length + groupCount;

/** Ordinary prior, with the places in `defects` replaced by their defective one, which knows no common factor. */
export function priorOf(model: CalibrationModel, defects: readonly number[] = []): Prior {
  const prior: Prior = {
    mean: Float64Array.from(model.parameters, ({ mean }) => mean),
    sd: Float64Array.from(model.parameters, ({ sd }) => sd),
    group: Int32Array.from(model.parameters, ({ group }) => group?.index ?? -1),
    groupSd: Float64Array.from(model.parameters, ({ group }) => group?.sd ?? 0),
  };
  for (const k of defects) {
    const { defect } = model.parameters[k]!;
    if (!defect) throw new RangeError(`'${model.parameters[k]!.id}' has no defective state`);
    prior.mean[k] = defect.mean;
    prior.sd[k] = defect.sd;
    prior.group[k] = -1;
    prior.groupSd[k] = 0;
  }
  return prior;
}

/** One log-normal with mean and variance of both states together: for questions that must not depend on a search. */
export function widePrior(model: CalibrationModel): Prior {
  const prior = priorOf(model);
  model.parameters.forEach(({ mean, sd, defect }, k) => {
    if (!defect) return;
    const p = defect.probability;
    prior.mean[k] = (1 - p) * mean + p * defect.mean;
    prior.sd[k] = Math.sqrt((1 - p) * sd ** 2 + p * defect.sd ** 2 + p * (1 - p) * (defect.mean - mean) ** 2);
  });
  return prior;
}

/** ln of the odds of the places in a hypothesis. */
export const logOdds = (model: CalibrationModel, defects: readonly number[]): number =>
  defects.reduce((sum, k) => {
    const p = model.parameters[k]!.defect!.probability;
    return sum + Math.log(p / (1 - p));
  }, 0);

/** θ of z. */
export function thetaOf(prior: Prior, z: Float64Array, theta: Float64Array): void {
  const n = theta.length;
  for (let k = 0; k < n; k++) {
    const group = prior.group[k]!;
    theta[k] = prior.mean[k]! + prior.sd[k]! * z[k]! + (group < 0 ? 0 : prior.groupSd[k]! * z[n + group]!);
  }
}

/** A row ∂/∂θ as a row ∂/∂z, times `scale`. */
export function toStandardRow(
  prior: Prior,
  row: Float64Array,
  scale: number,
  out: Float64Array,
  at: number,
): void {
  const n = row.length;
  for (let k = 0; k < n; k++) {
    const slope = row[k]! * scale;
    out[at + k] = slope * prior.sd[k]!;
    const group = prior.group[k]!;
    if (group >= 0) out[at + n + group]! += slope * prior.groupSd[k]!;
  }
}
