import { saturationPressure } from './saturation.ts';

/** Ratio of the molar masses of water and dry air. */
const molarRatio = 0.621945;
/** Below this the formulas lose meaning; every humidity ratio stays above it. */
const leastHumidityRatio = 1e-7;

/** Humidity ratio, kg per kg of dry air, for a vapour pressure below the total pressure. ASHRAE ch. 1. */
const humidityRatioFromVapourPressure = (vapourPressure_Pa: number, pressure_Pa: number): number =>
  Math.max(leastHumidityRatio, (molarRatio * vapourPressure_Pa) / (pressure_Pa - vapourPressure_Pa));

/** Vapour pressure, Pa, of air with the given humidity ratio. ASHRAE ch. 1. */
export const vapourPressure = (humidityRatio: number, pressure_Pa: number): number => {
  const bounded = Math.max(leastHumidityRatio, humidityRatio);
  return (pressure_Pa * bounded) / (molarRatio + bounded);
};

/** Humidity ratio of saturated air. ASHRAE ch. 1. */
export const saturatedHumidityRatio = (temperature_C: number, pressure_Pa: number): number =>
  humidityRatioFromVapourPressure(saturationPressure(temperature_C), pressure_Pa);

/** Humidity ratio from relative humidity, 0 to 1. ASHRAE ch. 1. */
export const humidityRatioFromRelativeHumidity = (
  temperature_C: number,
  relativeHumidity: number,
  pressure_Pa: number,
): number =>
  humidityRatioFromVapourPressure(relativeHumidity * saturationPressure(temperature_C), pressure_Pa);

/** Humidity ratio from the dew point, °C. ASHRAE ch. 1. */
export const humidityRatioFromDewPoint = (dewPoint_C: number, pressure_Pa: number): number =>
  saturatedHumidityRatio(dewPoint_C, pressure_Pa);

/**
 * Humidity ratio from the thermodynamic wet bulb, °C, which may not exceed the dry bulb.
 * ASHRAE ch. 1, separate forms over water and ice.
 */
export const humidityRatioFromWetBulb = (
  dryBulb_C: number,
  wetBulb_C: number,
  pressure_Pa: number,
): number => {
  const saturated = saturatedHumidityRatio(wetBulb_C, pressure_Pa);
  const depression_K = dryBulb_C - wetBulb_C;
  const ratio =
    wetBulb_C >= 0
      ? ((2501 - 2.326 * wetBulb_C) * saturated - 1.006 * depression_K) /
        (2501 + 1.86 * dryBulb_C - 4.186 * wetBulb_C)
      : ((2830 - 0.24 * wetBulb_C) * saturated - 1.006 * depression_K) /
        (2830 + 1.86 * dryBulb_C - 2.1 * wetBulb_C);
  return Math.max(leastHumidityRatio, ratio);
};

/** Relative humidity, 0 to 1 (above 1 when supersaturated). ASHRAE ch. 1. */
export const relativeHumidity = (temperature_C: number, humidityRatio: number, pressure_Pa: number): number =>
  vapourPressure(humidityRatio, pressure_Pa) / saturationPressure(temperature_C);
