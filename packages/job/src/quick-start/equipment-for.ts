import { fromSi, type Mode, toSi } from '@airledger/engine';
import type { Loads } from '@airledger/engine/loads/types';
import type { JobSystem } from '../schema/job-schema.ts';
import { assumed } from './assumed.ts';

export type Kind = JobSystem['equipment']['kind'];

/** What is added to the rooms' load for what the ducts lose, at first (common practice, no source). */
const usualMargin = 1.1;
/** Furnaces come in these outputs (common practice, no source). */
const furnaceSteps_Btuh = [32000, 40000, 48000, 56000, 64000, 76000, 95000, 114000, 135000];
const sensibleShare = 0.75;
const airflowPerTon_cfm = 400;
/** A furnace is set to about the middle of its window for the temperature rise. */
const rise_K = toSi('temperatureDifference', 50, '°F');
const airHeat = 1.2 * 1006;

export type RoomLoads = Readonly<Record<Mode, Loads>>;

/** Sensible load of some rooms in one mode, W; rooms that need nothing do not help the others. */
export const loadOf = (loads: RoomLoads, mode: Mode, rooms: ReadonlySet<string>): number =>
  loads[mode].rooms.reduce((sum, load) => sum + (rooms.has(load.room) ? Math.max(0, load.sensible_W) : 0), 0);

/**
 * Equipment for the computed load of its rooms: cooling up to the next half ton, a furnace up to the next size, a heat
 * pump as large as its cooling with the rest of the heat beside it; and the airflow that goes with it. `margin` is taken
 * above 1 when the account has shown that the ducts lose more than usual.
 */
export const equipmentFor = (
  kind: Kind,
  loads: RoomLoads,
  rooms: ReadonlySet<string>,
  margin: number,
): { readonly equipment: JobSystem['equipment']; readonly airflow_m3s: number } => {
  const factor = usualMargin * margin;
  const heat_W = loadOf(loads, 'heating', rooms) * factor;
  const cold_W = (loadOf(loads, 'cooling', rooms) * factor) / sensibleShare;
  const tons = Math.max(1.5, Math.ceil(fromSi('capacity', cold_W, 'tons') * 2) / 2);
  const cooling_m3s = toSi('airflow', tons * airflowPerTon_cfm, 'cfm');
  const needed_Btuh = fromSi('power', heat_W * 1.15, 'Btu/h');
  const furnace_Btuh =
    furnaceSteps_Btuh.find((step) => step >= needed_Btuh) ?? Math.ceil(needed_Btuh / 20000) * 20000;
  const heating_m3s = toSi('power', furnace_Btuh, 'Btu/h') / (airHeat * rise_K);
  const note = 'sized by its own load';
  const cooling = {
    total: assumed(`${tons} tons`, note),
    ratedAirflow: assumed(`${tons * airflowPerTon_cfm} cfm`),
  };
  const furnace = { output: assumed(`${furnace_Btuh} Btu/h`, note) };
  switch (kind) {
    case 'furnace with air conditioner':
      return {
        equipment: { kind, heating: furnace, cooling },
        airflow_m3s: Math.max(heating_m3s, cooling_m3s),
      };
    case 'furnace':
      return { equipment: { kind, heating: furnace }, airflow_m3s: heating_m3s };
    case 'air conditioner':
      return { equipment: { kind, cooling }, airflow_m3s: cooling_m3s };
    case 'heat pump': {
      // Resistance heat carries the whole load once: the coldest hours are its own.
      const kilowatts = Math.max(5, Math.ceil(heat_W / 2500) * 2.5);
      return {
        equipment: {
          kind,
          heating: {
            output: assumed(`${tons * 12000} Btu/h`, note),
            supplementary: assumed(`${kilowatts} kW`, note),
          },
          cooling,
        },
        airflow_m3s: cooling_m3s,
      };
    }
  }
};
