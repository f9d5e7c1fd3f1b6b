import { moistAirDensity } from '../psychrometrics/air-properties.ts';
import { enthalpy, saturatedTemperatureFromEnthalpy, vapourEnthalpy } from '../psychrometrics/enthalpy.ts';
import { humidityRatioFromWetBulb, saturatedHumidityRatio } from '../psychrometrics/humidity-ratio.ts';
import type { Equipment } from '../survey/types.ts';

type Cooling = NonNullable<Equipment['cooling']>;

/** What a cooling coil's rating says of it: its rated dry-air flow, and A0 of the bypass factor exp(−A0/flow). */
export type CoilRating = { readonly massFlow_kgs: number; readonly bypassConstant_kgs: number };

// Cooling rating point: 80 °F dry bulb, 67 °F wet bulb entering, at sea level.
const pressure_Pa = 101325;
const entering_C = (80 - 32) / 1.8;
const enteringRatio = humidityRatioFromWetBulb(entering_C, (67 - 32) / 1.8, pressure_Pa);
const enteringEnthalpy = enthalpy(entering_C, enteringRatio);
const enteringVolume = (1 + enteringRatio) / moistAirDensity(entering_C, enteringRatio, pressure_Pa);

/** A coil that passed less air by than this is a misprinted rating. */
const leastBypass = 0.01;
const coldestSurface_C = 0;

const ratings = new WeakMap<Cooling, CoilRating>();

/**
 * Finds the apparatus dew point that gives the rated sensible heat ratio, by halving, and from it the bypass.
 * A sensible heat ratio that no surface can give is taken as the nearest one that can.
 */
const rate = (cooling: Cooling): CoilRating => {
  const massFlow_kgs = cooling.ratedAirflow_m3s / enteringVolume;
  const drop = cooling.total_W / massFlow_kgs;
  const leavingEnthalpy = enteringEnthalpy - drop;
  const bypassAt = (surface_C: number): number => {
    const surface = enthalpy(surface_C, saturatedHumidityRatio(surface_C, pressure_Pa));
    return (leavingEnthalpy - surface) / (enteringEnthalpy - surface);
  };
  const sensibleRatioAt = (surface_C: number): number => {
    const dried =
      (1 - bypassAt(surface_C)) * (enteringRatio - saturatedHumidityRatio(surface_C, pressure_Pa));
    return 1 - (dried * vapourEnthalpy(entering_C)) / drop;
  };
  let low = coldestSurface_C;
  let high = saturatedTemperatureFromEnthalpy(leavingEnthalpy, pressure_Pa);
  for (let i = 0; i < 50 && low < high; i++) {
    const middle = (low + high) / 2;
    if (sensibleRatioAt(middle) < cooling.sensibleHeatRatio) low = middle;
    else high = middle;
  }
  const bypass = Math.max(leastBypass, bypassAt(low));
  return { massFlow_kgs, bypassConstant_kgs: -Math.log(bypass) * massFlow_kgs };
};

/**
 * Rated mass flow and bypass constant of a cooling coil from its rated total, sensible heat ratio and airflow
 * (m³/s of air at the 80/67 °F rating point, sea level). Apparatus-dew-point and bypass method, common practice.
 * Remembered for each rating, since it is asked for at every step of the heat balance.
 */
export const coilRating = (cooling: Cooling): CoilRating => {
  const known = ratings.get(cooling);
  if (known) return known;
  const fresh = rate(cooling);
  ratings.set(cooling, fresh);
  return fresh;
};
