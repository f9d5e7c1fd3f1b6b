import type { Equipment } from '../survey/types.ts';
import { heatingCapacityRatio } from './performance-curves.ts';

/** Heat that equipment gives, and its supplementary heat. */
export type HeatingOutput = {
  /** What the furnace or the heat pump itself gives while it runs. */
  readonly output_W: number;
  /** What the strips behind it can add. */
  readonly supplementary_W: number;
};

/** Entering air of the heating rating point, 70 °F. */
const ratedEntering_C = (70 - 32) / 1.8;

/**
 * Greatest heat the equipment gives while it runs, W; equipment without heating gives 0.
 * A heat pump (`byOutdoorTemperature`) follows the outdoor dry bulb, the entering dry bulb (°C) and the ratio of
 * its mass flow to the rated one; a furnace does not. Fan heat is not in it.
 * Curves: NREL/TP-5500-56354, which carry no defrost of their own.
 */
export const heatingOutput = (
  equipment: Equipment,
  outdoor_C: number,
  entering_C = ratedEntering_C,
  flowRatio = 1,
): HeatingOutput => {
  const heating = equipment.heating;
  if (!heating) return { output_W: 0, supplementary_W: 0 };
  const ratio = heating.byOutdoorTemperature ? heatingCapacityRatio(entering_C, outdoor_C, flowRatio) : 1;
  return { output_W: Math.max(0, heating.output_W * ratio), supplementary_W: heating.supplementary_W };
};
