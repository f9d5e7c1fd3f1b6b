import { evaluate } from './balance.ts';
import type { Moisture } from './coil-moisture.ts';
import type { Action } from './equipment-action.ts';
import type { HouseModel } from './house-model.ts';
import type { HeatState, Stored, SystemHeat } from './types.ts';

/** The solved unknowns of one state, and how the equipment ran. */
export type Settled = {
  readonly iterations: number;
  readonly share: number;
  readonly outputs: readonly number[];
  readonly actions: readonly Action[];
  readonly calls: readonly number[];
  readonly short: readonly boolean[];
  readonly temperature: Float64Array;
  readonly moisture: Moisture;
  readonly stored: readonly Stored[];
  readonly roomGain_W: readonly number[];
};

/** Reads temperatures and humidity of every node and element out of the solved rows. */
export function describeState(house: HouseModel, settled: Settled): HeatState {
  const { survey, columns, temperatures, humidities, flow, air } = house;
  const { temperature, outputs } = settled;
  const { humidity, setFree_kgs } = settled.moisture;
  const valuesOf = (rows: Float64Array, values: Float64Array, of: readonly number[]) => {
    const found = new Float64Array(rows.length / columns.width);
    for (let i = 0; i < found.length; i++) found[i] = evaluate(rows, i, columns, values, of);
    return found;
  };
  const byPlace = (values: Float64Array) =>
    Object.fromEntries([...columns.place].map(([id, row]) => [id, values[row]!]));
  const nodeTemperature_C = valuesOf(temperatures.node, temperature, outputs);
  const leavingTemperature_C = valuesOf(temperatures.leaving, temperature, outputs);
  const nodeHumidityRatio = valuesOf(humidities.node, humidity, setFree_kgs);
  const leavingHumidityRatio = valuesOf(humidities.leaving, humidity, setFree_kgs);
  const systems = survey.systems.map((system, s): SystemHeat => {
    const e = house.source[s]!;
    const action = settled.actions[s]!;
    const call = settled.calls[s]!;
    const moves = e >= 0 && flow.mass_kgs[e]! > 0;
    const at = air.systems[s]!;
    return {
      system: system.id,
      runFraction: Math.min(1, call),
      supplementaryFraction: action.supplementary_W === 0 ? 0 : Math.min(1, Math.max(0, call - 1)),
      short: settled.short[s]!,
      baseOutput_W: action.base_W,
      supplementaryOutput_W: action.supplementary_W,
      output_W: outputs[s]!,
      moisture_kgs: Math.max(0, -setFree_kgs[s]!),
      // Air that stands still in a cabinet has no temperature of its own.
      returnTemperature_C: moves ? nodeTemperature_C[at.returning]! : house.set_C,
      supplyTemperature_C: moves ? nodeTemperature_C[at.leaving]! : house.set_C,
    };
  });
  return {
    share: settled.share,
    temperature_C: byPlace(temperature),
    humidityRatio: byPlace(humidity),
    nodeTemperature_C,
    nodeHumidityRatio,
    leavingTemperature_C,
    leavingHumidityRatio,
    stored: settled.stored,
    roomGain_W: settled.roomGain_W,
    systems,
    iterations: settled.iterations,
  };
}
