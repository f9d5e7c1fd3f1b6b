import type { Air } from '../air/types.ts';
import { coolingOutput } from '../equipment/cooling-output.ts';
import { heatingOutput } from '../equipment/heating-output.ts';
import type { Loads } from '../loads/types.ts';
import type { ZoneTerms } from '../loads/zone-terms.ts';
import { specificHeat, standardPressure_Pa } from '../psychrometrics/air-properties.ts';
import type { AirSystem, Mode, Survey } from '../survey/types.ts';
import { type Balance, evaluate, gain, moistureBalance, sensibleBalance, solveBalance } from './balance.ts';
import { type Carried, type Columns, carry, columnsOf, type Transfer } from './carry.ts';
import { type DirectedFlow, directFlow } from './directed-flow.ts';
import { findRunFractions } from './run-fraction.ts';
import { houseTerms, latentHeat_Jkg, type Terms } from './terms.ts';
import type { Heat, HeatState, SystemHeat } from './types.ts';

/**
 * Temperatures and moisture of a house whose air is solved: rooms float, each thermostat's room is held by the
 * run fraction of its equipment, buffer zones and ducts close their own balances.
 *
 * Along a duct T leaves as T_s + (T_in − T_s)·e^(−UA/ṁcp); at nodes air mixes by mass; leaks carry enthalpy.
 * Every duct temperature is affine in the rooms' and zones', so one small dense system holds the whole house.
 * Systems share one fan-on part of the hour, the longest; a system that needs less gives its output in part.
 *
 * Solved twice: as the house floats, and with every room at its set point, which is what the loads with ducts
 * stand on (there the run fraction may pass 1: the equipment would have to be that much larger).
 */
export function solveHeat(
  survey: Survey,
  mode: Mode,
  loads: Loads,
  zones: Readonly<Record<string, ZoneTerms>>,
  air: Air,
): Heat {
  const house = prepare(survey, mode, loads, zones, air);
  const { flow, terms, specificHeat_JkgK, fanPower_W } = house;
  return {
    mode,
    flow,
    terms,
    specificHeat_JkgK,
    fanPower_W,
    floating: settle(house, false),
    atSetPoint: settle(house, true),
  };
}

/** Everything that stays the same while the outputs are sought. */
type House = {
  readonly survey: Survey;
  readonly mode: Mode;
  readonly loads: Loads;
  readonly air: Air;
  readonly flow: DirectedFlow;
  readonly columns: Columns;
  readonly terms: Terms;
  readonly specificHeat_JkgK: number;
  readonly temperatures: Carried;
  readonly sensible: Balance;
  readonly coil: readonly number[];
  /** Systems that answer to one thermostat. */
  readonly groups: readonly (readonly number[])[];
  /** For each group, the part of each room's heat that it must bring. */
  readonly responsibility: readonly ReadonlyMap<number, number>[];
  readonly fanPower_W: readonly number[];
  readonly pressure_Pa: number;
  readonly set_C: number;
};

function prepare(
  survey: Survey,
  mode: Mode,
  loads: Loads,
  zones: Readonly<Record<string, ZoneTerms>>,
  air: Air,
): House {
  const flow = directFlow(air);
  const places = [...survey.rooms.map((room) => room.id), ...survey.zones.map((zone) => zone.id)];
  const columns = columnsOf(places, flow.ring.length, survey.systems.length);
  const specificHeat_JkgK = specificHeat(loads.indoor.humidityRatio);
  const set_C = loads.indoor.temperature_C;
  const systemIndex = new Map(survey.systems.map((system, index) => [system.id, index]));
  const coil = survey.systems.map((system) =>
    air.elements.findIndex((element) => element.kind === 'coil' && element.system === system.id),
  );
  const fanPower_W = survey.systems.map(
    (system, s) => system.airHandler.fan.power_Wsm3 * Math.abs(air.systems[s]!.fanFlow_m3s),
  );

  const transfers = air.elements.map((element, e): Transfer => {
    const rate = flow.mass_kgs[e]! * specificHeat_JkgK;
    const system = element.system === undefined ? -1 : systemIndex.get(element.system)!;
    const still = !(rate > 0);
    if (element.kind === 'coil')
      return {
        keep: 1,
        surroundings: -1,
        add: 0,
        perOutput: still ? 0 : 1 / rate,
        output: columns.constant + 1 + system,
      };
    if (element.kind === 'fan')
      return {
        keep: 1,
        surroundings: -1,
        add: still ? 0 : fanPower_W[system]! / rate,
        perOutput: 0,
        output: -1,
      };
    if (element.kind === 'ventilator')
      return recovering(
        survey,
        element.of,
        'sensible',
        columns,
        air.nodes[flow.upper[e]!]!.kind === 'outdoors',
      );
    const around = element.surroundings === undefined ? undefined : columns.place.get(element.surroundings);
    if (around === undefined || still) return plainTransfer;
    return {
      keep: Math.exp(-(element.conductance_WK ?? 0) / rate),
      surroundings: around,
      add: 0,
      perOutput: 0,
      output: -1,
    };
  });
  const temperatures = carry(air, flow, columns, transfers, loads.outdoor.temperature_C);
  const terms = houseTerms(
    survey,
    mode,
    loads,
    zones,
    specificHeat_JkgK,
    remainingInfiltration(air, flow, loads),
  );
  const fallback_C = new Float64Array(columns.unknowns).fill(set_C);
  const sensible = sensibleBalance(
    air,
    flow,
    columns,
    temperatures,
    terms,
    specificHeat_JkgK,
    loads.outdoor.temperature_C,
    fallback_C,
  );
  const groups = groupByThermostat(survey.systems);
  return {
    survey,
    mode,
    loads,
    air,
    flow,
    columns,
    terms,
    specificHeat_JkgK,
    temperatures,
    sensible,
    coil,
    groups,
    responsibility: responsibilities(survey, air, flow, columns, groups),
    fanPower_W,
    pressure_Pa: standardPressure_Pa(survey.site.elevation_m),
    set_C,
  };
}

const plainTransfer: Transfer = { keep: 1, surroundings: -1, add: 0, perOutput: 0, output: -1 };

/** Outdoor air that a ventilator brings, moved towards the room it serves by its recovery; stale air leaves as it is. */
function recovering(
  survey: Survey,
  id: string,
  kind: 'sensible' | 'latent',
  columns: Columns,
  fromOutdoors: boolean,
): Transfer {
  const ventilator = survey.ventilators.find((one) => one.id === id);
  if (!ventilator || !fromOutdoors) return plainTransfer;
  const served =
    ventilator.room ??
    survey.systems.find((system) => system.parts.some((part) => part.id === ventilator.returnPart))
      ?.thermostatRoom;
  const column = served === undefined ? undefined : columns.place.get(served);
  if (column === undefined) return plainTransfer;
  const recovery = kind === 'sensible' ? ventilator.sensibleRecovery : ventilator.latentRecovery;
  return { ...plainTransfer, keep: 1 - recovery, surroundings: column };
}

function groupByThermostat(systems: readonly AirSystem[]): number[][] {
  const groups = new Map<string, number[]>();
  systems.forEach((system, index) => {
    groups.set(system.thermostatRoom, [...(groups.get(system.thermostatRoom) ?? []), index]);
  });
  return [...groups.values()];
}

/** Each room's heat is owed by the groups in proportion to the air they send it; by the first group when none does. */
function responsibilities(
  survey: Survey,
  air: Air,
  flow: DirectedFlow,
  columns: Columns,
  groups: readonly (readonly number[])[],
): Map<number, number>[] {
  const sent = groups.map(() => new Map<string, number>());
  air.elements.forEach((element, e) => {
    if (element.kind !== 'terminal' || element.side !== 'supply') return;
    const group = groups.findIndex((members) =>
      members.some((s) => survey.systems[s]!.id === element.system),
    );
    const room = air.nodes[flow.lower[e]!]!;
    if (group >= 0 && room.kind === 'room')
      sent[group]!.set(room.id, (sent[group]!.get(room.id) ?? 0) + flow.mass_kgs[e]!);
  });
  return groups.map((_, group) => {
    const shares = new Map<number, number>();
    for (const room of survey.rooms) {
      const total = sent.reduce((sum, map) => sum + (map.get(room.id) ?? 0), 0);
      const share = total > 0 ? (sent[group]!.get(room.id) ?? 0) / total : group === 0 ? 1 : 0;
      if (share > 0) shares.set(columns.place.get(room.id)!, share);
    }
    return shares;
  });
}

/**
 * Share of the natural infiltration that remains beside the flows that fans and leaky ducts force through the envelope:
 * max(0, Q_i − ½·Q_unbalanced)/Q_i, so that the inflow is max(Q_unbalanced, Q_i + ½·Q_unbalanced) when the house is
 * sucked on (ASHRAE Handbook—Fundamentals 2021 ch. 17, eq. 12–14, after Palmiter & Bond 1991).
 */
function remainingInfiltration(air: Air, flow: DirectedFlow, loads: Loads): number {
  let net_kgs = 0;
  air.elements.forEach((element, e) => {
    if (element.kind !== 'envelope') return;
    const enters = air.nodes[flow.lower[e]!]!.kind === 'room';
    net_kgs += enters ? flow.mass_kgs[e]! : -flow.mass_kgs[e]!;
  });
  const natural_kgs = loads.infiltration_m3s * loads.indoor.density_kgm3;
  return natural_kgs > 0 ? Math.max(0, natural_kgs - 0.5 * Math.abs(net_kgs)) / natural_kgs : 0;
}

/** What a coil or heat exchanger does to the air that passes it while it is on. */
type Action = { readonly sensible_W: number; readonly keep: number; readonly add: number };
const idle: Action = { sensible_W: 0, keep: 1, add: 0 };

/** Output of one system's equipment for air that enters at the given state. */
function actionOf(house: House, s: number, entering_C: number, enteringHumidity: number): Action {
  const system = house.survey.systems[s]!;
  const mass_kgs = house.coil[s]! < 0 ? 0 : house.flow.mass_kgs[house.coil[s]!]!;
  if (!(mass_kgs > 0)) return idle;
  const outdoor_C = house.loads.outdoor.temperature_C;
  if (house.mode === 'heating') {
    const { output_W, supplementary_W } = heatingOutput(system.equipment, outdoor_C, mass_kgs);
    return { sensible_W: output_W + supplementary_W, keep: 1, add: 0 };
  }
  const entering = { temperature_C: entering_C, humidityRatio: enteringHumidity };
  const cooling = coolingOutput(system.equipment, entering, mass_kgs, outdoor_C, house.pressure_Pa);
  if (!(cooling.latent_W > 0)) return { sensible_W: -cooling.sensible_W, keep: 1, add: 0 };
  // The wet coil as mixing with air at the apparatus dew point: W_out = BF·W_in + (1 − BF)·W_adp.
  const leavingHumidity = enteringHumidity - cooling.latent_W / (mass_kgs * latentHeat_Jkg);
  const keep = cooling.bypassFactor;
  return { sensible_W: -cooling.sensible_W, keep, add: leavingHumidity - keep * enteringHumidity };
}

/** Iterates equipment output, run fraction, temperatures and moisture until the output stands still. */
function settle(house: House, held: boolean): HeatState {
  const { survey, loads, columns, sensible, set_C } = house;
  const sign = house.mode === 'heating' ? 1 : -1;
  const rooms = survey.rooms.map((room) => columns.place.get(room.id)!);
  const hold = (value: number) => (held ? new Map(rooms.map((row) => [row, value])) : undefined);
  const heldTemperature = hold(set_C);
  const heldHumidity = hold(loads.indoor.humidityRatio);
  const nothing = survey.systems.map(() => 0);

  let actions: readonly Action[] = survey.systems.map((_, s) =>
    actionOf(house, s, set_C, loads.indoor.humidityRatio),
  );
  for (let iterations = 1; ; iterations++) {
    const full = actions.map((action) => action.sensible_W);
    const short = (fractions: readonly number[], group: number) => {
      const { share, outputs } = spread(house, full, fractions);
      const values = solveBalance(sensible, share, outputs, heldTemperature);
      if (!held) return sign * (set_C - values[thermostatRow(house, group)]!);
      let lacking = 0;
      for (const [row, part] of house.responsibility[group]!)
        lacking -= part * gain(sensible, row, share, outputs, values);
      return sign * lacking;
    };
    const limit = held ? largestOversize : 1;
    const fractions = findRunFractions(house.groups.length, short, limit);
    const { share, outputs } = spread(house, full, fractions);
    const temperature = solveBalance(sensible, share, outputs, heldTemperature);

    const humidityRows = carryHumidity(house, actions, outputs);
    const fallback = new Float64Array(columns.unknowns).fill(loads.indoor.humidityRatio);
    const moisture = moistureBalance(
      house.air,
      house.flow,
      columns,
      humidityRows,
      house.terms,
      loads.outdoor.humidityRatio,
      fallback,
    );
    const humidity = solveBalance(moisture, share, nothing, heldHumidity);

    const entering = (s: number) => house.flow.upper[house.coil[s]!]!;
    const next = survey.systems.map((_, s) =>
      house.coil[s]! < 0
        ? idle
        : actionOf(
            house,
            s,
            evaluate(house.temperatures.node, entering(s), columns, temperature, outputs),
            Math.max(0, evaluate(humidityRows.node, entering(s), columns, humidity, nothing)),
          ),
    );
    if (iterations >= mostIterations || next.every((action, s) => standsStill(action, actions[s]!))) {
      const atLimit = (s: number) => fractions[groupOf(house, s)]! >= limit;
      return describe(house, {
        iterations,
        share,
        outputs,
        full,
        temperature,
        humidity,
        humidityRows,
        fractions,
        atLimit,
      });
    }
    actions = next;
  }
}

const mostIterations = 80;
/** How many times its size the equipment may have to be before the question makes no sense. */
const largestOversize = 20;
const standsStill = (next: Action, last: Action) =>
  Math.abs(next.sensible_W - last.sensible_W) <= 1e-9 * Math.abs(last.sensible_W) &&
  Math.abs(next.add - last.add) <= 1e-9;

const groupOf = (house: House, s: number) => house.groups.findIndex((group) => group.includes(s));
const thermostatRow = (house: House, group: number) =>
  house.columns.place.get(house.survey.systems[house.groups[group]![0]!]!.thermostatRoom)!;

/** The common fan-on share, and what each system gives on average through it. */
function spread(
  house: House,
  full: readonly number[],
  fractions: readonly number[],
): { share: number; outputs: number[] } {
  const share = Math.max(0, ...fractions);
  return {
    share,
    outputs: full.map((output, s) => (share > 0 ? (output * fractions[groupOf(house, s)]!) / share : 0)),
  };
}

/** Moisture through the ducts: only wet coils change it, in the part of the fan-on time in which they are on. */
function carryHumidity(house: House, actions: readonly Action[], outputs: readonly number[]): Carried {
  const transfers = house.air.elements.map((element, e): Transfer => {
    if (element.kind === 'ventilator')
      return recovering(
        house.survey,
        element.of,
        'latent',
        house.columns,
        house.air.nodes[house.flow.upper[e]!]!.kind === 'outdoors',
      );
    const s = house.coil.indexOf(e);
    if (element.kind !== 'coil' || s < 0 || !(house.flow.mass_kgs[e]! > 0) || actions[s]!.sensible_W === 0)
      return plainTransfer;
    const part = outputs[s]! / actions[s]!.sensible_W;
    return { ...plainTransfer, keep: 1 - part * (1 - actions[s]!.keep), add: part * actions[s]!.add };
  });
  return carry(house.air, house.flow, house.columns, transfers, house.loads.outdoor.humidityRatio);
}

type Settled = {
  readonly iterations: number;
  readonly share: number;
  readonly outputs: readonly number[];
  readonly full: readonly number[];
  readonly fractions: readonly number[];
  readonly temperature: Float64Array;
  readonly humidity: Float64Array;
  readonly humidityRows: Carried;
  readonly atLimit: (s: number) => boolean;
};

/** Reads temperatures and humidity of every node and element out of the solved rows. */
function describe(house: House, settled: Settled): HeatState {
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
    const e = house.coil[s]!;
    const enters = e < 0 ? Number.NaN : flow.upper[e]!;
    return {
      system: system.id,
      runFraction: settled.fractions[groupOf(house, s)]!,
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
    systems,
    iterations: settled.iterations,
  };
}
