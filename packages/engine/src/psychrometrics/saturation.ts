/** Triple point of water, where the formula over ice hands over to the one over liquid water. */
const triplePoint_C = 0.01;
const triplePoint_Pa = 611.657;

const lnOverIce = (absolute_K: number): number =>
  -5.6745359e3 / absolute_K +
  6.3925247 +
  absolute_K *
    (-9.677843e-3 + absolute_K * (6.2215701e-7 + absolute_K * (2.0747825e-9 - absolute_K * 9.484024e-13))) +
  4.1635019 * Math.log(absolute_K);

const lnOverWater = (absolute_K: number): number =>
  -5.8002206e3 / absolute_K +
  1.3914993 +
  absolute_K * (-4.8640239e-2 + absolute_K * (4.1764768e-5 - absolute_K * 1.4452093e-8)) +
  6.5459673 * Math.log(absolute_K);

const slopeOverIce = (absolute_K: number): number =>
  5.6745359e3 / absolute_K ** 2 -
  9.677843e-3 +
  absolute_K * (2 * 6.2215701e-7 + absolute_K * (3 * 2.0747825e-9 - absolute_K * 4 * 9.484024e-13)) +
  4.1635019 / absolute_K;

const slopeOverWater = (absolute_K: number): number =>
  5.8002206e3 / absolute_K ** 2 -
  4.8640239e-2 +
  absolute_K * (2 * 4.1764768e-5 - absolute_K * 3 * 1.4452093e-8) +
  6.5459673 / absolute_K;

/**
 * Saturation pressure of water vapour, Pa, −100 to 200 °C: over ice up to the triple point, over water above.
 * Hyland and Wexler (1983), as in ASHRAE Handbook—Fundamentals ch. 1.
 */
export const saturationPressure = (temperature_C: number): number => {
  const absolute_K = temperature_C + 273.15;
  return Math.exp(temperature_C <= triplePoint_C ? lnOverIce(absolute_K) : lnOverWater(absolute_K));
};

/** Slope of ln(saturation pressure), 1/K; same range and source. */
export const saturationSlope = (temperature_C: number): number => {
  const absolute_K = temperature_C + 273.15;
  return temperature_C <= triplePoint_C ? slopeOverIce(absolute_K) : slopeOverWater(absolute_K);
};

/**
 * Temperature, °C, at which water vapour of the given pressure (above 0.002 Pa) saturates: its dew or frost point.
 * Inverse of `saturationPressure` by Newton's method on its logarithm, which is almost straight in 1/T.
 */
export const saturationTemperature = (vapourPressure_Pa: number): number => {
  const target = Math.log(vapourPressure_Pa);
  const frozen = vapourPressure_Pa <= triplePoint_Pa;
  const value = frozen ? lnOverIce : lnOverWater;
  const slope = frozen ? slopeOverIce : slopeOverWater;
  // Newton in 1/T: ln p falls almost in a straight line with it.
  let inverse = 1 / (triplePoint_C + 273.15) - (target - Math.log(triplePoint_Pa)) / (frozen ? 6142 : 5420);
  for (let i = 0; i < 12; i++) {
    const absolute_K = 1 / inverse;
    const step = (value(absolute_K) - target) / (slope(absolute_K) * absolute_K ** 2);
    inverse += step;
    if (Math.abs(step) < 1e-15) break;
  }
  return 1 / inverse - 273.15;
};
