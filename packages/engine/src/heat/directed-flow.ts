import type { Air } from '../air/types.ts';

/** What directions are read from. */
export type FlowingAir = Pick<Air, 'nodes' | 'elements' | 'solution' | 'referenceDensity_kgm3'>;

/** The solved network read as a river: every element with air in it has an upper and a lower node. */
export type DirectedFlow = {
  /** Node where air enters each element and where it leaves it. */
  readonly upper: Int32Array;
  readonly lower: Int32Array;
  /** Mass flow, kg/s, ≥ 0; 0 for still elements. */
  readonly mass_kgs: Float64Array;
  /** Duct nodes with their upper neighbours before them. */
  readonly order: readonly number[];
  /** Duct nodes on a ring of air that never leaves the ducts (a bypass); they are solved together with the rooms. */
  readonly ring: readonly number[];
  /** Elements that bring air into each node. */
  readonly into: readonly (readonly number[])[];
};

/**
 * Orders the flows of a solved network from upstream to downstream.
 * Rooms, zones and outdoors are where every stream begins and ends, so only rings inside the ducts stay unordered.
 * @param previous flows of the same network, whose order stands where air goes everywhere the same way
 */
export function directFlow(air: FlowingAir, previous?: DirectedFlow): DirectedFlow {
  const mass_kgs = massFlows(air);
  if (previous && sameWays(air, mass_kgs, previous)) return { ...previous, mass_kgs };
  const upper = new Int32Array(mass_kgs.length);
  const lower = new Int32Array(mass_kgs.length);
  for (let e = 0; e < mass_kgs.length; e++) {
    const { from, to } = air.elements[e]!;
    const forward = isForward(air, e);
    upper[e] = forward ? from : to;
    lower[e] = forward ? to : from;
  }
  const into: number[][] = air.nodes.map(() => []);
  const outOf: number[][] = air.nodes.map(() => []);
  mass_kgs.forEach((mass, e) => {
    if (mass === 0) return;
    into[lower[e]!]!.push(e);
    outOf[upper[e]!]!.push(e);
  });

  const waiting = new Int32Array(air.nodes.length);
  const isDuct = (node: number) => air.nodes[node]!.kind === 'duct';
  air.nodes.forEach((_, node) => {
    if (isDuct(node)) waiting[node] = into[node]!.filter((e) => isDuct(upper[e]!)).length;
  });
  const order: number[] = [];
  const ring: number[] = [];
  const placed = new Uint8Array(air.nodes.length);
  const follow = (start: readonly number[]) => {
    const ready = [...start];
    for (let node = ready.pop(); node !== undefined; node = ready.pop()) {
      placed[node] = 1;
      if (!ring.includes(node)) order.push(node);
      for (const e of outOf[node]!) {
        const next = lower[e]!;
        if (isDuct(next) && !placed[next] && --waiting[next]! === 0) ready.push(next);
      }
    }
  };
  follow(air.nodes.flatMap((_, node) => (isDuct(node) && waiting[node] === 0 ? [node] : [])));
  // Each ring is cut where air that is already known enters it, so that few nodes become unknowns.
  const knownInflow = (node: number) =>
    into[node]!.filter((e) => !isDuct(upper[e]!) || placed[upper[e]!]).length;
  for (;;) {
    let cut = -1;
    for (let node = 0; node < air.nodes.length; node++)
      if (isDuct(node) && !placed[node] && (cut < 0 || knownInflow(node) > knownInflow(cut))) cut = node;
    if (cut < 0) break;
    ring.push(cut);
    follow([cut]);
  }
  return { upper, lower, mass_kgs, order, ring, into };
}

const isForward = ({ solution }: FlowingAir, e: number): boolean => !(solution.flow_m3s[e]! < 0);

/**
 * Mass flow of every element, kg/s. What is rounding of a solve in which nothing moves counts as still: its direction
 * would mean nothing.
 */
function massFlows({ solution: { flow_m3s }, referenceDensity_kgm3 }: FlowingAir): Float64Array {
  const mass_kgs = new Float64Array(flow_m3s.length);
  let largest_kgs = 0;
  for (let e = 0; e < mass_kgs.length; e++) {
    const mass = Math.abs(flow_m3s[e]!) * referenceDensity_kgm3;
    mass_kgs[e] = mass;
    if (mass > largest_kgs) largest_kgs = mass;
  }
  const still_kgs = Math.max(1e-12, 1e-13 * largest_kgs);
  for (let e = 0; e < mass_kgs.length; e++) if (!(mass_kgs[e]! > still_kgs)) mass_kgs[e] = 0;
  return mass_kgs;
}

/** Whether air moves in the same elements, and the same way. */
function sameWays(air: FlowingAir, mass_kgs: Float64Array, previous: DirectedFlow): boolean {
  for (let e = 0; e < mass_kgs.length; e++) {
    const { from, to } = air.elements[e]!;
    if (previous.upper[e] !== (isForward(air, e) ? from : to)) return false;
    if ((previous.mass_kgs[e] === 0) !== (mass_kgs[e] === 0)) return false;
  }
  return true;
}
