/**
 * Shapley values of a game of n players given the worth of every coalition: the average of what a player adds over
 * all orders of joining. They add up to worth(all) − worth(none) exactly.
 * @param worth one value for each subset, indexed by bit mask; length 2ⁿ.
 * Shapley, "A value for n-person games", 1953.
 */
export function shapleyValues(players: number, worth: Float64Array): number[] {
  const weight = new Float64Array(players);
  // |S|!(n − |S| − 1)!/n! for a coalition of that size without the player
  for (let size = 0; size < players; size++) {
    weight[size] = 1 / players;
    for (let k = 1; k <= size; k++) weight[size]! *= k / (players - k);
  }
  const values = new Array<number>(players).fill(0);
  for (let mask = 0; mask < worth.length; mask++) {
    const size = bitCount(mask);
    for (let player = 0; player < players; player++) {
      const bit = 1 << player;
      if ((mask & bit) === 0) values[player]! += weight[size]! * (worth[mask | bit]! - worth[mask]!);
    }
  }
  return values;
}

function bitCount(mask: number): number {
  let count = 0;
  for (let rest = mask; rest !== 0; rest &= rest - 1) count++;
  return count;
}
