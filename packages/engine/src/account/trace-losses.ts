import type { Air } from '../air/types.ts';
import type { Heat, HeatState } from '../heat/types.ts';
import type { Survey } from '../survey/types.ts';
import type { PathLoss } from './types.ts';

/** Part of the air at each node that is on its way to each room; rows by node, columns by room. */
export type Destinations = { readonly share: Float64Array; readonly rooms: number };

/**
 * Follows the air backwards from registers to the air handler and the returns: a node's air goes to rooms in the
 * proportions in which its non-leaking branches do. Air that leaks counts for the rooms it was meant for.
 */
export function findDestinations(survey: Survey, air: Air, heat: Heat): Destinations {
  const { flow } = heat;
  const rooms = survey.rooms.length;
  const roomIndex = new Map(survey.rooms.map((room, index) => [room.id, index]));
  const share = new Float64Array(air.nodes.length * rooms);
  const outOf: number[][] = air.nodes.map(() => []);
  air.elements.forEach((element, e) => {
    if (flow.mass_kgs[e]! > 0 && element.kind !== 'leak' && element.kind !== 'ventilator')
      outOf[flow.upper[e]!]!.push(e);
  });
  const visit = (node: number) => {
    const row = new Float64Array(rooms);
    let total = 0;
    for (const e of outOf[node]!) {
      const mass = flow.mass_kgs[e]!;
      const next = flow.lower[e]!;
      const place = air.nodes[next]!;
      total += mass;
      if (place.kind === 'room') row[roomIndex.get(place.id)!]! += mass;
      else if (place.kind === 'duct')
        for (let r = 0; r < rooms; r++) row[r]! += mass * share[next * rooms + r]!;
    }
    if (total > 0) for (let r = 0; r < rooms; r++) share[node * rooms + r] = row[r]! / total;
  };
  // A ring (bypass) needs its own answer first; a few rounds settle it.
  const rounds = flow.ring.length > 0 ? 30 : 1;
  for (let round = 0; round < rounds; round++) {
    for (let index = flow.order.length - 1; index >= 0; index--) visit(flow.order[index]!);
    for (const node of flow.ring) visit(node);
  }
  return { share, rooms };
}

/**
 * What the ducts take from each room, in one state of the house: air and heat by part and cause.
 * Heat counts from the set point, so for every system: output + fan heat = delivered + Σ losses, exactly.
 * Positive takes from the room, in heating and in cooling alike. Outdoor air that a ventilator brings into the ducts
 * is listed as 'ventilation': it is work that the rooms ask for, not a loss.
 */
export function traceLosses(
  survey: Survey,
  air: Air,
  heat: Heat,
  state: HeatState,
  destinations: Destinations,
  reference_C: number,
): PathLoss[][] {
  const { flow } = heat;
  const { rooms } = destinations;
  const sign = heat.mode === 'heating' ? 1 : -1;
  const traced = new Map<string, { loss: PathLoss; air_m3s: Float64Array; sensible_W: Float64Array }>();
  const give = (node: number, loss: PathLoss) => {
    const key = `${loss.part}|${loss.cause}|${loss.what}`;
    let same = traced.get(key);
    if (!same) {
      same = { loss, air_m3s: new Float64Array(rooms), sensible_W: new Float64Array(rooms) };
      traced.set(key, same);
    }
    for (let r = 0; r < rooms; r++) {
      const share = destinations.share[node * rooms + r]!;
      same.air_m3s[r]! += share * loss.air_m3s;
      same.sensible_W[r]! += share * loss.sensible_W;
    }
  };
  air.elements.forEach((element, e) => {
    const mass = flow.mass_kgs[e]!;
    if (!(mass > 0)) return;
    const upper = flow.upper[e]!;
    const lower = flow.lower[e]!;
    const rate = sign * state.share * mass * heat.specificHeat_JkgK;
    const base = { system: element.system ?? '', part: element.of, drop_Pa: 0 };
    if (element.kind === 'leak' || element.kind === 'ventilator') {
      if (air.nodes[upper]!.kind !== 'duct' && air.nodes[lower]!.kind !== 'duct') return;
      const outward = air.nodes[upper]!.kind === 'duct';
      const node = outward ? upper : lower;
      const excess_K = state.leavingTemperature_C[e]! - reference_C;
      give(node, {
        ...base,
        what: element.leak?.place ?? element.of,
        cause:
          element.kind === 'ventilator'
            ? 'ventilation'
            : element.side === 'return'
              ? 'return leak'
              : 'supply leak',
        ...(element.leak ? { place: element.leak.place } : {}),
        air_m3s:
          (element.kind === 'ventilator' || element.side === 'return' ? 0 : outward ? 1 : -1) *
          (mass / air.referenceDensity_kgm3),
        sensible_W: (outward ? 1 : -1) * rate * excess_K,
      });
    } else if (element.surroundings !== undefined && element.conductance_WK !== undefined) {
      give(lower, {
        ...base,
        what: 'through the duct wall',
        cause: element.side === 'return' ? 'return conduction' : 'supply conduction',
        air_m3s: 0,
        sensible_W: rate * (state.nodeTemperature_C[upper]! - state.leavingTemperature_C[e]!),
      });
    }
  });
  return survey.rooms.map((_, r) =>
    [...traced.values()].flatMap(({ loss, air_m3s, sensible_W }) =>
      air_m3s[r] === 0 && sensible_W[r] === 0
        ? []
        : [{ ...loss, air_m3s: air_m3s[r]!, sensible_W: sensible_W[r]! }],
    ),
  );
}
