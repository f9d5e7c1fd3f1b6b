/**
 * Finds the call of each thermostat group (see `staging`) at which nobody is short.
 * Each group is solved by regula falsi (Illinois) with the others held, in turn, until none moves: the groups act
 * on each other only through zones and open doors, so few rounds are needed.
 * @param short what a group still lacks at the given calls; falls as its own call grows.
 * @param limits the greatest call of each group.
 * @returns a call for each group; its limit when even that does not suffice, 0 when nothing is needed.
 */
export function findCalls(
  short: (calls: readonly number[], group: number) => number,
  limits: readonly number[],
): number[] {
  const groups = limits.length;
  const calls = limits.map(() => 0);
  for (let round = 0; round < 60; round++) {
    let moved = 0;
    for (let group = 0; group < groups; group++) {
      const before = calls[group]!;
      calls[group] = rootCall((call) => {
        calls[group] = call;
        return short(calls, group);
      }, limits[group]!);
      moved = Math.max(moved, Math.abs(calls[group]! - before));
    }
    if (groups === 1 || moved < 1e-12) break;
  }
  return calls;
}

function rootCall(short: (call: number) => number, limit: number): number {
  if (limit === 0) return 0;
  let low = 0;
  let atLow = short(low);
  if (atLow <= 0) return 0;
  let high = limit;
  let atHigh = short(high);
  if (atHigh >= 0) return limit;
  const enough = 1e-13 * (Math.abs(atLow) + Math.abs(atHigh));
  let kept = 0;
  for (let step = 0; step < 100 && high - low > 1e-15 * limit; step++) {
    const middle = (low * atHigh - high * atLow) / (atHigh - atLow);
    const value = short(middle);
    if (Math.abs(value) <= enough) return middle;
    if (value > 0) {
      low = middle;
      atLow = value;
      if (kept === 1) atHigh /= 2;
      kept = 1;
    } else {
      high = middle;
      atHigh = value;
      if (kept === -1) atLow /= 2;
      kept = -1;
    }
  }
  return (low + high) / 2;
}
