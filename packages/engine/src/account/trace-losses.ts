import type { Air, AirElement } from '../air/types.ts';
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
  /** Every loss once, with what each room bears of it. */
  const traced = new Map<string, { loss: PathLoss; air_m3s: Float64Array; sensible_W: Float64Array }>();
  const give = (
    node: number,
    element: AirElement,
    what: string,
    cause: PathLoss['cause'],
    air_m3s: number,
    sensible_W: number,
  ) => {
    const key = `${element.of}|${cause}|${what}`;
    let one = traced.get(key);
    if (!one) {
      const loss: PathLoss = {
        system: element.system ?? '',
        part: element.of,
        what,
        cause,
        place: element.leak?.place,
        air_m3s: 0,
        sensible_W: 0,
        drop_Pa: 0,
      };
      one = { loss, air_m3s: new Float64Array(rooms), sensible_W: new Float64Array(rooms) };
      traced.set(key, one);
    }
    for (let r = 0; r < rooms; r++) {
      const share = destinations.share[node * rooms + r]!;
      one.air_m3s[r]! += share * air_m3s;
      one.sensible_W[r]! += share * sensible_W;
    }
  };
  air.elements.forEach((element, e) => {
    const mass = flow.mass_kgs[e]!;
    if (!(mass > 0)) return;
    const upper = flow.upper[e]!;
    const lower = flow.lower[e]!;
    const returning = element.side === 'return';
    const rate = sign * state.share * mass * heat.specificHeat_JkgK;
    if (element.kind === 'leak' || element.kind === 'ventilator') {
      const outward = air.nodes[upper]!.kind === 'duct';
      if (!outward && air.nodes[lower]!.kind !== 'duct') return;
      const direction = outward ? 1 : -1;
      const excess_K = state.leavingTemperature_C[e]! - reference_C;
      const ventilates = element.kind === 'ventilator';
      const takesAir = !ventilates && !returning;
      give(
        outward ? upper : lower,
        element,
        element.leak?.place ?? element.of,
        ventilates ? 'ventilation' : returning ? 'return leak' : 'supply leak',
        takesAir ? (direction * mass) / air.referenceDensity_kgm3 : 0,
        direction * rate * excess_K,
      );
    } else if (element.surroundings !== undefined && element.conductance_WK !== undefined) {
      const fall_K = state.nodeTemperature_C[upper]! - state.leavingTemperature_C[e]!;
      give(
        lower,
        element,
        'through the duct wall',
        returning ? 'return conduction' : 'supply conduction',
        0,
        rate * fall_K,
      );
    }
  });
  const losses: PathLoss[][] = survey.rooms.map(() => []);
  for (const { loss, air_m3s, sensible_W } of traced.values())
    for (let r = 0; r < rooms; r++) {
      if (air_m3s[r] === 0 && sensible_W[r] === 0) continue;
      const { system, part, what, cause, place, drop_Pa } = loss;
      losses[r]!.push({
        system,
        part,
        what,
        cause,
        place,
        air_m3s: air_m3s[r]!,
        sensible_W: sensible_W[r]!,
        drop_Pa,
      });
    }
  return losses;
}
