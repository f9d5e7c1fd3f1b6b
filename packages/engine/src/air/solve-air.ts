import {
  type CompiledNetwork,
  compileNetwork,
  editElement,
  type Network,
  solveNetwork,
} from '../network/index.ts';
import type { Mode, Survey } from '../survey/types.ts';
import type { AirConditions } from './air-density.ts';
import { buildAirNetwork } from './build-air-network.ts';
import { systemAir } from './system-air.ts';
import type { Air } from './types.ts';

/** Compiled networks of earlier solves, so that an edit of the same house starts where the last solve ended. */
const compiledNetworks = new WeakMap<Air, CompiledNetwork>();

/**
 * Where the air of a house goes while its fans run: pressures and flows everywhere, mass conserved to rounding.
 *
 * @param conditions air temperatures in the ducts of each system; they set densities only
 * @param previous an earlier result for the same house: when only parameters changed (a tighter boot, a door shut)
 *   its compiled network and its flows are the start
 * @throws RangeError when the survey can not be meant as written. A network that does not converge is not an
 *   exception: `solution.converged` is false and `solution.worst` says where and why.
 */
export function solveAir(survey: Survey, mode: Mode, conditions: AirConditions, previous?: Air): Air {
  const { network, nodes, elements, systems } = buildAirNetwork(survey, mode, conditions);
  const compiled = reuse(previous && compiledNetworks.get(previous), network) ?? compileNetwork(network);
  const solution = solveNetwork(compiled);
  const air: Air = {
    mode,
    nodes,
    elements,
    solution,
    referenceDensity_kgm3: network.air.density_kgm3,
    systems: systems.map((places) => systemAir(places, network, solution)),
  };
  compiledNetworks.set(air, compiled);
  return air;
}

/** An edit lays the solver's records out anew, which costs about as much as compiling. */
const mostEdits = 1;

/** A compiled network brought up to date, or nothing when it is of another house or too much has changed. */
function reuse(compiled: CompiledNetwork | undefined, network: Network): CompiledNetwork | undefined {
  if (!compiled || !sameTopology(compiled, network)) return undefined;
  const changed: number[] = [];
  network.elements.forEach((element, i) => {
    if (!sameElement(compiled.elements[i]!, element)) changed.push(i);
  });
  if (changed.length > mostEdits) return undefined;
  for (const i of changed) editElement(compiled, i, network.elements[i]!);
  return compiled;
}

function sameTopology(compiled: CompiledNetwork, { nodes, elements, air }: Network): boolean {
  return (
    compiled.air.density_kgm3 === air.density_kgm3 &&
    compiled.network.nodes.length === nodes.length &&
    compiled.elements.length === elements.length &&
    elements.every(({ id, from, to }, i) => {
      const before = compiled.elements[i]!;
      return before.id === id && before.from === from && before.to === to;
    })
  );
}

/** Equal in every parameter; fan tables and tee losses are compared by value. */
function sameElement(a: object, b: object): boolean {
  for (const key in b) {
    const [left, right] = [a[key as keyof object] as unknown, b[key as keyof object] as unknown];
    if (left === right) continue;
    const areObjects = typeof left === 'object' && typeof right === 'object' && left && right;
    if (!areObjects || !sameElement(left, right)) return false;
  }
  return Object.keys(a).length === Object.keys(b).length;
}
