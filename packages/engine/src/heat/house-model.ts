import type { Air } from '../air/types.ts';
import type { Loads } from '../loads/types.ts';
import type { ZoneTerms } from '../loads/zone-terms.ts';
import { specificHeat, standardPressure_Pa } from '../psychrometrics/air-properties.ts';
import type { AirSystem, Mode, Survey } from '../survey/types.ts';
import { type Balance, moistureBalance, sensibleBalance } from './balance.ts';
import { type Carried, type Columns, carry, columnsOf, type Transfer } from './carry.ts';
import { type DirectedFlow, directFlow } from './directed-flow.ts';
import { type Duty, dutiesOf } from './duties.ts';
import { remainingInfiltration } from './remaining-infiltration.ts';
import { houseTerms, type Terms } from './terms.ts';

/** Everything that stays the same while the outputs are sought. */
export type HouseModel = {
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
  /** Humidity through the ducts; here the column of a system's output is the moisture that its coil sets free, kg/s. */
  readonly humidities: Carried;
  readonly moisture: Balance;
  /** Element in which each system's equipment meets the air: its coil, or the fan when the coil has no element. */
  readonly source: readonly number[];
  /** Systems that answer to one thermostat. */
  readonly groups: readonly (readonly number[])[];
  readonly duties: readonly Duty[];
  readonly fanPower_W: readonly number[];
  readonly pressure_Pa: number;
  readonly set_C: number;
};

/** Lays out columns, carries temperatures through the ducts, and gathers the balances of one house. */
export function modelHouse(
  survey: Survey,
  mode: Mode,
  loads: Loads,
  zones: Readonly<Record<string, ZoneTerms>>,
  air: Air,
): HouseModel {
  const flow = directFlow(air);
  const places = [...survey.rooms.map((room) => room.id), ...survey.zones.map((zone) => zone.id)];
  const columns = columnsOf(places, flow.ring.length, survey.systems.length);
  const specificHeat_JkgK = specificHeat(loads.indoor.humidityRatio);
  const set_C = loads.indoor.temperature_C;
  const source = survey.systems.map((system) => sourceElement(air, system.id));
  const fanPower_W = survey.systems.map(({ airHandler: { fan } }, s) =>
    fan.running ? fan.power_Wsm3 * Math.abs(air.systems[s]!.fanFlow_m3s) : 0,
  );

  const transfers = temperatureTransfers(survey, air, flow, columns, source, fanPower_W, specificHeat_JkgK);
  const temperatures = carry(air, flow, columns, transfers, loads.outdoor.temperature_C);
  const humidities = carry(
    air,
    flow,
    columns,
    moistureTransfers(survey, air, flow, columns, source),
    loads.outdoor.humidityRatio,
  );
  const terms = houseTerms(
    survey,
    mode,
    loads,
    zones,
    specificHeat_JkgK,
    remainingInfiltration(air, flow, loads, specificHeat_JkgK),
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
  const moisture = moistureBalance(
    air,
    flow,
    columns,
    humidities,
    terms,
    loads.outdoor.humidityRatio,
    new Float64Array(columns.unknowns).fill(loads.indoor.humidityRatio),
  );
  const groups = groupByThermostat(survey.systems);
  const duties = dutiesOf(survey, mode, air, flow, columns, groups, temperatures, specificHeat_JkgK);
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
    humidities,
    moisture,
    source,
    groups,
    duties,
    fanPower_W,
    pressure_Pa: standardPressure_Pa(survey.site.elevation_m),
    set_C,
  };
}

const plainTransfer: Transfer = { keep: 1, surroundings: -1, add: 0, perOutput: 0, output: -1 };

/** How temperature passes each element: fans and equipment warm or cool it, duct walls draw it towards what surrounds them. */
export const temperatureTransfers = (
  survey: Survey,
  air: Pick<Air, 'nodes' | 'elements'>,
  flow: DirectedFlow,
  columns: Columns,
  source: readonly number[],
  fanPower_W: readonly number[],
  specificHeat_JkgK: number,
): Transfer[] => {
  const systemIndex = new Map(survey.systems.map((system, index) => [system.id, index]));
  return air.elements.map((element, e): Transfer => {
    const rate = flow.mass_kgs[e]! * specificHeat_JkgK;
    const system = element.system === undefined ? -1 : systemIndex.get(element.system)!;
    const still = !(rate > 0);
    if (element.kind === 'fan' || source.includes(e)) {
      const heated = source[system] === e && !still;
      return {
        ...plainTransfer,
        add: element.kind === 'fan' && !still ? fanPower_W[system]! / rate : 0,
        perOutput: heated ? 1 / rate : 0,
        output: heated ? columns.constant + 1 + system : -1,
      };
    }
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
};

/** How moisture passes each element: ventilators give some back, coils set free what their column says (a negative flow dries). */
export const moistureTransfers = (
  survey: Survey,
  air: Air,
  flow: DirectedFlow,
  columns: Columns,
  source: readonly number[],
): Transfer[] =>
  air.elements.map((element, e): Transfer => {
    if (element.kind === 'ventilator') {
      const fromOutdoors = air.nodes[flow.upper[e]!]!.kind === 'outdoors';
      return recovering(survey, element.of, 'latent', columns, fromOutdoors);
    }
    const s = source.indexOf(e);
    const mass_kgs = flow.mass_kgs[e]!;
    if (s < 0 || !(mass_kgs > 0)) return plainTransfer;
    return { ...plainTransfer, perOutput: 1 / mass_kgs, output: columns.constant + 1 + s };
  });

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

/** Element in which a system's equipment meets the air: its coil, or the fan when the coil has no element. */
export function sourceElement(air: Pick<Air, 'elements'>, system: string): number {
  const find = (kind: 'coil' | 'fan') =>
    air.elements.findIndex((element) => element.kind === kind && element.system === system);
  const coil = find('coil');
  return coil >= 0 ? coil : find('fan');
}

function groupByThermostat(systems: readonly AirSystem[]): number[][] {
  const groups = new Map<string, number[]>();
  systems.forEach((system, index) => {
    groups.set(system.thermostatRoom, [...(groups.get(system.thermostatRoom) ?? []), index]);
  });
  return [...groups.values()];
}
