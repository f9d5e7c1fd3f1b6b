import { normalRandom } from '../numerics/normal-random.ts';
import { seededRandom } from '../numerics/seeded-random.ts';
import { fitReadings, scaledReadings } from './fit.ts';
import type { ForwardModel, Pressures } from './forward-model.ts';
import type { WeightedHypothesis } from './search-defects.ts';

/** One house that the readings allow. */
export type Draw = { readonly theta: Float64Array; readonly pressures: Pressures };

const iterations = 6;

/**
 * Houses that the readings allow, each as probable as the next: randomised maximum likelihood, the fit of readings with
 * fresh errors around a fresh draw of the prior (Oliver, He & Reynolds 1996), the hypothesis drawn first by its weight.
 * Yields the number done.
 */
export function* posteriorSample(
  forward: ForwardModel,
  hypotheses: readonly WeightedHypothesis[],
  count: number,
  seed: number,
): Generator<number, Draw[]> {
  const uniform = seededRandom(seed);
  const normal = normalRandom(uniform);
  const readings = scaledReadings(forward);
  const draws: Draw[] = [];
  const offset = uniform();
  for (let i = 0; i < count; i++) {
    const { fit } = hypotheses[pick(hypotheses, (i + offset) / count)]!;
    const centre = new Float64Array(forward.unknowns).map(normal);
    const noisy = readings.map((value) => value + normal());
    const start = { z: fit.z, pressures: fit.pressures };
    const drawn = fitReadings(forward, fit.prior, start, {
      mostIterations: iterations,
      centre,
      readings: noisy,
      settled: 0.02,
    });
    draws.push({ theta: drawn.theta, pressures: drawn.pressures });
    if (draws.length % 4 === 0) yield draws.length;
  }
  return draws;
}

/** Index of the one at a share of the whole weight, in their order; weights add to 1. */
export function pick(weighted: readonly { readonly weight: number }[], at: number): number {
  let sum = 0;
  for (let i = 0; i < weighted.length; i++) {
    sum += weighted[i]!.weight;
    if (at < sum) return i;
  }
  return weighted.length - 1;
}
