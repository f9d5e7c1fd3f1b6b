import { saturatedHumidityRatio } from './humidity-ratio.ts';
import { saturationPressure, saturationSlope } from './saturation.ts';

/** Enthalpy of moist air, J per kg of dry air, from 0 °C dry air and liquid water. ASHRAE ch. 1. */
export const enthalpy = (temperature_C: number, humidityRatio: number): number =>
  1006 * temperature_C + humidityRatio * (2.501e6 + 1860 * temperature_C);

/** Enthalpy of water vapour at a temperature, J/kg: what a kilogram of moisture brings. ASHRAE ch. 1. */
export const vapourEnthalpy = (temperature_C: number): number => 2.501e6 + 1860 * temperature_C;

/** Enthalpy of saturated air, J per kg of dry air. */
export const saturatedEnthalpy = (temperature_C: number, pressure_Pa: number): number =>
  enthalpy(temperature_C, saturatedHumidityRatio(temperature_C, pressure_Pa));

/**
 * Temperature, °C, at which saturated air has the given enthalpy (J/kg, air of about −40 to 60 °C).
 * Newton's method: saturated enthalpy rises and curves upward, so it converges from above without bracketing.
 */
export const saturatedTemperatureFromEnthalpy = (target_Jkg: number, pressure_Pa: number): number => {
  let temperature_C = Math.min(60, Math.max(-40, target_Jkg / 3000));
  for (let i = 0; i < 30; i++) {
    const saturated = saturatedHumidityRatio(temperature_C, pressure_Pa);
    const vapour_Pa = saturationPressure(temperature_C);
    const humiditySlope =
      (saturated * saturationSlope(temperature_C) * pressure_Pa) / (pressure_Pa - vapour_Pa);
    const slope = 1006 + 1860 * saturated + humiditySlope * vapourEnthalpy(temperature_C);
    const step = (enthalpy(temperature_C, saturated) - target_Jkg) / slope;
    temperature_C -= step;
    if (Math.abs(step) < 1e-9) break;
  }
  return temperature_C;
};
