import { specificHeat } from '../psychrometrics/air-properties.ts';

/**
 * Airflow that takes up a heat with a rise of temperature, m³/s at the reference density: Q = H/(ρ·cp·ΔT), the
 * sensible heat equation (ASHRAE Handbook—Fundamentals ch. 18, from memory). In standard air 1 cfm takes up 1.1 Btu/h
 * for each °F. Heat and temperatures say how much mass moves, so thin air at altitude enters by the density alone.
 * Only heating has it: a coil that cools takes moisture too.
 * @param heat_W what reaches the air between the two probes, above 0
 * @param rise_K supply less return temperature, above 0
 * @param humidityRatio kg per kg of dry air
 * @param density_kgm3 dry air of the site that flows are counted in, 0.6 to 1.6 kg/m³
 * @throws RangeError for a heat or a rise at or below 0
 */
export function flowByTemperatureRise(
  heat_W: number,
  rise_K: number,
  humidityRatio: number,
  density_kgm3: number,
): number {
  if (!(heat_W > 0 && rise_K > 0))
    throw new RangeError('a flow by temperature rise needs heat and a rise above 0');
  return heat_W / (density_kgm3 * specificHeat(humidityRatio) * rise_K);
}

/**
 * Heat that a clocked burner gives the air, W: H = V·q/t·η.
 * @param volume_m3 gas that the meter counted in `time_s`, both above 0
 * @param heatingValue_Jm3 higher heating value of a volume as the meter counts it: less where air is thin
 * @param efficiency share that reaches the air while the burner runs steadily, by its higher heating value
 */
export const clockedHeat_W = (
  volume_m3: number,
  time_s: number,
  heatingValue_Jm3: number,
  efficiency: number,
): number => ((volume_m3 * heatingValue_Jm3) / time_s) * efficiency;
