import { solveDense } from '../numerics/dense.ts';
import { evaluate, type HourBalance, solveBalance } from './balance.ts';
import type { HouseModel } from './house-model.ts';

/** A coil over the fan-on time: the air behind it has W = keep·W_in + add on average. */
export type Coil = { readonly keep: number; readonly add: number };

/** Humidity ratios of the unknowns, and of the air behind each coil. */
export type Moisture = { readonly humidity: Float64Array; readonly behindCoils: readonly number[] };

/**
 * Solves the moisture of the house together with what its wet coils take out. Everything is affine in the humidities
 * behind the coils, so the house is solved once with dry air behind them all and once for each, and the coils then
 * close in a small system of their own.
 */
export function solveMoisture(
  { columns, humidities, flow, source }: HouseModel,
  balance: HourBalance,
  coils: readonly Coil[],
  held: readonly number[],
): Moisture {
  const count = coils.length;
  const entering = (s: number, values: Float64Array, behind: readonly number[]) =>
    source[s]! < 0 ? 0 : evaluate(humidities.node, flow.upper[source[s]!]!, columns, values, behind);
  const dry = coils.map(() => 0);
  const humidity = solveBalance(balance, dry, held);
  const ones = coils.map((_, s) => coils.map((__, other) => (other === s ? 1 : 0)));
  const withOne = ones.map((one) => solveBalance(balance, one, held));
  const matrix = new Float64Array(count * count);
  const right = new Float64Array(count);
  coils.forEach(({ keep, add }, row) => {
    const whenDry = entering(row, humidity, dry);
    right[row] = keep * whenDry + add;
    for (let s = 0; s < count; s++)
      matrix[row * count + s] = +(row === s) - keep * (entering(row, withOne[s]!, ones[s]!) - whenDry);
  });
  const behindCoils = [...solveDense(matrix, right)];
  const whenDry = humidity.slice();
  behindCoils.forEach((behind, s) => {
    for (let k = 0; k < humidity.length; k++) humidity[k]! += behind * (withOne[s]![k]! - whenDry[k]!);
  });
  return { humidity, behindCoils };
}
