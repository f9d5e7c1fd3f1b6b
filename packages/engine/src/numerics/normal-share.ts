/** Standard deviations from the middle of a normal distribution to the point that 90 % lie below. */
export const ninetiethPercentile = 1.2815515655446004;

/**
 * Share of a normal distribution below z standard deviations, to 1e-7.
 * Abramowitz & Stegun, Handbook of Mathematical Functions, eq. 26.2.17.
 */
export const normalShare = (z: number): number => {
  const t = 1 / (1 + 0.2316419 * Math.abs(z));
  const series =
    t * (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
  const tail = (Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI)) * series;
  return z >= 0 ? 1 - tail : tail;
};
