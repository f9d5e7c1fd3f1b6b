/** Middle of the range of ground amplitudes over North America (5 to 14 K, from memory of the ASHRAE map), K. */
const usualAmplitude_K = 9.5;
const daysInYear = 365;

/**
 * Ground temperature, °C, at a depth (m) on a day of the year, from the annual mean (°C), the amplitude at the surface
 * (K), the day of the coldest surface and the diffusivity (m²/day). Kusuda and Achenbach (1965), form from memory.
 */
export const groundTemperature_C = (
  annualMean_C: number,
  amplitude_K: number,
  coldestDay: number,
  diffusivity_m2day: number,
  depth_m: number,
  day: number,
): number => {
  const decay = Math.sqrt(Math.PI / (daysInYear * diffusivity_m2day));
  const phase = (2 * Math.PI * (day - coldestDay)) / daysInYear - decay * depth_m;
  return annualMean_C - amplitude_K * Math.exp(-decay * depth_m) * Math.cos(phase);
};

/**
 * Design temperature of the ground beside a house, °C: annual mean air less the amplitude in heating, and in cooling
 * the annual mean, since ground deep enough to touch a basement lags the summer.
 * Heating: ASHRAE Handbook—Fundamentals 2021 ch. 18. Cooling: common practice, no source.
 */
export const designGround = (
  annualMean_C: number,
  amplitude_K = usualAmplitude_K,
): { readonly heating_C: number; readonly cooling_C: number } => ({
  heating_C: annualMean_C - amplitude_K,
  cooling_C: annualMean_C,
});
