/** Half-width of the neighbourhood in which the two series below are good to round-off. */
export const SERIES_HALF_WIDTH = 0.03;

/** Half-width within which the first five terms are enough. */
const SHORT_HALF_WIDTH = 1e-3;

/**
 * ln(1 + t) for |t| < 0.03, error below 1e-15: far cheaper than Math.log around a remembered point. Terms are summed
 * in pairs so that the processor can work on several at once.
 */
export function logOnePlus(t: number): number {
  const square = t * t;
  if (square < SHORT_HALF_WIDTH * SHORT_HALF_WIDTH) {
    return t * (1 - t * (1 / 2) + square * (1 / 3 - t * (1 / 4)));
  }
  const low = 1 - t * (1 / 2) + square * (1 / 3 - t * (1 / 4));
  const high = 1 / 5 - t * (1 / 6) + square * (1 / 7 - t * (1 / 8) + square * (1 / 9));
  return t * (low + square * square * high);
}

/** (1 + t)^m for |t| < 0.03 by the binomial series, error below 1e-14 for |m| ≤ 3. */
export function powerOnePlus(t: number, m: number): number {
  const square = t * t;
  const c2 = m * (m - 1) * (1 / 2);
  const c3 = c2 * (m - 2) * (1 / 3);
  const c4 = c3 * (m - 3) * (1 / 4);
  if (square < SHORT_HALF_WIDTH * SHORT_HALF_WIDTH) return 1 + m * t + square * (c2 + c3 * t + square * c4);
  const c5 = c4 * (m - 4) * (1 / 5);
  const c6 = c5 * (m - 5) * (1 / 6);
  const c7 = c6 * (m - 6) * (1 / 7);
  return 1 + m * t + square * (c2 + c3 * t + square * (c4 + c5 * t + square * (c6 + c7 * t)));
}
