import { airTemperatures } from '../account/air-temperatures.ts';
import { solveAir } from '../air/solve-air.ts';
import type { Air } from '../air/types.ts';
import { moistureBalance } from '../heat/balance.ts';
import { type Columns, carry } from '../heat/carry.ts';
import { type HouseModel, modelHouse, moistureTransfers } from '../heat/house-model.ts';
import { computeLoads } from '../loads/compute-loads.ts';
import type { Loads } from '../loads/types.ts';
import type { ZoneTerms } from '../loads/zone-terms.ts';
import { solveDense } from '../numerics/dense.ts';
import type { Mode, Survey } from '../survey/types.ts';

/**
 * What running fans do to the house in one mode, as coefficients. A row stands over the places (rooms, zones), then
 * outdoors, then the constant 1, then one column per system.
 */
export type FanState = {
  readonly mode: Mode;
  readonly air: Air;
  readonly width: number;
  /** Heat that ducts and moving air bring to each place while the fans run, W; columns of systems per W of output. */
  readonly heat: Float64Array;
  /** Water that moving air brings to each place, kg/s per humidity ratio; columns of systems per kg/s set free in the coil. */
  readonly moisture: Float64Array;
  /** Air that the fans force through each room's envelope, net, kg/s. */
  readonly forced_kgs: Float64Array;
  /** By system: air before its coil, in °C and as humidity ratio. */
  readonly entering: readonly Float64Array[];
  readonly enteringMoisture: readonly Float64Array[];
  /** Air through the coil, kg/s; 0 when the system cannot work in this mode. */
  readonly mass_kgs: readonly number[];
  readonly fan_W: readonly number[];
  /** Heat that registers bring, counted from each room's own temperature, W. */
  readonly delivered: Float64Array;
  /** Heat that moving air brings in from outdoors less what it takes out, W. */
  readonly fromOutdoors: Float64Array;
  /** Coldest (first) air of each supply part, and air at each register. */
  readonly parts: readonly DuctRow[];
  readonly registers: readonly DuctRow[];
};

/** Temperature of the air in one duct or register as a row. */
export type DuctRow = { readonly system: string; readonly part: string; readonly row: Float64Array };

/**
 * Solves the air of one mode once and reads everything linear out of it. Flows are those of the design day: through a
 * year densities change them by a few per cent, which is left out.
 */
export function fanState(survey: Survey, mode: Mode, given?: Air): FanState {
  const loads = computeLoads(survey, mode);
  const air = given ?? solveAir(survey, mode, airTemperatures(survey, mode, loads));
  const nothing: Record<string, ZoneTerms> = Object.fromEntries(
    survey.zones.map(({ id }) => [id, { exchanges: [], ventilation_kgs: 0, sunGain_W: 0 }]),
  );
  const at = (outdoor_C: number) =>
    modelHouse(
      survey,
      mode,
      { ...loads, lines: [], outdoor: { ...loads.outdoor, temperature_C: outdoor_C } },
      nothing,
      air,
    );
  const cold = at(0);
  const warm = at(1);
  const { columns, flow, source, fanPower_W, specificHeat_JkgK } = cold;
  const rows = new Rows(columns, survey.systems.length);
  const nodes = rows.joined(cold.temperatures.node, warm.temperatures.node);
  const leaving = rows.joined(cold.temperatures.leaving, warm.temperatures.leaving);
  const ring = rows.ring(rows.joined(cold.sensible.always, warm.sensible.always));
  const temperatureAt = rows.reader(nodes, ring);
  const leavingAt = rows.reader(leaving, ring);

  const wet = moistureRows(survey, cold, loads, rows);
  const forced_kgs = new Float64Array(survey.rooms.length);
  const roomIndex = new Map(survey.rooms.map(({ id }, r) => [id, r]));
  const delivered = new Float64Array(rows.width);
  const fromOutdoors = new Float64Array(rows.width);
  const registers: DuctRow[] = [];
  const parts = new Map<string, DuctRow>();
  air.elements.forEach((element, e) => {
    const mass_kgs = flow.mass_kgs[e]!;
    const into = air.nodes[flow.lower[e]!]!;
    const outOf = air.nodes[flow.upper[e]!]!;
    if (element.kind === 'envelope') {
      if (into.kind === 'room') forced_kgs[roomIndex.get(into.id)!]! += mass_kgs;
      if (outOf.kind === 'room') forced_kgs[roomIndex.get(outOf.id)!]! -= mass_kgs;
    }
    if (!(mass_kgs > 0)) return;
    const rate = mass_kgs * specificHeat_JkgK;
    if (outOf.kind === 'outdoors') {
      // What a recovering ventilator gives back comes from within: count the air as it leaves the ventilator.
      if (element.kind === 'ventilator') addRow(fromOutdoors, leavingAt(e), rate);
      else fromOutdoors[rows.outdoors]! += rate;
    }
    if (into.kind === 'outdoors') addRow(fromOutdoors, leavingAt(e), -rate);
    if (element.kind === 'terminal' && element.side === 'supply' && into.kind === 'room') {
      const row = leavingAt(e);
      addRow(delivered, row, rate);
      delivered[columns.place.get(into.id)!]! -= rate;
      registers.push({ system: element.system!, part: element.of, row });
    }
    if (element.kind === 'duct' && element.side === 'supply' && !parts.has(element.of))
      parts.set(element.of, {
        system: element.system!,
        part: element.of,
        row: temperatureAt(flow.upper[e]!),
      });
  });
  return {
    mode,
    air,
    width: rows.width,
    heat: rows.places(rows.joined(cold.sensible.on, warm.sensible.on), ring),
    moisture: wet.moisture,
    forced_kgs,
    entering: source.map((e) => (e < 0 ? new Float64Array(rows.width) : temperatureAt(flow.upper[e]!))),
    enteringMoisture: wet.entering,
    mass_kgs: survey.systems.map((system, s) =>
      system.equipment[mode] && system.airHandler.fan.running && source[s]! >= 0
        ? flow.mass_kgs[source[s]!]!
        : 0,
    ),
    fan_W: fanPower_W,
    delivered,
    fromOutdoors,
    parts: [...parts.values()],
    registers,
  };
}

const addRow = (target: Float64Array, row: Float64Array, factor: number): void => {
  for (let k = 0; k < target.length; k++) target[k]! += factor * row[k]!;
};

/** The same for moisture. */
function moistureRows(survey: Survey, house: HouseModel, loads: Loads, rows: Rows) {
  const { air, flow, columns, source } = house;
  const transfers = moistureTransfers(survey, air, flow, columns, source);
  const fallback = new Float64Array(columns.unknowns).fill(loads.indoor.humidityRatio);
  const empty = { heat: [], exchange: [], moisture: [] };
  const at = (outdoors: number) => {
    const carried = carry(air, flow, columns, transfers, outdoors);
    return { carried, balance: moistureBalance(air, flow, columns, carried, empty, outdoors, fallback) };
  };
  const dry = at(0);
  const moist = at(1);
  const ring = rows.ring(rows.joined(dry.balance.always, moist.balance.always));
  const read = rows.reader(rows.joined(dry.carried.node, moist.carried.node), ring);
  return {
    moisture: rows.places(rows.joined(dry.balance.on, moist.balance.on), ring),
    entering: source.map((e) => (e < 0 ? new Float64Array(rows.width) : read(flow.upper[e]!))),
  };
}

/** Rows of the heat balance brought into the shape of a fan state: outdoors apart from the constant, rings of ducts eliminated. */
class Rows {
  readonly outdoors: number;
  readonly width: number;
  private readonly columns: Columns;
  private readonly systems: number;
  private readonly rings: number;

  constructor(columns: Columns, systems: number) {
    this.columns = columns;
    this.systems = systems;
    this.rings = columns.unknowns - columns.ringStart;
    this.outdoors = columns.ringStart;
    this.width = columns.ringStart + 2 + systems;
  }

  /** Rows over places, outdoors, constant, systems, ring nodes, from the same rows with outdoors at 0 and at 1. */
  joined(atZero: Float64Array, atOne: Float64Array): Float64Array {
    const { ringStart, constant, width } = this.columns;
    const wide = this.width + this.rings;
    const count = atZero.length / width;
    const out = new Float64Array(count * wide);
    for (let row = 0; row < count; row++) {
      const from = row * width;
      const to = row * wide;
      for (let k = 0; k < ringStart; k++) out[to + k] = atZero[from + k]!;
      out[to + ringStart] = atOne[from + constant]! - atZero[from + constant]!;
      out[to + ringStart + 1] = atZero[from + constant]!;
      for (let s = 0; s < this.systems; s++) out[to + ringStart + 2 + s] = atZero[from + constant + 1 + s]!;
      for (let k = 0; k < this.rings; k++) out[to + this.width + k] = atZero[from + ringStart + k]!;
    }
    return out;
  }

  /** Each ring node as a row without ring nodes, from the balances of all. */
  ring(always: Float64Array): Float64Array {
    const { rings, width } = this;
    const wide = width + rings;
    const start = this.columns.ringStart;
    const solved = new Float64Array(rings * width);
    for (let k = 0; k < width && rings > 0; k++) {
      const matrix = new Float64Array(rings * rings);
      const right = new Float64Array(rings);
      for (let row = 0; row < rings; row++) {
        const from = (start + row) * wide;
        for (let other = 0; other < rings; other++)
          matrix[row * rings + other] = always[from + width + other]!;
        right[row] = -always[from + k]!;
      }
      solveDense(matrix, right).forEach((value, row) => {
        solved[row * width + k] = value;
      });
    }
    return solved;
  }

  /** Reads one row at a time, rings eliminated. */
  reader(rows: Float64Array, ring: Float64Array): (row: number) => Float64Array {
    const { rings, width } = this;
    const wide = width + rings;
    return (row) => {
      const out = rows.slice(row * wide, row * wide + width);
      for (let k = 0; k < rings; k++)
        addRow(out, ring.subarray(k * width, (k + 1) * width), rows[row * wide + width + k]!);
      return out;
    };
  }

  /** The rows of the places alone, one after the other. */
  places(rows: Float64Array, ring: Float64Array): Float64Array {
    const read = this.reader(rows, ring);
    const out = new Float64Array(this.outdoors * this.width);
    for (let row = 0; row < this.outdoors; row++) out.set(read(row), row * this.width);
    return out;
  }
}
