import type { AirConditions } from '../air/air-density.ts';
import { type AirNetwork, buildAirNetwork } from '../air/build-air-network.ts';
import type { Air } from '../air/types.ts';
import {
  compileNetwork,
  editElements,
  type NetworkElement,
  type NetworkSolution,
  solveNetwork,
} from '../network/index.ts';
import type { Mode, Survey } from '../survey/types.ts';
import type { Cure } from './cures.ts';

/** The air of a house under some of its cures. */
export type CuredAir = Pick<Air, 'nodes' | 'elements' | 'solution'>;

/**
 * Solves the air network of a survey under every subset of cures, by bit mask, in an order of its own. A cure changes
 * few fields of few elements, and no two cures the same field, so one compiled network walks from subset to subset,
 * one cure at a time; where a cure adds an element (a door that was tight) every network is built anew.
 */
export function solveSubsets(
  survey: Survey,
  mode: Mode,
  conditions: AirConditions,
  cures: readonly Cure[],
  visit: (mask: number, air: CuredAir) => void,
): void {
  const build = (mask: number) =>
    buildAirNetwork(
      cures.reduce((cured, cure, k) => (mask & (1 << k) ? cure.apply(cured) : cured), survey),
      mode,
      conditions,
    );
  const base = build(0);
  const single = cures.map((_, k) => build(1 << k));
  if (!single.every((one) => sameElements(one, base))) {
    for (let mask = 0; mask < 2 ** cures.length; mask++) {
      const { network, nodes, elements } = mask === 0 ? base : build(mask);
      visit(mask, { nodes, elements, solution: solveNetwork(compileNetwork(network)) });
    }
    return;
  }
  const compiled = compileNetwork(base.network);
  const visitNow = (mask: number, solution: NetworkSolution) =>
    visit(mask, { nodes: base.nodes, elements: base.elements, solution });
  const first = solveNetwork(compiled);
  visitNow(0, first);
  // Where a fan may work at two points, each solve starts cold, so that the way to a subset does not choose the point.
  const start = first.ambiguousFans.length > 0 ? 'cold' : 'warm';
  const changes = single.map((one) => changedElements(base, one));
  // Sealing lays the solver's records out anew, so it stands at the bits that change least.
  const costOf = ({ seals, edits }: Change) => (seals ? 1e6 : 0) + edits.length;
  const bits = cures.map((_, k) => k).toSorted((a, b) => costOf(changes[a]!) - costOf(changes[b]!));
  /** Solutions by the place of their cures in `bits`. */
  const solved: NetworkSolution[] = [first];
  let mask = 0;
  for (let step = 1; step < 2 ** cures.length; step++) {
    // Gray code: step s turns the bit of its lowest 1; every code without its highest 1 stands before it.
    const turned = step & -step;
    const highest = 1 << (31 - Math.clz32(step));
    const code = step ^ (step >> 1);
    const k = bits[31 - Math.clz32(turned)]!;
    mask ^= 1 << k;
    const source = mask & (1 << k) ? 'after' : 'before';
    editElements(
      compiled,
      changes[k]!.edits.map(
        (edit) => [edit.e, { ...compiled.elements[edit.e]!, ...edit[source] } as NetworkElement] as const,
      ),
    );
    // The turned cure moves the air nearly as it did without the highest.
    const near =
      start === 'cold' || turned === highest
        ? undefined
        : moved(solved[code ^ turned]!, solved[code ^ highest ^ turned]!, solved[code ^ highest]!);
    const solution = solveNetwork(compiled, near ? { near } : { start });
    solved[code] = solution;
    visitNow(mask, solution);
  }
}

/** Flows and pressures of a solution, moved as another one did. */
function moved(
  of: NetworkSolution,
  before: NetworkSolution,
  after: NetworkSolution,
): Pick<NetworkSolution, 'flow_m3s' | 'pressure_Pa'> {
  return {
    flow_m3s: along(of.flow_m3s, before.flow_m3s, after.flow_m3s),
    pressure_Pa: along(of.pressure_Pa, before.pressure_Pa, after.pressure_Pa),
  };
}

function along(of: Float64Array, before: Float64Array, after: Float64Array): Float64Array {
  const values = new Float64Array(of.length);
  for (let i = 0; i < values.length; i++) values[i] = of[i]! + after[i]! - before[i]!;
  return values;
}

const sameElements = ({ network: one }: AirNetwork, { network: base }: AirNetwork): boolean =>
  one.elements.length === base.elements.length &&
  one.elements.every(({ id, from, to }, e) => {
    const other = base.elements[e]!;
    return id === other.id && from === other.from && to === other.to;
  });

/** Fields of elements that a cure changes, before and after it. */
type Change = {
  readonly edits: readonly {
    readonly e: number;
    readonly before: Partial<NetworkElement>;
    readonly after: Partial<NetworkElement>;
  }[];
  /** Whether it makes a leak tight. */
  readonly seals: boolean;
};

function changedElements({ network: base }: AirNetwork, { network: cured }: AirNetwork): Change {
  const edits = cured.elements.flatMap((element, e) => {
    const old = base.elements[e]!;
    const fields = Object.keys(element).filter((field) => {
      const value = element[field as keyof NetworkElement];
      return typeof value !== 'object' && value !== old[field as keyof NetworkElement];
    });
    const of = (from: NetworkElement) =>
      Object.fromEntries(
        fields.map((field) => [field, from[field as keyof NetworkElement]]),
      ) as Partial<NetworkElement>;
    return fields.length > 0 ? [{ e, before: of(old), after: of(element) }] : [];
  });
  return { edits, seals: edits.some(({ after }) => 'coefficient' in after && after.coefficient === 0) };
}
