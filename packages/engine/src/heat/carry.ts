import type { Air } from '../air/types.ts';
import type { DirectedFlow } from './directed-flow.ts';

/**
 * What happens to a carried quantity (temperature or humidity ratio) in one element:
 * leaving = keep·entering + (1 − keep)·surroundings + add + perOutput·(output of its system).
 */
export type Transfer = {
  readonly keep: number;
  /** Column of the surroundings; -1 when the element has none. */
  readonly surroundings: number;
  readonly add: number;
  readonly perOutput: number;
  /** Column of its system's output; -1 when it has none. */
  readonly output: number;
};

/**
 * The unknowns: one column per room and zone, then ring nodes of the ducts, then a constant, then one column
 * per system for its output. Every temperature in the ducts is an affine function of these, so a row of
 * coefficients per node says everything.
 */
export type Columns = {
  readonly place: ReadonlyMap<string, number>;
  readonly ringStart: number;
  readonly unknowns: number;
  readonly constant: number;
  readonly width: number;
};

/** Temperatures, moisture or their responses at nodes and behind elements, `width` numbers each. */
export type Carried = { readonly node: Float64Array; readonly leaving: Float64Array; readonly width: number };

/** Columns for the places of an account and the ring nodes of its ducts. */
export function columnsOf(places: readonly string[], ringNodes: number, systems: number): Columns {
  const unknowns = places.length + ringNodes;
  return {
    place: new Map(places.map((id, index) => [id, index])),
    ringStart: places.length,
    unknowns,
    constant: unknowns,
    width: unknowns + 1 + systems,
  };
}

/**
 * Carries a quantity through the ducts with the air, mixing at nodes in proportion to mass.
 * @returns for each node, and for the air leaving each element, its row of coefficients.
 */
export function carry(
  air: Air,
  flow: DirectedFlow,
  columns: Columns,
  transfers: readonly Transfer[],
  outdoors: number,
): Carried {
  const { width } = columns;
  const node = new Float64Array(air.nodes.length * width);
  const leaving = new Float64Array(air.elements.length * width);
  air.nodes.forEach((place, n) => {
    if (place.kind === 'outdoors') node[n * width + columns.constant] = outdoors;
    else if (place.kind !== 'duct') node[n * width + columns.place.get(place.id)!] = 1;
  });
  flow.ring.forEach((n, index) => {
    node[n * width + columns.ringStart + index] = 1;
  });

  const leave = (e: number) => {
    const { keep, surroundings, add, perOutput, output } = transfers[e]!;
    const from = flow.upper[e]! * width;
    for (let k = 0; k < width; k++) leaving[e * width + k] = keep * node[from + k]!;
    if (surroundings >= 0) leaving[e * width + surroundings]! += 1 - keep;
    leaving[e * width + columns.constant]! += add;
    if (output >= 0) leaving[e * width + output]! += perOutput;
  };
  const done = new Uint8Array(air.elements.length);
  const leaveOnce = (e: number) => {
    if (done[e]) return;
    done[e] = 1;
    leave(e);
  };
  for (const n of flow.order) {
    let total = 0;
    for (const e of flow.into[n]!) {
      leaveOnce(e);
      total += flow.mass_kgs[e]!;
    }
    for (const e of flow.into[n]!) {
      const share = flow.mass_kgs[e]! / total;
      for (let k = 0; k < width; k++) node[n * width + k]! += share * leaving[e * width + k]!;
    }
  }
  air.elements.forEach((_, e) => {
    leaveOnce(e);
  });
  return { node, leaving, width };
}
