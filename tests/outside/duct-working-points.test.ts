import { leakCoefficient } from '@airledger/engine/ducts/leakage-law';
import {
  compileNetwork,
  type Network,
  type NetworkElement,
  solveNetwork,
} from '@airledger/engine/network/index';
import { describe, expect, it } from 'vitest';

const cfm = 4.719474e-4;
const inchWater = 249.0889;
const air = { density_kgm3: 1.20138, kinematicViscosity_m2s: 1.50998e-5 };

/** Resistance of Δp[in.wc] = R·Q[cfm]^m in Pa/(m³/s)^m. */
const resistance = (perCfm: number, exponent: number) => (perCfm * inchWater) / cfm ** exponent;

/** Fan Δp = 0.80 − 2.0e-7·Q², in.wc and cfm, in straight pieces of 5 cfm. */
const fan: NetworkElement = {
  id: 'fan',
  kind: 'fan',
  from: 0,
  to: 1,
  table: Array.from(
    { length: 401 },
    (_, i) => [5 * i * cfm, (0.8 - 2e-7 * (5 * i) ** 2) * inchWater] as const,
  ),
};
const duct: NetworkElement = {
  id: 'duct',
  kind: 'power',
  from: 1,
  to: 0,
  resistance: resistance(3.5e-7, 2),
  exponent: 2,
};

function solve(
  elements: readonly NetworkElement[],
  nodes: Network['nodes'] = [{ id: 'house', fixedPressure_Pa: 0 }, { id: 'plenum' }],
) {
  const solution = solveNetwork(compileNetwork({ nodes, elements, air }));
  expect(solution.converged).toBe(true);
  return solution;
}

describe('working points that can be solved by hand', () => {
  // Q = √(0.80/5.5e-7), elementary.
  it('fan against a square system', () => {
    const { flow_m3s, pressure_Pa } = solve([fan, duct]);
    expect(flow_m3s[0]! / cfm).toBeCloseTo(1206.05, 1);
    expect(pressure_Pa[1]! / inchWater).toBeCloseTo(0.50909, 4);
  });

  // The same with a plenum leak of 150 cfm at 25 Pa, n = 0.6: root of one equation, found by bisection here.
  it('a plenum leak raises the fan flow and lowers what is delivered', () => {
    const leak: NetworkElement = {
      id: 'leak',
      kind: 'leak',
      from: 1,
      to: 0,
      coefficient: leakCoefficient(150 * cfm, 0.6),
      exponent: 0.6,
    };
    const { flow_m3s, pressure_Pa } = solve([fan, duct, leak]);
    expect(pressure_Pa[1]! / inchWater).toBeCloseTo(0.40036, 4);
    expect(flow_m3s[0]! / cfm).toBeCloseTo(1413.57, 1);
    expect(flow_m3s[1]! / cfm).toBeCloseTo(1069.53, 1);
    expect(flow_m3s[2]! / cfm).toBeCloseTo(344.04, 1);
    const surplus = (pressure: number) =>
      Math.sqrt((0.8 - pressure) / 2e-7) -
      Math.sqrt(pressure / 3.5e-7) -
      150 * ((pressure * inchWater) / 25) ** 0.6;
    let [low, high] = [0.01, 0.79];
    for (let i = 0; i < 60; i++) {
      const middle = (low + high) / 2;
      if (surplus(middle) > 0) low = middle;
      else high = middle;
    }
    expect(pressure_Pa[1]! / inchWater).toBeCloseTo(low, 5);
  });

  // Two branches Δp = R·qⁿ, R 1e-5 and 4e-5 in.wc/cfmⁿ, 300 cfm together, elementary.
  it.each([
    [2, 200, 100, 0.4],
    [1.9, 202.417, 97.583, 0.240918],
  ])('parallel branches, exponent %f', (exponent, first, second, pressure) => {
    const branch = (id: string, perCfm: number): NetworkElement => ({
      id,
      kind: 'power',
      from: 1,
      to: 0,
      resistance: resistance(perCfm, exponent),
      exponent,
    });
    const supply: NetworkElement = { id: 'supply', kind: 'fixed-flow', from: 0, to: 1, flow_m3s: 300 * cfm };
    const { flow_m3s, pressure_Pa } = solve([branch('a', 1e-5), branch('b', 4e-5), supply]);
    expect(flow_m3s[0]! / cfm).toBeCloseTo(first, 2);
    expect(flow_m3s[1]! / cfm).toBeCloseTo(second, 2);
    expect(pressure_Pa[1]! / inchWater).toBeCloseTo(pressure, 5);
  });
});
