import { humidityRatioFromWetBulb, vapourPressure } from './humidity-ratio.ts';
import { saturationTemperature } from './saturation.ts';

/** Dew (or frost) point, °C, of air with the given humidity ratio. ASHRAE Handbook—Fundamentals ch. 1. */
export const dewPoint = (humidityRatio: number, pressure_Pa: number): number =>
  saturationTemperature(vapourPressure(humidityRatio, pressure_Pa));

/**
 * Thermodynamic wet bulb, °C, to 1e-7 K; the dry bulb itself when the air is saturated or beyond.
 * ASHRAE ch. 1, solved by halving the interval from dew point to dry bulb:
 * the formula jumps at 0 °C, which defeats faster methods.
 */
export const wetBulb = (dryBulb_C: number, humidityRatio: number, pressure_Pa: number): number => {
  let low = dewPoint(humidityRatio, pressure_Pa);
  let high = dryBulb_C;
  if (low >= high) return dryBulb_C;
  while (high - low > 1e-7) {
    const middle = (low + high) / 2;
    if (humidityRatioFromWetBulb(dryBulb_C, middle, pressure_Pa) > humidityRatio) high = middle;
    else low = middle;
  }
  return (low + high) / 2;
};
