import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  compileNetwork,
  editElement,
  evaluateElement,
  type Network,
  type NetworkElement,
  solveNetwork,
} from '../../packages/engine/src/network/index.ts';
import { seededRandom } from '../../packages/engine/src/numerics/seeded-random.ts';
import { hardNetwork } from './network-random.ts';

const seeds = fc.integer({ min: 0, max: 2 ** 31 - 1 });
const largest = (values: Float64Array) => values.reduce((most, value) => Math.max(most, Math.abs(value)), 0);

describe('hard networks', () => {
  it('all of 10,000 converge to 1e-10 from a cold start', { timeout: 120_000 }, () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const solution = solveNetwork(compileNetwork(hardNetwork(seed)));
        return solution.converged && solution.residual <= 1e-10 && solution.continuityResidual <= 1e-10;
      }),
      { numRuns: 10_000, seed: 1 },
    );
  });

  it('converge with tees and static-pressure leaks sprinkled over them', { timeout: 120_000 }, () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const solution = solveNetwork(
          compileNetwork(withCrossTerms(hardNetwork(seed, { zeroResistance: false }), seed)),
        );
        return solution.converged && solution.residual <= 1e-10 && solution.continuityResidual <= 1e-10;
      }),
      { numRuns: 1000, seed: 5 },
    );
  });

  it('a warm solve after an edit is the cold solve of the edited network', () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const network = hardNetwork(seed, { zeroResistance: false });
        const random = seededRandom(seed + 1);
        const compiled = compileNetwork(network);
        solveNetwork(compiled);
        const elements = [...network.elements];
        for (let edit = 0; edit < 3; edit++) {
          const index = Math.floor(random() * elements.length);
          elements[index] = changed(elements[index]!, random());
          editElement(compiled, index, elements[index]!);
          const warm = solveNetwork(compiled);
          const cold = solveNetwork(compileNetwork({ ...network, elements }));
          expect(warm.converged && cold.converged).toBe(true);
          expectSameFlows(warm.flow_m3s, cold.flow_m3s, compiled.largestStart);
        }
      }),
      { numRuns: 300, seed: 2 },
    );
  });

  it('naming and ordering change nothing', () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const network = hardNetwork(seed, { zeroResistance: false });
        const random = seededRandom(seed + 2);
        const nodeOrder = shuffled(network.nodes.length, random);
        const elementOrder = shuffled(network.elements.length, random);
        const position = new Map(nodeOrder.map((old, now) => [old, now]));
        const other: Network = {
          ...network,
          nodes: nodeOrder.map((old, now) => ({ ...network.nodes[old]!, id: `node ${now}` })),
          elements: elementOrder.map((old, now) => {
            const element = network.elements[old]!;
            return {
              ...element,
              id: `element ${now}`,
              from: position.get(element.from)!,
              to: position.get(element.to)!,
            };
          }),
        };
        const compiled = compileNetwork(network);
        const a = solveNetwork(compiled).flow_m3s;
        const b = solveNetwork(compileNetwork(other)).flow_m3s;
        expectSameFlows(
          Float64Array.from(elementOrder, (old) => a[old]!),
          b,
          compiled.largestStart,
        );
      }),
      { numRuns: 300, seed: 3 },
    );
  });
});

/**
 * Oracle: bracketing only, no derivative and no linear algebra. Every law is inverted by bisection from the drop of one
 * evaluation; node pressures are relaxed one at a time to the zero of their balance. Slow and simple.
 */
describe('independent relaxation by bisection', () => {
  it('gives the same pressures on small networks', { timeout: 120_000 }, () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const network = smallNetwork(seed);
        const solution = solveNetwork(compileNetwork(network));
        expect(solution.converged).toBe(true);
        const relaxed = relax(network);
        const scale = Math.max(1e-3, largest(solution.pressure_Pa));
        relaxed.forEach((pressure, i) => {
          expect(Math.abs(pressure - solution.pressure_Pa[i]!) / scale).toBeLessThan(1e-6);
        });
      }),
      { numRuns: 25, seed: 4 },
    );
  });
});

/** A ring of four free nodes between two zones, laws drawn at random, flows of ordinary size. */
function smallNetwork(seed: number): Network {
  const random = seededRandom(seed);
  const law = (id: string, from: number, to: number): NetworkElement => {
    const draw = random();
    if (draw < 0.4) {
      const diameter = 0.1 + 0.2 * random();
      return {
        id,
        from,
        to,
        kind: 'duct',
        length_m: 1 + 9 * random(),
        area_m2: (Math.PI / 4) * diameter ** 2,
        hydraulicDiameter_m: diameter,
        roughness_m: 9e-4,
        lossCoefficient: 3 * random(),
        slackFactor: 1 + random(),
      };
    }
    if (draw < 0.7)
      return {
        id,
        from,
        to,
        kind: 'leak',
        coefficient: 0.002 + 0.01 * random(),
        exponent: 0.5 + 0.3 * random(),
      };
    return { id, from, to, kind: 'square', coefficient: 1 + 2 * random(), area_m2: 0.01 + 0.05 * random() };
  };
  const pairs = [
    [0, 2],
    [2, 3],
    [3, 4],
    [4, 5],
    [5, 2],
    [3, 1],
    [4, 0],
    [5, 1],
  ] as const;
  return {
    air: { density_kgm3: 1.204, kinematicViscosity_m2s: 1.51e-5 },
    nodes: [
      { id: 'zone', fixedPressure_Pa: 0 },
      { id: 'plenum', fixedPressure_Pa: 20 + 100 * random() },
      ...[2, 3, 4, 5].map((i) => ({ id: `n${i}` })),
    ],
    elements: pairs.map(([from, to], i) => law(`e${i}`, from, to)),
  };
}

function relax(network: Network): number[] {
  const laws = network.elements.map((element) => {
    // Evaluations are tabulated densely in the flow and inverted by bisection between neighbours.
    const flows = Array.from({ length: 1201 }, (_, i) => 10 ** (-6 + i / 200));
    const drops = flows.map((flow) => evaluateElement(element, flow, network.air).drop_Pa);
    return (drop: number) => {
      const size = Math.abs(drop);
      if (size <= drops[0]!) return (drop / drops[0]!) * flows[0]!;
      let low = 0;
      let high = drops.length - 1;
      while (high - low > 1) {
        const middle = (low + high) >> 1;
        if (drops[middle]! < size) low = middle;
        else high = middle;
      }
      const share = Math.log(size / drops[low]!) / Math.log(drops[high]! / drops[low]!);
      return Math.sign(drop) * flows[low]! * (flows[high]! / flows[low]!) ** share;
    };
  });
  const pressures = network.nodes.map((node) => node.fixedPressure_Pa ?? 1);
  const balance = (node: number, pressure: number) =>
    network.elements.reduce((sum, { from, to }, i) => {
      if (from === node) return sum - laws[i]!(pressure - pressures[to]!);
      if (to === node) return sum + laws[i]!(pressures[from]! - pressure);
      return sum;
    }, 0);
  for (let sweep = 0; sweep < 400; sweep++) {
    let moved = 0;
    for (let node = 2; node < pressures.length; node++) {
      let [low, high] = [-500, 500];
      for (let i = 0; i < 60; i++) {
        const middle = (low + high) / 2;
        if (balance(node, middle) > 0) low = middle;
        else high = middle;
      }
      moved = Math.max(moved, Math.abs(low - pressures[node]!));
      pressures[node] = low;
    }
    if (moved < 1e-10) break;
  }
  return pressures;
}

/** Half of the leaks see the static pressure of a neighbouring duct, a third of the ducts end in a tee. */
function withCrossTerms(network: Network, seed: number): Network {
  const random = seededRandom(seed + 7);
  const elements = network.elements.map((element, i): NetworkElement => {
    const common = network.elements.findIndex(
      (other, j) =>
        j !== i &&
        other.kind === 'duct' &&
        other.length_m > 0 &&
        (other.to === element.from || other.from === element.to),
    );
    const duct = network.elements[common];
    if (duct?.kind !== 'duct') return element;
    if (element.kind === 'leak' && random() < 0.5) return { ...element, staticOf: common };
    if (element.kind !== 'duct' || random() > 0.33) return element;
    const diverging = random() < 0.5 ? ('diverging-branch' as const) : ('diverging-straight' as const);
    const kind = duct.from === element.to ? ('converging' as const) : diverging;
    return {
      ...element,
      junction: { kind, common, ownArea_m2: element.area_m2, commonArea_m2: duct.area_m2 },
    };
  });
  return { ...network, elements };
}

/** With everything off there is no flow to be relative to: then the scale is a share of what 10 Pa would drive. */
function expectSameFlows(a: Float64Array, b: Float64Array, flowAtTenPascals: number): void {
  const scale = Math.max(largest(a), largest(b), 1e-5 * flowAtTenPascals);
  for (let i = 0; i < a.length; i++) expect(Math.abs(a[i]! - b[i]!) / scale).toBeLessThan(1e-7);
}

function shuffled(count: number, random: () => number): number[] {
  const order = Array.from({ length: count }, (_, i) => i);
  for (let i = count - 1; i > 0; i--) {
    const j = Math.floor(random() * (i + 1));
    [order[i], order[j]] = [order[j]!, order[i]!];
  }
  return order;
}

/** The kind of edit a user makes: a damper turned, a leak sealed or opened, a fan stopped, an exhaust changed. */
function changed(element: NetworkElement, share: number): NetworkElement {
  switch (element.kind) {
    case 'duct':
      return {
        ...element,
        lossCoefficient: share < 0.3 ? 1e8 : 10 * share,
        length_m: element.length_m * (1 - 0.3 * share),
      };
    case 'square':
      return { ...element, coefficient: share < 0.3 ? 1e8 : 5 * share };
    case 'leak':
      return { ...element, coefficient: share < 0.2 ? 0 : element.coefficient * 3 * share };
    case 'power':
      return { ...element, resistance: element.resistance * (0.3 + 2 * share) };
    case 'fan':
      return { ...element, off: share < 0.5 };
    case 'fixed-flow':
      return { ...element, flow_m3s: element.flow_m3s * share };
    case 'table-loss':
      return {
        ...element,
        points: element.points.map(([flow, drop]) => [flow, drop * (0.5 + share)] as const),
      };
  }
}
