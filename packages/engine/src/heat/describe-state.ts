import { evaluate } from './balance.ts';
import type { Carried } from './carry.ts';
import type { HouseModel } from './house-model.ts';
import type { HeatState, SystemHeat } from './types.ts';

/** The solved unknowns of one state, and how the equipment ran. */
export type Settled = {
  readonly iterations: number;
  readonly share: number;
  readonly outputs: readonly number[];
  readonly full: readonly number[];
  readonly runFractions: readonly number[];
  readonly temperature: Float64Array;
  readonly humidity: Float64Array;
  readonly humidityRows: Carried;
  readonly roomGain_W: readonly number[];
  readonly atLimit: (s: number) => boolean;
};

/** Reads temperatures and humidity of every node and element out of the solved rows. */
export function describeState(house: HouseModel, settled: Settled): HeatState {
  const { survey, columns, temperatures, flow, air } = house;
  const { temperature, humidity, humidityRows, outputs } = settled;
  const nothing = outputs.map(() => 0);
  const temperatureOf = (rows: Float64Array, count: number) =>
    Float64Array.from({ length: count }, (_, index) => evaluate(rows, index, columns, temperature, outputs));
  const humidityOf = (rows: Float64Array, count: number) =>
    Float64Array.from({ length: count }, (_, index) => evaluate(rows, index, columns, humidity, nothing));
  const byPlace = (values: Float64Array) =>
    Object.fromEntries([...columns.place].map(([id, row]) => [id, values[row]!]));
  const nodeTemperature_C = temperatureOf(temperatures.node, air.nodes.length);
  const leavingTemperature_C = temperatureOf(temperatures.leaving, air.elements.length);
  const nodeHumidityRatio = humidityOf(humidityRows.node, air.nodes.length);
  const leavingHumidityRatio = humidityOf(humidityRows.leaving, air.elements.length);
  const systems = survey.systems.map((system, s): SystemHeat => {
    const e = house.source[s]!;
    const enters = e < 0 ? Number.NaN : flow.upper[e]!;
    return {
      system: system.id,
      runFraction: settled.runFractions[s]!,
      short: settled.atLimit(s),
      fullOutput_W: settled.full[s]!,
      output_W: outputs[s]!,
      moisture_kgs: e < 0 ? 0 : flow.mass_kgs[e]! * (nodeHumidityRatio[enters]! - leavingHumidityRatio[e]!),
      enteringTemperature_C: e < 0 ? house.set_C : nodeTemperature_C[enters]!,
      leavingTemperature_C: e < 0 ? house.set_C : leavingTemperature_C[e]!,
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
    roomGain_W: settled.roomGain_W,
    systems,
    iterations: settled.iterations,
  };
}
