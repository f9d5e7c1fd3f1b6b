import { standardPressure_Pa } from './air-properties.ts';

/** What a cubic metre a second of air carries, at the pressure of the place. */
export type HeatFactors = {
  /** J/(m³·K): sensible heat for each kelvin. */
  readonly sensible: number;
  /** J/m³ for each kg/kg of humidity ratio. */
  readonly latent: number;
};

/**
 * Air heat factors for load sums at an elevation in metres: 1.23 and 3010 W per L/s at sea level,
 * in proportion to the pressure above it. ASHRAE Handbook—Fundamentals 2021 ch. 17.
 */
export const heatFactors = (elevation_m: number): HeatFactors => {
  const ratio = standardPressure_Pa(elevation_m) / standardPressure_Pa(0);
  return { sensible: 1230 * ratio, latent: 3.01e6 * ratio };
};
