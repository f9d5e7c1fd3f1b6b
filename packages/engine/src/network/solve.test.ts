import { describe, expect, it } from 'vitest';
import {
  compileNetwork,
  editElement,
  evaluateElement,
  type Network,
  type NetworkElement,
  solveNetwork,
} from './index.ts';

const air = { density_kgm3: 1.204, kinematicViscosity_m2s: 1.51e-5 };
const square = (id: string, from: number, to: number, area: number, coefficient = 2): NetworkElement => ({
  id,
  from,
  to,
  kind: 'square',
  coefficient,
  area_m2: area,
});
const nodes = (...pressures: (number | undefined)[]) =>
  pressures.map((fixedPressure_Pa, i) => ({ id: `n${i}`, fixedPressure_Pa }));
const solve = (network: Network) => solveNetwork(compileNetwork(network));

describe('a start near the answer', () => {
  const pipe = (coefficient: number): NetworkElement => square('a', 1, 2, 0.01, coefficient);
  const compiled = compileNetwork({
    air,
    nodes: nodes(0, 40, undefined, undefined),
    elements: [
      pipe(2),
      square('b', 2, 0, 0.01),
      square('c', 2, 3, 0.02),
      { id: 'leak', from: 3, to: 0, kind: 'leak', coefficient: 0.002, exponent: 0.65 },
    ],
  });
  const open = solveNetwork(compiled);
  editElement(compiled, 0, pipe(60));
  const throttled = solveNetwork(compiled);
  editElement(compiled, 0, pipe(2));
  solveNetwork(compiled);

  it('is taken up: from the answer itself nothing is left to find', () => {
    editElement(compiled, 0, pipe(60));
    const again = solveNetwork(compiled, { near: throttled });
    expect(again.iterations).toBe(1);
    expect(throttled.iterations).toBeGreaterThan(2);
    again.flow_m3s.forEach((flow, e) => {
      expect(flow).toBeCloseTo(throttled.flow_m3s[e]!, 12);
    });
  });

  it('does not choose the answer: from a wrong one it comes out the same', () => {
    const wrong = {
      flow_m3s: open.flow_m3s.map((flow) => -3 * flow),
      pressure_Pa: open.pressure_Pa.map((pressure) => 100 - pressure),
    };
    const again = solveNetwork(compiled, { near: wrong });
    expect(again.converged).toBe(true);
    again.flow_m3s.forEach((flow, e) => {
      expect(flow).toBeCloseTo(throttled.flow_m3s[e]!, 10);
    });
    expect(again.pressure_Pa[1]).toBe(40);
  });
});

describe('closed parts', () => {
  it('are set aside by name and the rest is solved', () => {
    const network = {
      air,
      nodes: nodes(0, 10, undefined, undefined, undefined),
      elements: [square('a', 1, 2, 0.01), square('b', 2, 0, 0.01), square('island', 3, 4, 0.01)],
    };
    const solution = solve(network);
    expect(solution.converged).toBe(true);
    expect(solution.setAside).toEqual([2]);
    expect(solution.flow_m3s[2]).toBe(0);
    expect(solution.pressure_Pa[2]).toBeCloseTo(5, 9);
    expect(solution.pressure_Pa[3]).toBeNaN();
  });

  it('open and close when a leak is sealed and opened', () => {
    const leak = (coefficient: number): NetworkElement => ({
      id: 'leak',
      from: 2,
      to: 0,
      kind: 'leak',
      coefficient,
      exponent: 0.65,
    });
    const compiled = compileNetwork({
      air,
      nodes: nodes(0, 10, undefined, undefined),
      elements: [square('a', 1, 0, 0.01), square('b', 3, 2, 0.01), leak(0.001)],
    });
    expect(solveNetwork(compiled).setAside).toEqual([]);
    editElement(compiled, 2, leak(0));
    expect(solveNetwork(compiled).setAside).toEqual([1, 2]);
    editElement(compiled, 2, leak(0.001));
    expect(solveNetwork(compiled).setAside).toEqual([]);
  });
});

describe('fans', () => {
  const table = [
    [0, 150],
    [0.2, 118],
    [0.4, 146],
    [0.8, 0],
  ] as const;
  const withFan = (fan: Partial<Extract<NetworkElement, { kind: 'fan' }>>, area: number, zone = 0) => ({
    air,
    nodes: nodes(0, zone, undefined),
    elements: [{ id: 'fan', from: 0, to: 2, kind: 'fan' as const, table, ...fan }, square('out', 2, 1, area)],
  });

  it('with a stall dip work on their true table, on the stable branch', () => {
    const free = solve(withFan({}, 0.06));
    expect(free.converged).toBe(true);
    expect(free.ambiguousFans).toEqual([]);
    const inDip = solve(withFan({}, 0.0286));
    expect(inDip.converged).toBe(true);
    const flow = inDip.flow_m3s[0]!;
    expect(flow).toBeGreaterThan(0.2);
    expect(flow).toBeLessThan(0.4);
    expect(inDip.pressure_Pa[2]).toBeCloseTo(118 + ((flow - 0.2) / 0.2) * 28, 7);
  });

  it('report a second working point against an opposing pressure', () => {
    const solution = solve(withFan({}, 1, 125));
    expect(solution.converged).toBe(true);
    expect(solution.flow_m3s[0]).toBeGreaterThan(0.4);
    expect(solution.ambiguousFans).toEqual([0]);
  });

  it('hold their flow until the table forbids, and say so', () => {
    const control = { kind: 'constant-flow' as const, flow_m3s: 0.3 };
    const held = solve(withFan({ control }, 0.06));
    expect(held.flow_m3s[0]).toBeCloseTo(0.3, 12);
    expect(held.fanAtLimit).toEqual([]);
    const limited = solve(withFan({ control }, 0.01));
    expect(limited.flow_m3s[0]).toBeLessThan(0.3);
    expect(limited.fanAtLimit).toEqual([0]);
  });

  it('let air through when stopped', () => {
    const solution = solve(withFan({ off: true }, 0.06, 10));
    expect(solution.converged).toBe(true);
    expect(solution.flow_m3s[0]).toBeLessThan(0);
  });
});

describe('the last step', () => {
  it('keeps every law to 1e-10 of the largest flow without another look at it', () => {
    const duct = (id: string, from: number, to: number, diameter: number, loss: number): NetworkElement => ({
      id,
      from,
      to,
      kind: 'duct',
      length_m: 4,
      area_m2: (Math.PI / 4) * diameter ** 2,
      hydraulicDiameter_m: diameter,
      roughness_m: 9e-4,
      lossCoefficient: loss,
      slackFactor: 1,
    });
    const leak = (id: string, from: number, coefficient: number): NetworkElement => ({
      id,
      from,
      to: 0,
      kind: 'leak',
      coefficient,
      exponent: 0.6,
    });
    const elements = [
      duct('trunk', 1, 2, 0.25, 1),
      duct('run', 2, 3, 0.16, 1),
      duct('slow run', 2, 4, 0.3, 900),
      square('register', 3, 5, 0.02),
      square('door', 5, 0, 0.01),
      square('wide door', 5, 6, 2),
      leak('trunk leak', 2, 0.001),
      leak('room', 5, 0.003),
      leak('other room', 6, 0.003),
      leak('boot', 4, 0.0001),
      duct('slow end', 4, 6, 0.2, 1),
    ];
    const network: Network = { air, nodes: nodes(0, 100, ...new Array(5).fill(undefined)), elements };
    const compiled = compileNetwork(network);
    for (let turn = 0; turn < 40; turn++) {
      elements[1] = duct('run', 2, 3, 0.16, 1 + ((turn * 7) % 11));
      editElement(compiled, 1, elements[1]);
      const { flow_m3s, pressure_Pa, residual, continuityResidual } = solveNetwork(compiled);
      const largest = flow_m3s.reduce((most, flow) => Math.max(most, Math.abs(flow)), 0);
      elements.forEach((element, i) => {
        const { drop_Pa, slope_Pas_m3 } = evaluateElement(element, flow_m3s[i]!, air);
        const miss = pressure_Pa[element.from]! - pressure_Pa[element.to]! - drop_Pa;
        // Two pressures near 100 Pa differ by no less than 5e-14 Pa of round-off, which a wide door takes for a flow.
        const error = Math.max(0, Math.abs(miss) - 5e-14) / slope_Pas_m3;
        expect(error).toBeLessThanOrEqual((residual + 1e-13) * largest);
      });
      expect(residual).toBeLessThanOrEqual(1e-10);
      expect(continuityResidual).toBeLessThanOrEqual(1e-10);
    }
  });
});

describe('imposed flows', () => {
  it('leave exactly as given and set the pressure of their room', () => {
    const exhaust: NetworkElement = { id: 'bath fan', from: 1, to: 0, kind: 'fixed-flow', flow_m3s: 0.025 };
    const leak: NetworkElement = {
      id: 'envelope',
      from: 0,
      to: 1,
      kind: 'leak',
      coefficient: 0.005,
      exponent: 0.5,
    };
    const solution = solve({ air, nodes: nodes(0, undefined), elements: [exhaust, leak] });
    expect(solution.flow_m3s[0]).toBe(0.025);
    expect(solution.pressure_Pa[1]).toBeCloseTo(-25, 8);
  });
});

describe('negative loss coefficients', () => {
  it('are not clamped: the element gives pressure back', () => {
    const gain = square('tee', 1, 2, 0.03, -0.3);
    const solution = solve({
      air,
      nodes: nodes(20, undefined, undefined, 0),
      elements: [square('a', 0, 1, 0.03), gain, square('b', 2, 3, 0.03)],
    });
    expect(solution.converged).toBe(true);
    const velocityPressure = (1.204 / 2) * (solution.flow_m3s[1]! / 0.03) ** 2;
    expect(solution.pressure_Pa[2]! - solution.pressure_Pa[1]!).toBeCloseTo(0.3 * velocityPressure, 8);
    expect(20 / velocityPressure).toBeCloseTo(3.7, 7);
  });
});

describe('scale', () => {
  it('pressures of square laws times s² and flows times s', () => {
    const network = (s: number): Network => ({
      air,
      nodes: nodes(0, 30 * s * s, undefined, undefined),
      elements: [
        square('a', 1, 2, 0.02),
        square('b', 2, 3, 0.01),
        square('c', 3, 0, 0.02),
        square('d', 2, 0, 0.005),
      ],
    });
    const [one, three] = [solve(network(1)), solve(network(3))];
    one.flow_m3s.forEach((flow, i) => {
      expect(three.flow_m3s[i]).toBeCloseTo(3 * flow, 10);
    });
  });
});

describe('what can not be meant', () => {
  it.each([
    [{ ...square('hole', 0, 1, -1) }, /'hole': area_m2/],
    [{ ...square('loop', 1, 1, 1) }, /'loop': both ends/],
    [{ ...square('NaN', 0, 1, 1, Number.NaN) }, /'NaN': coefficient/],
    [{ id: 'crack', from: 0, to: 1, kind: 'leak', coefficient: 1, exponent: 0.2 }, /'crack': exponent/],
    [{ id: 'fan', from: 0, to: 1, kind: 'fan', table: [] }, /'fan': the table is empty/],
  ] as const)('is refused by name (%#)', (element, message) => {
    expect(() => compileNetwork({ air, nodes: nodes(0, undefined), elements: [element] })).toThrow(message);
  });
});
