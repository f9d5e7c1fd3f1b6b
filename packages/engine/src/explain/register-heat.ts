import type { Account } from '../account/types.ts';
import type { AirElement } from '../air/types.ts';
import { columnsOf } from '../heat/carry.ts';
import { type DirectedFlow, directFlow } from '../heat/directed-flow.ts';
import { sourceElement, temperatureTransfers } from '../heat/house-model.ts';
import type { DuctWalls } from './duct-walls.ts';
import type { CuredAir } from './solve-subsets.ts';

/** Rounds in which the temperatures of a ring of ducts (a bypass) settle; each leaves a small part of the error. */
const mostRounds = 60;
const settled_K = 1e-10;

/**
 * Heat that registers would bring rooms with other air in the ducts of an account, averaged over its design hour and
 * counted from the set point; positive helps, in heating and in cooling alike. What the equipment gives, how long it runs,
 * and the temperatures of rooms and buffer zones are held at the account's as it floats; so with the account's own air
 * this is the account's own heat.
 * @param walls duct walls that are insulated together, by bit of the mask
 * @returns for an air: by mask of insulated walls, heat into each room in the order of the survey, W; overwritten by the next
 */
export function registerHeat(
  account: Account,
  walls: readonly DuctWalls[],
): (air: CuredAir) => readonly Float64Array[] {
  const { survey, heat, air: own, loads } = account;
  const { share, temperature_C, systems, nodeTemperature_C } = heat.floating;
  const sign = heat.mode === 'heating' ? 1 : -1;
  const set_C = loads.indoor.temperature_C;
  const places = [...survey.rooms, ...survey.zones].map(({ id }) => id);
  const columns = columnsOf(places, 0, survey.systems.length);
  const held_C = places.map((id) => temperature_C[id]!);
  const output_W = systems.map((system) => system.output_W);
  const roomIndex = new Map(survey.rooms.map(({ id }, r) => [id, r]));
  const ways = 2 ** walls.length;
  const start_C = new Float64Array(own.nodes.length * ways);
  own.nodes.forEach(({ kind, id }, n) => {
    const outside_C =
      kind === 'outdoors' ? loads.outdoor.temperature_C : held_C[columns.place.get(id) ?? Number.NaN];
    start_C.fill(kind === 'duct' ? nodeTemperature_C[n]! : outside_C!, n * ways, (n + 1) * ways);
  });
  const node_C = new Float64Array(start_C.length);
  const brought_W = Array.from({ length: ways }, () => new Float64Array(survey.rooms.length));
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
    transfers.forEach((transfer, e) => {
      const { surroundings, output } = transfer;
      laws.keep[e] = transfer.keep;
      laws.added[e] =
        transfer.add +
        (surroundings < 0 ? 0 : (1 - transfer.keep) * held_C[surroundings]!) +
        (output < 0 ? 0 : transfer.perOutput * output_W[output - columns.constant - 1]!);
    });
    node_C.set(start_C);
    carryDown(now, laws, ways, node_C);
    for (const brought of brought_W) brought.fill(0);
    for (const e of registers) {
      const into = air.nodes[now.lower[e]!]!;
      if (into.kind !== 'room' || !(now.mass_kgs[e]! > 0)) continue;
      const perKelvin_W = sign * share * now.mass_kgs[e]! * heat.specificHeat_JkgK;
      const room = roomIndex.get(into.id)!;
      for (let insulated = 0; insulated < ways; insulated++) {
        const warmer_K = leaving(laws, insulated, e, node_C[now.upper[e]! * ways + insulated]!) - set_C;
        brought_W[insulated]![room]! += perKelvin_W * warmer_K;
      }
    }
    return brought_W;
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

/** Mixes the air at the nodes of the ducts from above to below, in every way to insulate at once. */
function carryDown(flow: DirectedFlow, laws: Laws, ways: number, node_C: Float64Array): void {
  const { order, ring, into, upper, mass_kgs } = flow;
  const sums = new Float64Array(ways);
  /** @returns how far the node moved at most, K */
  const mix = (n: number): number => {
    const bringing = into[n]!;
    let total = 0;
    sums.fill(0);
    for (let i = 0; i < bringing.length; i++) {
      const e = bringing[i]!;
      const mass = mass_kgs[e]!;
      const above = upper[e]! * ways;
      total += mass;
      for (let way = 0; way < ways; way++)
        sums[way] = sums[way]! + mass * leaving(laws, way, e, node_C[above + way]!);
    }
    if (!(total > 0)) return 0;
    let moved = 0;
    for (let way = 0; way < ways; way++) {
      const mixed = sums[way]! / total;
      moved = Math.max(moved, Math.abs(mixed - node_C[n * ways + way]!));
      node_C[n * ways + way] = mixed;
    }
    return moved;
  };
  for (let round = 0; round < mostRounds; round++) {
    for (let i = 0; i < order.length; i++) mix(order[i]!);
    let moved = 0;
    for (const n of ring) moved = Math.max(moved, mix(n));
    if (moved <= settled_K) return;
  }
}
