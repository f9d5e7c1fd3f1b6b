import { describe, expect, test } from 'vitest';
import { standardDensity_kgm3 } from '../../packages/engine/src/ducts/leakage-law.ts';
import { fitLeakageTest } from '../../packages/engine/src/leakage-test/fit-leakage-test.ts';
import { standardPressure_Pa } from '../../packages/engine/src/psychrometrics/air-properties.ts';
import { instrumentFlow } from '../../packages/engine/src/readings/instrument-flow.ts';

const cfm = 4.719474432e-4;
const point = (pressure_Pa: number, flow: number) => ({ pressure_Pa, flow_m3s: flow * cfm });
const fitted = (points: readonly (readonly [number, number])[], error = 0.03) =>
  fitLeakageTest(
    points.map(([pressure, flow]) => point(pressure, flow)),
    error,
    standardDensity_kgm3,
  );

// Six points of Q = 14.5·Δp^0.6, rounded as a gauge shows them; n, C and Q25 by least squares of ln Q on ln Δp worked
// out by hand (the reduction of ASTM E779 annex A1, from memory).
const six = [
  [10, 57.7],
  [15, 73.6],
  [20, 87.5],
  [25, 100],
  [30, 111.6],
  [40, 132.6],
] as const;

describe('multi-point test (reduction of ASTM E779 and E1554, from memory)', () => {
  test('exponent, flow at 25 Pa', () => {
    const { exponent, flow25_m3s, exponentStanding, extrapolation } = fitted(six);
    expect(exponent).toBeCloseTo(0.60026, 5);
    expect(flow25_m3s / cfm).toBeCloseTo(100.016, 3);
    expect([exponentStanding, extrapolation]).toEqual(['plausible', 1]);
  });

  test('95 % range by Student’s t of 4 degrees, 2.776, when the instrument is perfect', () => {
    const scattered = [
      [10, 60],
      [15, 71],
      [20, 90],
      [25, 97],
      [30, 115],
      [40, 130],
    ] as const;
    const { low_m3s, high_m3s, flow25_m3s } = fitted(scattered, 0);
    const x = scattered.map(([pressure]) => Math.log(pressure / 25));
    const y = scattered.map(([, flow]) => Math.log(flow));
    const mean = (values: number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
    const sxx = x.reduce((sum, each) => sum + (each - mean(x)) ** 2, 0);
    const n = x.reduce((sum, each, i) => sum + (each - mean(x)) * (y[i]! - mean(y)), 0) / sxx;
    const line = (each: number) => mean(y) + n * (each - mean(x));
    const s = Math.sqrt(x.reduce((sum, each, i) => sum + (y[i]! - line(each)) ** 2, 0) / 4);
    const half = 2.776 * s * Math.sqrt(1 / 6 + mean(x) ** 2 / sxx);
    expect(Math.log(flow25_m3s / cfm)).toBeCloseTo(line(0), 10);
    expect(Math.log(high_m3s / flow25_m3s)).toBeCloseTo(half, 6);
    expect(Math.log(flow25_m3s / low_m3s)).toBeCloseTo(half, 6);
  });
});

// Factors (25/P)^0.6 for one point that does not reach 25 Pa: exponent of ASHRAE Standard 152 practice (from memory).
test.each([
  [20, 1.143],
  [19, 1.179],
  [15, 1.359],
  [10, 1.733],
  [5, 2.627],
])('from %d Pa to 25 Pa the flow grows by %f', (pressure, factor) => {
  const { flow25_m3s, extrapolation, exponentStanding } = fitted([[pressure, 100]]);
  expect(flow25_m3s / (100 * cfm)).toBeCloseTo(factor, 3);
  expect(extrapolation).toBeCloseTo(factor, 3);
  expect(exponentStanding).toBe('assumed');
});

test('the further from 25 Pa, the wider the range', () => {
  const errors = [25, 15, 10, 5].map((pressure) => fitted([[pressure, 100]]).relativeError);
  expect(errors).toEqual(errors.toSorted((a, b) => a - b));
  expect(new Set(errors).size).toBe(4);
});

describe('exponents that no duct leak has', () => {
  const law = (exponent: number) => [8, 15, 25, 40].map((p) => [p, 100 * (p / 25) ** exponent] as const);
  test.each([
    [0.6, 'plausible'],
    [0.85, 'unlikely'],
    [0.3, 'impossible'],
    [1.2, 'impossible'],
  ])('%f is %s', (exponent, words) => expect(fitted(law(exponent)).exponentStanding).toBe(words));
});

describe('density', () => {
  // Standard atmosphere: ASHRAE Handbook—Fundamentals ch. 1; an orifice that shows the flow of standard air reads
  // √(ρ/ρs) low in volume where the air is thin (Bernoulli).
  const denver = standardPressure_Pa(1609) / (287.042 * (24 + 273.15));
  test('the true volume in thin air is more than an orifice shows', () =>
    expect(instrumentFlow(1, 'standard air', denver, denver)).toBeCloseTo(
      Math.sqrt(standardDensity_kgm3 / denver),
      12,
    ));
  test('the same ducts leak less in standard air, by (ρ/ρs)^(1−n)', () => {
    const here = fitLeakageTest(
      six.map(([p, q]) => point(p, q)),
      0.03,
      denver,
    );
    expect(here.flow25_m3s / fitted(six).flow25_m3s).toBeCloseTo(
      (denver / standardDensity_kgm3) ** (1 - 0.60026),
      5,
    );
  });
});
