import { coilRating } from '../equipment/coil-rating.ts';
import { coolingOutput } from '../equipment/cooling-output.ts';
import { heatingOutput } from '../equipment/heating-output.ts';
import type { HouseModel } from './house-model.ts';
import type { Stages } from './staging.ts';
import { latentHeat_Jkg } from './terms.ts';

/** What a coil or heat exchanger does to the air that passes it while it is on. */
export type Action = Stages & { readonly keep: number; readonly add: number };
export const idle: Action = { base_W: 0, supplementary_W: 0, keep: 1, add: 0 };

/** What of a house decides what its equipment does. */
export type Equipped = Pick<HouseModel, 'survey' | 'mode' | 'loads' | 'source' | 'pressure_Pa'> & {
  readonly flow: Pick<HouseModel['flow'], 'mass_kgs'>;
};

/** Output of one system's equipment for air that enters at the given state. */
export function actionOf(house: Equipped, s: number, entering_C: number, enteringHumidity: number): Action {
  const system = house.survey.systems[s]!;
  const mass_kgs = house.source[s]! < 0 ? 0 : house.flow.mass_kgs[house.source[s]!]!;
  // Equipment is interlocked with its own fan, whatever else drives air past it.
  if (!(mass_kgs > 0) || !system.airHandler.fan.running) return idle;
  const outdoor_C = house.loads.outdoor.temperature_C;
  if (house.mode === 'heating') {
    const rated_kgs = system.equipment.cooling ? coilRating(system.equipment.cooling).massFlow_kgs : mass_kgs;
    const { output_W, supplementary_W } = heatingOutput(
      system.equipment,
      outdoor_C,
      entering_C,
      mass_kgs / rated_kgs,
    );
    return { base_W: output_W, supplementary_W, keep: 1, add: 0 };
  }
  const entering = { temperature_C: entering_C, humidityRatio: enteringHumidity };
  const cooling = coolingOutput(system.equipment, entering, mass_kgs, outdoor_C, house.pressure_Pa);
  if (!(cooling.latent_W > 0)) return { ...idle, base_W: -cooling.sensible_W };
  // The wet coil as mixing with air at the apparatus dew point: W_out = BF·W_in + (1 − BF)·W_adp.
  const leavingHumidity = enteringHumidity - cooling.latent_W / (mass_kgs * latentHeat_Jkg);
  const keep = cooling.bypassFactor;
  return {
    base_W: -cooling.sensible_W,
    supplementary_W: 0,
    keep,
    add: leavingHumidity - keep * enteringHumidity,
  };
}
