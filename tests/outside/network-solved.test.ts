import { describe, expect, it } from 'vitest';
import {
  compileNetwork,
  editElement,
  type Network,
  type NetworkElement,
  solveNetwork,
} from '../../packages/engine/src/network/index.ts';
import { SOLVED_NETWORKS, type SolvedElement, type SolvedNetwork } from './network-fixtures.ts';

const air = { density_kgm3: 1.204, kinematicViscosity_m2s: 1.51e-5 };

function element([kind, from, to, parameters]: SolvedElement, index: number): NetworkElement {
  const p = parameters as Record<string, number>;
  const ends = { id: `${kind} ${index}`, from, to };
  switch (kind) {
    case 'duct':
      return {
        ...ends,
        kind: 'duct',
        length_m: p.L!,
        area_m2: p.A ?? (Math.PI / 4) * p.D! ** 2,
        hydraulicDiameter_m: p.Dh ?? p.D!,
        roughness_m: p.eps!,
        lossCoefficient: p.C!,
        slackFactor: p.slack ?? 1,
      };
    case 'quad':
      return { ...ends, kind: 'square', coefficient: p.C!, area_m2: p.Ac! };
    case 'pow':
      return { ...ends, kind: 'power', resistance: p.R!, exponent: p.m! };
    case 'leak':
      return { ...ends, kind: 'leak', coefficient: p.Cl!, exponent: p.n! };
    case 'fan': {
      const table = parameters.tab as [number, number][];
      if (parameters.mode !== 'const') return { ...ends, kind: 'fan', table };
      return { ...ends, kind: 'fan', table, control: { kind: 'constant-flow', flow_m3s: p.Q0! } };
    }
  }
}

function network(solved: SolvedNetwork): Network {
  return {
    air,
    nodes: solved.nodes.map(([id, fixed]) => (fixed === null ? { id } : { id, fixedPressure_Pa: fixed })),
    elements: solved.elements.map(element),
  };
}

const largest = (values: readonly number[]) => Math.max(...values.map(Math.abs));

describe('solved networks (independent Python program: node pressures by hybrid Powell, laws inverted by bracketing)', () => {
  it.each(SOLVED_NETWORKS)('$name', (solved) => {
    const solution = solveNetwork(compileNetwork(network(solved)));
    expect(solution.converged).toBe(true);
    expect(solution.residual).toBeLessThanOrEqual(1e-10);
    expect(solution.continuityResidual).toBeLessThanOrEqual(1e-12);
    const flowScale = largest(solved.elements.map(([, , , , flow]) => flow));
    const pressureScale = largest(solved.nodes.map(([, , pressure]) => pressure));
    solved.elements.forEach(([, , , , flow], i) => {
      expect(Math.abs(solution.flow_m3s[i]! - flow) / flowScale).toBeLessThan(1e-8);
    });
    solved.nodes.forEach(([, , pressure], i) => {
      expect(Math.abs(solution.pressure_Pa[i]! - pressure) / pressureScale).toBeLessThan(1e-8);
    });
    const atLimit = solved.name.startsWith('N4') ? [1] : [];
    expect(solution.fanAtLimit).toEqual(atLimit);
  });
});

describe('converging tee with a negative coefficient and a leak that sees static pressure', () => {
  // Provenance: Powell hybrid solve on all flows and pressures, 9 digits, the same from 40 random starts.
  const round = (
    id: string,
    from: number,
    to: number,
    length: number,
    diameter: number,
    roughness: number,
    loss: number,
  ) =>
    ({
      id,
      from,
      to,
      kind: 'duct',
      length_m: length,
      area_m2: (Math.PI / 4) * diameter ** 2,
      hydraulicDiameter_m: diameter,
      roughness_m: roughness,
      lossCoefficient: loss,
      slackFactor: 1,
    }) as const;
  const area = (diameter: number) => (Math.PI / 4) * diameter ** 2;
  const tee = (diameter: number) =>
    ({ kind: 'converging', common: 2, ownArea_m2: area(diameter), commonArea_m2: area(0.35) }) as const;
  const elements: NetworkElement[] = [
    { ...round('branch 1', 0, 1, 25, 0.15, 9e-4, 8), junction: tee(0.15) },
    { ...round('branch 2', 0, 1, 3, 0.3, 9e-5, 1), junction: tee(0.3) },
    {
      id: 'fan',
      from: 1,
      to: 2,
      kind: 'fan',
      table: [
        [0, 250],
        [0.2, 230],
        [0.4, 190],
        [0.6, 120],
        [0.8, 0],
      ],
    },
    round('trunk', 2, 4, 5, 0.25, 9e-5, 0.3),
    { id: 'leak', from: 4, to: 3, kind: 'leak', coefficient: 0.004, exponent: 0.6, staticOf: 3 },
    round('run 1', 4, 0, 8, 0.2, 9e-4, 2),
    round('run 2', 4, 0, 4, 0.2, 9e-4, 2),
  ];
  const nodes = [
    { id: 'room', fixedPressure_Pa: 0 },
    { id: 'tee' },
    { id: 'outlet' },
    { id: 'attic', fixedPressure_Pa: -2 },
    { id: 'split' },
  ];
  const flows = [
    0.04766453038, 0.406938519, 0.4546030493, 0.4546030493, 0.03058190228, 0.2008180139, 0.2232031332,
  ];
  const pressures = [0, -56.85572507, 114.0332077, -2, 79.30388098];

  it('gives the independently solved flows and pressures', () => {
    const solution = solveNetwork(compileNetwork({ air, nodes, elements }));
    expect(solution.converged).toBe(true);
    expect(solution.residual).toBeLessThanOrEqual(1e-10);
    expect(solution.iterations).toBeLessThanOrEqual(16);
    flows.forEach((flow, i) => {
      expect(Math.abs(solution.flow_m3s[i]! - flow) / 0.4546).toBeLessThan(1e-8);
    });
    pressures.forEach((pressure, i) => {
      expect(Math.abs(solution.pressure_Pa[i]! - pressure) / 114).toBeLessThan(1e-8);
    });
  });

  it('reaches the same state warm, after the branch was shut and opened again', () => {
    const compiled = compileNetwork({ air, nodes, elements });
    solveNetwork(compiled);

    editElement(compiled, 0, { ...elements[0]!, lossCoefficient: 1e9 } as NetworkElement);
    const shut = solveNetwork(compiled);
    expect(shut.converged).toBe(true);
    expect(Math.abs(shut.flow_m3s[0]!)).toBeLessThan(1e-4);
    editElement(compiled, 0, elements[0]!);
    const again = solveNetwork(compiled);
    expect(again.converged).toBe(true);
    flows.forEach((flow, i) => {
      expect(Math.abs(again.flow_m3s[i]! - flow) / 0.4546).toBeLessThan(1e-8);
    });
  });
});
