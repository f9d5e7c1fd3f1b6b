import { moistAirDensity, standardPressure_Pa } from '../psychrometrics/air-properties.ts';
import {
  humidityRatioFromRelativeHumidity,
  humidityRatioFromWetBulb,
} from '../psychrometrics/humidity-ratio.ts';
import type { Mode, Survey } from '../survey/types.ts';
import type { AirState } from './types.ts';

/** Winter design air is near saturation; its moisture is too little to matter (common practice, no source). */
const winterRelativeHumidity = 0.8;

/** Outdoor and indoor air on the design day at the pressure of the site. */
export const designAir = (
  survey: Survey,
  mode: Mode,
): { readonly outdoor: AirState; readonly indoor: AirState } => {
  const { site, indoor } = survey;
  const pressure_Pa = standardPressure_Pa(site.elevation_m);
  const state = (temperature_C: number, humidityRatio: number): AirState => ({
    temperature_C,
    humidityRatio,
    density_kgm3: moistAirDensity(temperature_C, humidityRatio, pressure_Pa),
  });
  const atRelativeHumidity = (temperature_C: number, relativeHumidity: number): AirState =>
    state(temperature_C, humidityRatioFromRelativeHumidity(temperature_C, relativeHumidity, pressure_Pa));
  return mode === 'heating'
    ? {
        outdoor: atRelativeHumidity(site.heatingDryBulb_C, winterRelativeHumidity),
        indoor: atRelativeHumidity(indoor.heating_C, indoor.heatingRelativeHumidity),
      }
    : {
        outdoor: state(
          site.coolingDryBulb_C,
          humidityRatioFromWetBulb(site.coolingDryBulb_C, site.coolingWetBulb_C, pressure_Pa),
        ),
        indoor: atRelativeHumidity(indoor.cooling_C, indoor.coolingRelativeHumidity),
      };
};
