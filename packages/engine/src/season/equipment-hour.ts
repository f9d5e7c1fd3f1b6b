import { coilRating } from '../equipment/coil-rating.ts';
import { coolingOutput } from '../equipment/cooling-output.ts';
import { heatingOutput } from '../equipment/heating-output.ts';
import { coolingInputRatio, heatingInputRatio } from '../equipment/performance-curves.ts';
import { wetBulb } from '../psychrometrics/wet-bulb.ts';
import type { SystemEfficiency } from '../survey/season.ts';
import type { AirSystem } from '../survey/types.ts';

/** What one system could do in an hour if it ran all through it, W. */
export type Capability = {
  /** Sensible heat into the air: negative cools. */
  sensible_W: number;
  /** Latent heat taken out, ≥ 0. */
  latent_W: number;
  supplementary_W: number;
  /** Fuel or electricity without fan and supplementary heat. */
  input_W: number;
};

/** Greatest output and its input for the air that enters; writes into `out`. */
export type Equipment = (
  entering_C: number,
  enteringHumidity: number,
  outdoor_C: number,
  out: Capability,
) => void;

/** A furnace at its nameplate, or a heat pump by outdoor temperature, entering air and airflow. */
export const heatingEquipment = (
  system: AirSystem,
  efficiency: NonNullable<SystemEfficiency['heating']>,
  mass_kgs: number,
): Equipment => {
  const { equipment } = system;
  const rated_kgs = equipment.cooling ? coilRating(equipment.cooling).massFlow_kgs : mass_kgs;
  const isHeatPump = equipment.heating?.byOutdoorTemperature ?? false;
  return (entering_C, _, outdoor_C, out) => {
    const { output_W, supplementary_W } = heatingOutput(
      equipment,
      outdoor_C,
      entering_C,
      mass_kgs / rated_kgs,
    );
    out.sensible_W = output_W;
    out.latent_W = 0;
    out.supplementary_W = supplementary_W;
    const ratio = isHeatPump ? heatingInputRatio(entering_C, outdoor_C, mass_kgs / rated_kgs) : 1;
    out.input_W = (output_W * ratio) / efficiency.efficiency;
  };
};

/** Steps of the table, K, kg/kg, K: fine enough for 1 % of output. */
const step = { entering_K: 1, humidity: 0.0005, outdoor_K: 4 };

/**
 * A cooling coil out of a table that fills as it is asked: the coil's own equations take longer than the rest of the
 * hour, and change little between neighbours. Straight lines between the points.
 */
export const coolingEquipment = (
  system: AirSystem,
  efficiency: NonNullable<SystemEfficiency['cooling']>,
  mass_kgs: number,
  pressure_Pa: number,
): Equipment => {
  const cooling = system.equipment.cooling!;
  const flowRatio = mass_kgs / coilRating(cooling).massFlow_kgs;
  const known = new Map<number, readonly [sensible: number, latent: number, input: number]>();
  const point = (i: number, j: number, k: number) => {
    const key = (i * 1024 + j) * 1024 + k;
    let found = known.get(key);
    if (!found) {
      const entering = {
        temperature_C: i * step.entering_K - 100,
        humidityRatio: Math.max(1e-6, j * step.humidity),
      };
      const outdoor_C = k * step.outdoor_K - 100;
      const { sensible_W, latent_W, total_W } = coolingOutput(
        system.equipment,
        entering,
        mass_kgs,
        outdoor_C,
        pressure_Pa,
      );
      const wet_C = wetBulb(entering.temperature_C, entering.humidityRatio, pressure_Pa);
      const input_W = (total_W * coolingInputRatio(wet_C, outdoor_C, flowRatio)) / efficiency.cop;
      found = [sensible_W, latent_W, input_W];
      known.set(key, found);
    }
    return found;
  };
  return (entering_C, enteringHumidity, outdoor_C, out) => {
    const x = (entering_C + 100) / step.entering_K;
    const y = Math.max(0, enteringHumidity) / step.humidity;
    const z = (outdoor_C + 100) / step.outdoor_K;
    const i = Math.floor(x);
    const j = Math.floor(y);
    const k = Math.floor(z);
    let sensible = 0;
    let latent = 0;
    let input = 0;
    for (let corner = 0; corner < 8; corner++) {
      const right = corner & 1;
      const up = (corner >> 1) & 1;
      const far = corner >> 2;
      const weight = (right ? x - i : 1 - x + i) * (up ? y - j : 1 - y + j) * (far ? z - k : 1 - z + k);
      const value = point(i + right, j + up, k + far);
      sensible += weight * value[0];
      latent += weight * value[1];
      input += weight * value[2];
    }
    out.sensible_W = -sensible;
    out.latent_W = latent;
    out.supplementary_W = 0;
    out.input_W = input;
  };
};
