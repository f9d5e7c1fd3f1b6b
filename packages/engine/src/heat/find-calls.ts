/** What a group still lacks at the given calls; falls as its own call grows. */
export type Lack = (calls: readonly number[], group: number) => number;

/**
 * Finds the call of each thermostat group (see `staging`) at which nobody is short.
 * Each group is solved with the others held, in turn, until none moves: the groups act on each other only through
 * zones, open doors and shared rooms, so few rounds are needed.
 * @param limits the greatest call of each group.
 * @param start calls to look near first, for instance those of the last iteration.
 * @returns a call for each group; its limit when even that does not suffice, 0 when nothing is needed.
 */
export function findCalls(lack: Lack, limits: readonly number[], start: readonly number[]): number[] {
  const groups = limits.length;
  const calls = start.map((call, group) => Math.min(call, limits[group]!));
  for (let round = 0; round < 60; round++) {
    let moved = 0;
    for (let group = 0; group < groups; group++) {
      const before = calls[group]!;
      const ofGroup = (call: number) => {
        calls[group] = call;
        return lack(calls, group);
      };
      calls[group] = rootCall(ofGroup, limits[group]!, before);
      moved = Math.max(moved, Math.abs(calls[group]! - before));
    }
    if (groups === 1 || moved < 1e-12) break;
  }
  return calls;
}

/** Half of the first bracket around the start. */
const nearby = 0.02;

/** Root of a falling function between 0 and the limit: bracketed from the start outwards, then regula falsi (Illinois). */
function rootCall(lack: (call: number) => number, limit: number, start: number): number {
  if (limit === 0) return 0;
  let low = start;
  let atLow = lack(low);
  if (atLow <= 0 && start === 0) return 0;
  if (atLow >= 0 && start === limit) return limit;
  let high = low;
  let atHigh = atLow;
  if (atLow > 0) {
    for (const next of [Math.min(limit, start + nearby), limit]) {
      high = next;
      atHigh = lack(high);
      if (atHigh < 0) break;
      low = high;
      atLow = atHigh;
    }
    if (atHigh >= 0) return limit;
  } else {
    for (const next of [Math.max(0, start - nearby), 0]) {
      low = next;
      atLow = lack(low);
      if (atLow > 0) break;
      high = low;
      atHigh = atLow;
    }
    if (atLow <= 0) return 0;
  }
  const enough = 1e-11 * (Math.abs(atLow) + Math.abs(atHigh));
  let kept = 0;
  for (let step = 0; step < 100 && high - low > 1e-15 * limit; step++) {
    const middle = (low * atHigh - high * atLow) / (atHigh - atLow);
    const value = lack(middle);
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
