import { solveDense } from '../numerics/dense.ts';
import { evaluate, type HourBalance, solveBalance } from './balance.ts';
import type { HouseModel } from './house-model.ts';

/** A coil over the fan-on time: the air behind it has W = keep·W_in + add on average. */
export type Coil = { readonly keep: number; readonly add: number };

/** Humidity ratios of the unknowns, and the moisture that each coil sets free while the fans run, kg/s (≤ 0). */
export type Moisture = { readonly humidity: Float64Array; readonly setFree_kgs: readonly number[] };

/**
 * Solves the moisture of the house together with what its wet coils take out. Everything is affine in that, so the
 * house is solved once with dry coils and once more for each wet one, and the coils then close in a small system of
 * their own.
 */
export function solveMoisture(
  { columns, humidities, flow, source }: HouseModel,
  balance: HourBalance,
  coils: readonly Coil[],
  held: readonly number[],
): Moisture {
  const dry = coils.map(() => 0);
  const humidity = solveBalance(balance, dry, held);
  const wet = coils.flatMap(({ keep, add }, s) => (keep === 1 && add === 0 ? [] : [s]));
  if (wet.length === 0) return { humidity, setFree_kgs: dry };

  const entering = (s: number, values: Float64Array, setFree_kgs: readonly number[]) =>
    evaluate(humidities.node, flow.upper[source[s]!]!, columns, values, setFree_kgs);
  const whenDry = humidity.slice();
  const ones = wet.map((s) => coils.map((_, other) => (other === s ? 1 : 0)));
  const withOne = ones.map((one) => solveBalance(balance, one, held));
  const count = wet.length;
  const matrix = new Float64Array(count * count);
  const right = new Float64Array(count);
  wet.forEach((s, row) => {
    const { keep, add } = coils[s]!;
    const mass_kgs = flow.mass_kgs[source[s]!]!;
    const atDry = entering(s, whenDry, dry);
    right[row] = mass_kgs * ((keep - 1) * atDry + add);
    for (let k = 0; k < count; k++)
      matrix[row * count + k] =
        +(row === k) - mass_kgs * (keep - 1) * (entering(s, withOne[k]!, ones[k]!) - atDry);
  });
  const found = solveDense(matrix, right);
  wet.forEach((_, k) => {
    for (let i = 0; i < humidity.length; i++) humidity[i]! += found[k]! * (withOne[k]![i]! - whenDry[i]!);
  });
  return { humidity, setFree_kgs: coils.map((_, s) => found[wet.indexOf(s)] ?? 0) };
}
