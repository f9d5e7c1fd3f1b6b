import { describe, expect, it } from 'vitest';
import { compileNetwork, flowSensitivity, type Network, type NetworkElement, solveNetwork } from './index.ts';

const area = (diameter: number) => (Math.PI / 4) * diameter ** 2;
const duct = (
  id: string,
  from: number,
  to: number,
  length: number,
  diameter: number,
): NetworkElement & { kind: 'duct' } => ({
  id,
  from,
  to,
  kind: 'duct',
  length_m: length,
  area_m2: area(diameter),
  hydraulicDiameter_m: diameter,
  roughness_m: 9e-4,
  lossCoefficient: 1.5,
  slackFactor: 1,
});

/** A return tee, a fan, a trunk and two runs; a power-law filter whose resistance is the parameter. */
function system(coupled: boolean, resistance: number, leak: number): Network {
  const tee = (diameter: number) => ({
    junction: {
      kind: 'converging' as const,
      common: 2,
      ownArea_m2: area(diameter),
      commonArea_m2: area(0.35),
    },
  });
  return {
    air: { density_kgm3: 1.204, kinematicViscosity_m2s: 1.51e-5 },
    nodes: [
      { id: 'room', fixedPressure_Pa: 0 },
      { id: 'tee' },
      { id: 'filter' },
      { id: 'supply' },
      { id: 'split' },
    ],
    elements: [
      { ...duct('return 1', 0, 1, 12, 0.2), ...(coupled ? tee(0.2) : {}) },
      { ...duct('return 2', 0, 1, 3, 0.3), ...(coupled ? tee(0.3) : {}) },
      { id: 'filter', from: 1, to: 2, kind: 'power', resistance, exponent: 1.4 },
      {
        id: 'fan',
        from: 2,
        to: 3,
        kind: 'fan',
        table: [
          [0, 260],
          [0.3, 220],
          [0.6, 120],
          [0.9, 0],
        ],
      },
      duct('trunk', 3, 4, 5, 0.3),
      {
        id: 'leak',
        from: 4,
        to: 0,
        kind: 'leak',
        coefficient: leak,
        exponent: 0.6,
        ...(coupled ? { staticOf: 4 } : {}),
      },
      duct('run 1', 4, 0, 6, 0.18),
      duct('run 2', 4, 0, 9, 0.2),
    ],
  };
}

describe.each([false, true])('flowSensitivity, coupled elements: %s', (coupled) => {
  const [resistance, leak] = [110, 0.004];
  const solve = (r: number, c: number) => solveNetwork(compileNetwork(system(coupled, r, c)));
  const compiled = compileNetwork(system(coupled, resistance, leak));
  const base = solveNetwork(compiled);
  const sensitivity = flowSensitivity(compiled);
  const h = 1e-4;

  it('agrees with central differences by the logarithm of a resistance and of a leak', () => {
    const filterDrop = resistance * base.flow_m3s[2]! ** 1.4;
    const leakDrop = (base.flow_m3s[5]! / leak) ** (1 / 0.6);
    const cases = [
      [
        sensitivity.forward(2),
        filterDrop,
        solve(resistance * Math.exp(h), leak),
        solve(resistance * Math.exp(-h), leak),
      ],
      [
        sensitivity.forward(5),
        -leakDrop / 0.6,
        solve(resistance, leak * Math.exp(h)),
        solve(resistance, leak * Math.exp(-h)),
      ],
    ] as const;
    for (const [response, perParameter, up, down] of cases) {
      for (let i = 0; i < base.flow_m3s.length; i++) {
        const difference = (up.flow_m3s[i]! - down.flow_m3s[i]!) / (2 * h);
        expect(Math.abs(response.flow[i]! * perParameter - difference)).toBeLessThan(1e-7);
      }
      for (let i = 0; i < base.pressure_Pa.length; i++) {
        const difference = (up.pressure_Pa[i]! - down.pressure_Pa[i]!) / (2 * h);
        expect(Math.abs(response.pressure[i]! * perParameter - difference)).toBeLessThan(1e-4);
      }
    }
  });

  it('gives the same derivatives forward and adjoint', () => {
    for (let element = 0; element < base.flow_m3s.length; element++) {
      const { flow, pressure } = sensitivity.forward(element);
      for (let reading = 0; reading < flow.length; reading++) {
        expect(Math.abs(sensitivity.adjointOfFlow(reading)[element]! - flow[reading]!)).toBeLessThan(1e-14);
      }
      for (let node = 0; node < pressure.length; node++) {
        expect(Math.abs(sensitivity.adjointOfPressure(node)[element]! - pressure[node]!)).toBeLessThan(1e-11);
      }
    }
  });
});
