import type { Account } from '../account/types.ts';
import type { AirElement } from '../air/types.ts';
import { columnsOf } from '../heat/carry.ts';
import { type DirectedFlow, directFlow } from '../heat/directed-flow.ts';
import { sourceElement, temperatureTransfers } from '../heat/house-model.ts';
import type { DuctWalls } from './duct-walls.ts';
import type { CuredAir } from './solve-subsets.ts';

/** Heat that registers bring into each room, W, in the order of the survey; walls in the mask pass none. */
export type RegisterHeat = (insulated: number) => Float64Array;

/** Rounds in which the temperatures of a ring of ducts (a bypass) settle; each leaves a small part of the error. */
const mostRounds = 60;
const settled_K = 1e-10;

/**
 * Heat that registers would bring rooms with other air in the ducts of an account, averaged over its design hour and
 * counted from the set point; positive helps, in heating and in cooling alike. What the equipment gives, how long it runs,
 * and the temperatures of rooms and buffer zones are held at the account's as it floats; so with the account's own air
 * this is the account's own heat.
 * The function of one air is to be used before the next air is given: they share their arrays.
 * @param walls duct walls that are insulated together, by bit of the mask
 */
export function registerHeat(account: Account, walls: readonly DuctWalls[]): (air: CuredAir) => RegisterHeat {
  const { survey, heat, air: own, loads } = account;
  const { share, temperature_C, systems, nodeTemperature_C } = heat.floating;
  const sign = heat.mode === 'heating' ? 1 : -1;
  const set_C = loads.indoor.temperature_C;
  const places = [...survey.rooms, ...survey.zones].map(({ id }) => id);
  const columns = columnsOf(places, 0, survey.systems.length);
  const held_C = places.map((id) => temperature_C[id]!);
  const output_W = systems.map((system) => system.output_W);
  const roomIndex = new Map(survey.rooms.map(({ id }, r) => [id, r]));
  const start_C = new Float64Array(own.nodes.length);
  own.nodes.forEach(({ kind, id }, n) => {
    if (kind === 'outdoors') start_C[n] = loads.outdoor.temperature_C;
    else if (kind === 'duct') start_C[n] = nodeTemperature_C[n]!;
    else start_C[n] = held_C[columns.place.get(id)!]!;
  });
  // Most subsets are of one network; one with a door more has elements of its own.
  let layout = layoutOf(account, own.elements, walls);
  let flow: DirectedFlow | undefined;
  return (air) => {
    if (layout.elements !== air.elements) {
      layout = layoutOf(account, air.elements, walls);
      flow = undefined;
    }
    const { registers, source, fans, laws } = layout;
    const now = directFlow({ ...air, referenceDensity_kgm3: own.referenceDensity_kgm3 }, flow);
    flow = now;
    const fanPower_W = survey.systems.map(({ airHandler: { fan } }, s) =>
      fan.running ? fan.power_Wsm3 * Math.abs(air.solution.flow_m3s[fans[s]!]!) : 0,
    );
    const transfers = temperatureTransfers(
      survey,
      air,
      now,
      columns,
      source,
      fanPower_W,
      heat.specificHeat_JkgK,
    );
    const node_C = start_C.slice();
    transfers.forEach((transfer, e) => {
      const { surroundings, output } = transfer;
      laws.keep[e] = transfer.keep;
      laws.added[e] =
        transfer.add +
        (surroundings < 0 ? 0 : (1 - transfer.keep) * held_C[surroundings]!) +
        (output < 0 ? 0 : transfer.perOutput * output_W[output - columns.constant - 1]!);
    });
    return (insulated) => {
      carryDown(now, laws, insulated, node_C);
      const brought_W = new Float64Array(survey.rooms.length);
      for (const e of registers) {
        const into = air.nodes[now.lower[e]!]!;
        if (into.kind !== 'room' || !(now.mass_kgs[e]! > 0)) continue;
        const warmer_K = leaving(laws, insulated, e, node_C[now.upper[e]!]!) - set_C;
        brought_W[roomIndex.get(into.id)!]! +=
          sign * share * now.mass_kgs[e]! * heat.specificHeat_JkgK * warmer_K;
      }
      return brought_W;
    };
  };
}

/** What elements do to the temperature of their air: keep·(what enters) + added, but nothing behind insulated walls. */
type Laws = { readonly keep: Float64Array; readonly added: Float64Array; readonly wall: Uint8Array };

const leaving = ({ keep, added, wall }: Laws, insulated: number, e: number, entering: number): number =>
  (wall[e]! & insulated) !== 0 ? entering : keep[e]! * entering + added[e]!;

/** Where registers, equipment and fans stand among the elements of a network, and which walls are which. */
type Layout = {
  readonly elements: readonly AirElement[];
  readonly registers: readonly number[];
  readonly source: readonly number[];
  readonly fans: readonly number[];
  readonly laws: Laws;
};

function layoutOf({ survey }: Account, elements: readonly AirElement[], walls: readonly DuctWalls[]): Layout {
  return {
    elements,
    registers: elements.flatMap(({ kind, side }, e) => (kind === 'terminal' && side === 'supply' ? [e] : [])),
    source: survey.systems.map(({ id }) => sourceElement({ elements }, id)),
    fans: survey.systems.map(({ id }) =>
      elements.findIndex(({ kind, system }) => kind === 'fan' && system === id),
    ),
    laws: {
      keep: new Float64Array(elements.length),
      added: new Float64Array(elements.length),
      wall: Uint8Array.from(elements, (element) =>
        walls.reduce((mask, { has }, k) => (has(element) ? mask | (1 << k) : mask), 0),
      ),
    },
  };
}

/** Mixes the air at the nodes of the ducts from above to below. */
function carryDown(flow: DirectedFlow, laws: Laws, insulated: number, node_C: Float64Array): void {
  const { order, ring, into, upper, mass_kgs } = flow;
  const mix = (n: number): number => {
    const bringing = into[n]!;
    let total = 0;
    let sum = 0;
    for (let i = 0; i < bringing.length; i++) {
      const e = bringing[i]!;
      const mass = mass_kgs[e]!;
      total += mass;
      sum += mass * leaving(laws, insulated, e, node_C[upper[e]!]!);
    }
    return total > 0 ? sum / total : node_C[n]!;
  };
  for (let round = 0; round < mostRounds; round++) {
    for (let i = 0; i < order.length; i++) node_C[order[i]!] = mix(order[i]!);
    let moved = 0;
    for (const n of ring) {
      const mixed = mix(n);
      moved = Math.max(moved, Math.abs(mixed - node_C[n]!));
      node_C[n] = mixed;
    }
    if (moved <= settled_K) return;
  }
}
