import type { Air } from '../air/types.ts';
import type { Loads } from '../loads/types.ts';
import type { DirectedFlow } from './directed-flow.ts';

/**
 * Share of each room's natural infiltration that remains beside the air that fans and leaky ducts force through its
 * envelope, 0 … 1: max(0, Q_i − ½·|Q_forced|)/Q_i with Q_forced the net forced flow of that room. So a room that is
 * sucked on takes in max(Q_forced, Q_i + ½·Q_forced), and one that is blown up takes in max(0, Q_i − ½·Q_forced).
 *
 * ASHRAE Handbook—Fundamentals 2021 ch. 17, eq. 12–14, after Palmiter & Bond 1991, states it for the whole house;
 * with doors shut each room is such a house of its own (derived; see docs/decisions/0004).
 */
export function remainingInfiltration(
  air: Air,
  flow: DirectedFlow,
  loads: Loads,
  specificHeat_JkgK: number,
): ReadonlyMap<string, number> {
  const forced_kgs = new Map<string, number>();
  air.elements.forEach((element, e) => {
    if (element.kind !== 'envelope') return;
    const into = air.nodes[flow.lower[e]!]!;
    const outOf = air.nodes[flow.upper[e]!]!;
    const mass_kgs = flow.mass_kgs[e]!;
    if (into.kind === 'room') forced_kgs.set(into.id, (forced_kgs.get(into.id) ?? 0) + mass_kgs);
    if (outOf.kind === 'room') forced_kgs.set(outOf.id, (forced_kgs.get(outOf.id) ?? 0) - mass_kgs);
  });
  const remaining = new Map<string, number>();
  for (const line of loads.lines) {
    if (line.cause !== 'infiltration') continue;
    const natural_kgs = line.conductance_WK / specificHeat_JkgK;
    const left_kgs = Math.max(0, natural_kgs - 0.5 * Math.abs(forced_kgs.get(line.room) ?? 0));
    remaining.set(line.room, natural_kgs > 0 ? left_kgs / natural_kgs : 0);
  }
  return remaining;
}
