import {
  enthalpy,
  saturatedEnthalpy,
  saturatedTemperatureFromEnthalpy,
  vapourEnthalpy,
} from '../psychrometrics/enthalpy.ts';
import { saturatedHumidityRatio } from '../psychrometrics/humidity-ratio.ts';
import { wetBulb } from '../psychrometrics/wet-bulb.ts';
import type { Equipment } from '../survey/types.ts';
import { type CoilRating, coilRating } from './coil-rating.ts';
import { coolingCapacityRatio } from './performance-curves.ts';

/** State of moist air. */
export type MoistAir = { readonly temperature_C: number; readonly humidityRatio: number };

/** What a cooling coil takes out of the air. */
export type CoolingOutput = {
  readonly total_W: number;
  readonly sensible_W: number;
  readonly latent_W: number;
  readonly leaving: MoistAir;
  /** Effective temperature of the coil's surface; the entering temperature when nothing is cooled. */
  readonly apparatusDewPoint_C: number;
  readonly bypassFactor: number;
};

/** A surface at or below this grows frost; the output that a smaller flow could still carry away ends there. */
const frost_C = 0;

type Coil = {
  readonly rated_W: number;
  readonly rating: CoilRating;
  readonly massFlow_kgs: number;
  readonly bypass: number;
  readonly outdoor_C: number;
  readonly pressure_Pa: number;
  readonly frostEnthalpy: number;
};

/** Total output of the coil if it is wet, W. */
const wetTotal = (coil: Coil, temperature_C: number, humidityRatio: number): number => {
  const entering = wetBulb(temperature_C, humidityRatio, coil.pressure_Pa);
  const flowRatio = coil.massFlow_kgs / coil.rating.massFlow_kgs;
  const byCurve = coil.rated_W * coolingCapacityRatio(entering, coil.outdoor_C, flowRatio);
  const byFrost =
    coil.massFlow_kgs * (1 - coil.bypass) * (enthalpy(temperature_C, humidityRatio) - coil.frostEnthalpy);
  return Math.max(0, Math.min(byCurve, byFrost));
};

const surfaceTemperature = (coil: Coil, enteringEnthalpy: number, total_W: number): number =>
  saturatedTemperatureFromEnthalpy(
    enteringEnthalpy - total_W / (coil.massFlow_kgs * (1 - coil.bypass)),
    coil.pressure_Pa,
  );

/** Air of the given enthalpy and humidity; what would be fog (air that entered almost saturated) falls out as water. */
const onMixingLine = (leavingEnthalpy: number, leavingRatio: number, pressure_Pa: number): MoistAir => {
  const temperature_C = (leavingEnthalpy - 2.501e6 * leavingRatio) / (1006 + 1860 * leavingRatio);
  if (leavingRatio <= saturatedHumidityRatio(temperature_C, pressure_Pa))
    return { temperature_C, humidityRatio: leavingRatio };
  const saturated_C = saturatedTemperatureFromEnthalpy(leavingEnthalpy, pressure_Pa);
  return {
    temperature_C: saturated_C,
    humidityRatio: (leavingEnthalpy - 1006 * saturated_C) / vapourEnthalpy(saturated_C),
  };
};

/**
 * Output of a dry coil: a dry coil cannot tell how dry its air is, so it gives what it would with air just humid
 * enough to start condensing. Found between the true humidity and saturation by the Illinois rule.
 */
const dryTotal = (coil: Coil, temperature_C: number, humidityRatio: number, excessThere: number): number => {
  const excess = (ratio: number, total_W: number): number =>
    saturatedHumidityRatio(
      surfaceTemperature(coil, enthalpy(temperature_C, ratio), total_W),
      coil.pressure_Pa,
    ) - ratio;
  let low = humidityRatio;
  let lowExcess = excessThere;
  let high = saturatedHumidityRatio(temperature_C, coil.pressure_Pa);
  let highExcess = excess(high, wetTotal(coil, temperature_C, high));
  let total_W = 0;
  for (let i = 0; i < 40; i++) {
    const middle = high - (highExcess * (high - low)) / (highExcess - lowExcess);
    total_W = wetTotal(coil, temperature_C, middle);
    const found = excess(middle, total_W);
    if (Math.abs(found) < 1e-9) break;
    if (found > 0 === highExcess > 0) lowExcess /= 2;
    else {
      low = high;
      lowExcess = highExcess;
    }
    high = middle;
    highExcess = found;
  }
  return total_W;
};

/**
 * What the cooling coil takes from the air while it runs, split into sensible and latent, and the air that leaves.
 *
 * Entering air in °C and kg/kg; mass flow in kg of dry air per second, above 0 (at 0 or below nothing is cooled);
 * outdoor dry bulb in °C; pressure in Pa. Equipment without cooling gives 0. Fan heat is not in it.
 * sensible + latent = total = flow × enthalpy drop, exactly.
 * Capacity: NREL/TP-5500-56354 curves. Split: apparatus dew point with bypass factor exp(−A0/flow).
 */
export const coolingOutput = (
  equipment: Equipment,
  entering: MoistAir,
  massFlow_kgs: number,
  outdoor_C: number,
  pressure_Pa: number,
): CoolingOutput => {
  const { temperature_C, humidityRatio } = entering;
  const idle: CoolingOutput = {
    total_W: 0,
    sensible_W: 0,
    latent_W: 0,
    leaving: entering,
    apparatusDewPoint_C: temperature_C,
    bypassFactor: 0,
  };
  if (!equipment.cooling || !(massFlow_kgs > 0)) return idle;
  const rating = coilRating(equipment.cooling);
  const bypass = Math.exp(-rating.bypassConstant_kgs / massFlow_kgs);
  const coil: Coil = {
    rated_W: equipment.cooling.total_W,
    rating,
    massFlow_kgs,
    bypass,
    outdoor_C,
    pressure_Pa,
    frostEnthalpy: saturatedEnthalpy(frost_C, pressure_Pa),
  };
  const enteringEnthalpy = enthalpy(temperature_C, humidityRatio);
  const wet_W = wetTotal(coil, temperature_C, humidityRatio);
  if (wet_W === 0 && temperature_C <= frost_C) return idle;
  const wetSurface_C = surfaceTemperature(coil, enteringEnthalpy, wet_W);
  const wetSurfaceRatio = saturatedHumidityRatio(wetSurface_C, pressure_Pa);

  if (wetSurfaceRatio < humidityRatio) {
    const leavingEnthalpy = enteringEnthalpy - wet_W / massFlow_kgs;
    const leaving = onMixingLine(
      leavingEnthalpy,
      humidityRatio - (1 - bypass) * (humidityRatio - wetSurfaceRatio),
      pressure_Pa,
    );
    const sensible_W = massFlow_kgs * (enthalpy(temperature_C, leaving.humidityRatio) - leavingEnthalpy);
    return {
      total_W: wet_W,
      sensible_W,
      latent_W: wet_W - sensible_W,
      leaving,
      apparatusDewPoint_C: wetSurface_C,
      bypassFactor: bypass,
    };
  }

  const dry_W = dryTotal(coil, temperature_C, humidityRatio, wetSurfaceRatio - humidityRatio);
  const drop_K = dry_W / (massFlow_kgs * (1006 + 1860 * humidityRatio));
  return {
    total_W: dry_W,
    sensible_W: dry_W,
    latent_W: 0,
    leaving: { temperature_C: temperature_C - drop_K, humidityRatio },
    apparatusDewPoint_C: temperature_C - drop_K / (1 - bypass),
    bypassFactor: bypass,
  };
};
