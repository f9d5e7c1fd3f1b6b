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
  const count = air.elements.length;
  const upper = new Int32Array(count);
  const lower = new Int32Array(count);
  const mass_kgs = new Float64Array(count);
  const still_kgs = stillAir_kgs(air);
  air.elements.forEach((element, e) => {
    const flow = air.solution.flow_m3s[e]!;
    const forward = !(flow < 0);
    upper[e] = forward ? element.from : element.to;
    lower[e] = forward ? element.to : element.from;
    const mass = Math.abs(flow) * air.referenceDensity_kgm3;
    if (mass > still_kgs) mass_kgs[e] = mass;
  });
  if (previous && sameWays(previous, upper, mass_kgs)) return { ...previous, mass_kgs };
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

/** Whether air moves in the same elements, and the same way. */
function sameWays(previous: DirectedFlow, upper: Int32Array, mass_kgs: Float64Array): boolean {
  for (let e = 0; e < upper.length; e++) {
    if (previous.upper[e] !== upper[e]) return false;
    if ((previous.mass_kgs[e] === 0) !== (mass_kgs[e] === 0)) return false;
  }
  return true;
}

/** Below this an element's flow is rounding of a solve in which nothing moves; its direction would mean nothing. */
function stillAir_kgs(air: FlowingAir): number {
  let largest = 0;
  for (const flow of air.solution.flow_m3s) if (Math.abs(flow) > largest) largest = Math.abs(flow);
  return Math.max(1e-12, 1e-13 * largest * air.referenceDensity_kgm3);
}
