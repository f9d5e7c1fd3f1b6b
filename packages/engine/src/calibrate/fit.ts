import { choleskyFactor, choleskySolve, dot } from '../numerics/cholesky.ts';
import { type ForwardModel, type Pressures, predict } from './forward-model.ts';
import { type Prior, thetaOf } from './prior.ts';

/** Most probable unknowns given the readings under one prior, and the curvature around them. */
export type Fit = {
  readonly prior: Prior;
  readonly z: Float64Array;
  readonly theta: Float64Array;
  readonly pressures: Pressures;
  /** ½|z|² + ½ Σ((d − g)/σ)². */
  readonly objective: number;
  /** −objective − ½ ln det(J·Jᵀ + R). */
  readonly logEvidence: number;
  /** The same as the straight line through this point foretells it for the best z. */
  readonly linearEvidence: number;
  /** What the observations would read, over σ. */
  readonly predicted: Float64Array;
  /** ∂g/∂z over σ, m × unknowns. */
  readonly jacobian: Float64Array;
  /** Lower Cholesky factor of J·Jᵀ + 1 (scaled by σ). */
  readonly factor: Float64Array;
  readonly iterations: number;
  readonly converged: boolean;
};

export type FitStart = {
  readonly z: Float64Array;
  readonly pressures: Pressures;
};

export type FitOptions = {
  readonly mostIterations: number;
  /** Centre of the prior in z, for a randomised fit; 0 when absent. */
  readonly centre?: Float64Array;
  /** Readings over σ in place of those of the model, for a randomised fit. */
  readonly readings?: Float64Array;
  /** The fit has settled when no z would move by more; 1e-3 when absent. */
  readonly settled?: number;
};

/** Longest change of any z in one step. */
const longestStep = 2.5;
const mostHalvings = 8;

export const scaledReadings = ({ model }: ForwardModel): Float64Array =>
  Float64Array.from(model.observations, ({ value, sd }) => value / sd);

/**
 * Minimises ½|z − centre|² + ½ Σ((d − g(z))/σ)² by Gauss–Newton in the space of the readings, of which there are fewer
 * than unknowns: z⁺ = centre + Jᵀ·(J·Jᵀ + 1)⁻¹·(d − g + J·(z − centre)), the step limited and halved until the
 * objective falls (Tarantola, Inverse Problem Theory, 2005, ch. 3).
 */
export function fitReadings(forward: ForwardModel, prior: Prior, start: FitStart, options: FitOptions): Fit {
  const n = forward.unknowns;
  const settled = options.settled ?? 1e-3;
  const readings = options.readings ?? scaledReadings(forward);
  const m = readings.length;
  const centre = options.centre ?? new Float64Array(n);
  let pressures = start.pressures.map((pressure) => pressure.slice());
  let tried = start.pressures.map((pressure) => pressure.slice());
  let z = start.z.slice();
  let next = new Float64Array(n);
  const theta = new Float64Array(forward.model.parameters.length);
  let [predicted, triedPredicted] = [new Float64Array(m), new Float64Array(m)];
  let [jacobian, triedJacobian] = [new Float64Array(m * n), new Float64Array(m * n)];
  const factor = new Float64Array(m * m);
  const weights = new Float64Array(m);
  const unexplained = new Float64Array(m);
  const step = new Float64Array(n);

  const evaluate = (at: Float64Array, from: Float64Array[], g: Float64Array, j: Float64Array) => {
    thetaOf(prior, at, theta);
    predict(forward, prior, theta, from, g, j);
    let sum = 0;
    for (let k = 0; k < n; k++) sum += (at[k]! - centre[k]!) ** 2;
    for (let i = 0; i < m; i++) sum += (readings[i]! - g[i]!) ** 2;
    return sum / 2;
  };

  /** What is left to be explained, d − g + J·(z − centre), into `weights`, then (J·Jᵀ + 1)⁻¹ of it. */
  const weigh = (): number => {
    for (let i = 0; i < m; i++) {
      let sum = readings[i]! - predicted[i]!;
      for (let k = 0; k < n; k++) sum += jacobian[i * n + k]! * (z[k]! - centre[k]!);
      unexplained[i] = sum;
      weights[i] = sum;
    }
    choleskySolve(factor, m, weights);
    return dot(unexplained, weights) / 2;
  };

  let objective = evaluate(z, pressures, predicted, jacobian);
  let logDeterminant = gram(jacobian, m, n, factor);
  let iterations = 0;
  let converged = false;
  while (iterations < options.mostIterations) {
    iterations++;
    weigh();
    for (let k = 0; k < n; k++) step[k] = centre[k]! - z[k]!;
    for (let i = 0; i < m; i++) {
      const weight = weights[i]!;
      for (let k = 0; k < n; k++) step[k]! += weight * jacobian[i * n + k]!;
    }
    let longest = 0;
    for (let k = 0; k < n; k++) longest = Math.max(longest, Math.abs(step[k]!));
    if (longest < settled) {
      converged = true;
      break;
    }
    let share = Math.min(1, longestStep / longest);
    let fell = false;
    for (let halving = 0; halving < mostHalvings; halving++, share /= 2) {
      for (let k = 0; k < n; k++) next[k] = z[k]! + share * step[k]!;
      pressures.forEach((pressure, c) => {
        tried[c]!.set(pressure);
      });
      const there = evaluate(next, tried, triedPredicted, triedJacobian);
      if (there > objective + 1e-12 * Math.abs(objective)) continue;
      [z, next] = [next, z];
      [pressures, tried] = [tried, pressures];
      [predicted, triedPredicted] = [triedPredicted, predicted];
      [jacobian, triedJacobian] = [triedJacobian, jacobian];
      objective = there;
      fell = true;
      break;
    }
    if (!fell) {
      converged = longest < 1e-3;
      break;
    }
    logDeterminant = gram(jacobian, m, n, factor);
  }
  thetaOf(prior, z, theta);
  let logScale = 0;
  for (const { sd } of forward.model.observations) logScale += Math.log(sd);
  return {
    prior,
    z,
    theta,
    pressures,
    objective,
    logEvidence: -objective - logDeterminant / 2 - logScale,
    linearEvidence: -weigh() - logDeterminant / 2 - logScale,
    predicted,
    jacobian,
    factor,
    iterations,
    converged,
  };
}

/** Factor of J·Jᵀ + 1 into `factor`; its ln det is returned. */
function gram(jacobian: Float64Array, m: number, n: number, factor: Float64Array): number {
  for (let i = 0; i < m; i++) {
    const own = i * n;
    for (let j = 0; j <= i; j++) {
      const other = j * n;
      let sum = i === j ? 1 : 0;
      for (let k = 0; k < n; k++) sum += jacobian[own + k]! * jacobian[other + k]!;
      factor[i * m + j] = sum;
    }
  }
  return choleskyFactor(factor, m);
}
