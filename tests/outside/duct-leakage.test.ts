import {
  fitLeakage,
  flow25Of,
  leakageClassFlow25_m3s,
  leakFlow_m3s,
  leakPressure_Pa,
} from '@airledger/engine/ducts/leakage-law';
import { openingArea_m2, openingFlow_m3s } from '@airledger/engine/ducts/opening-flow';
import { describe, expect, it } from 'vitest';

const cfm = 4.719474e-4;
const squareInch = 6.4516e-4;
/** 0.075 lbm/ft³. */
const standard_kgm3 = 1.20138;

describe('leak law', () => {
  // Q = Q25·(Δp/25)ⁿ, n = 0.6 (common practice, no source): factors from another test pressure to 25 Pa.
  it.each([
    [20, 1.143],
    [19, 1.179],
    [15, 1.359],
    [10, 1.733],
    [5, 2.627],
  ])('from %f Pa', (pressure_Pa, factor) => {
    expect(flow25Of(1, pressure_Pa, 0.6)).toBeCloseTo(factor, 3);
  });

  it.each([
    [12.5, 66.0],
    [50, 151.6],
    [75, 193.3],
  ])('100 cfm at 25 Pa is, at %f Pa, %f cfm', (pressure_Pa, flow_cfm) => {
    expect(leakFlow_m3s(100, 0.6, pressure_Pa)).toBeCloseTo(flow_cfm, 1);
    expect(leakFlow_m3s(100, 0.6, -pressure_Pa)).toBeCloseTo(-flow_cfm, 1);
  });

  // Made-up readings with a known least-squares line, no source.
  it('is fitted through a multi-point test', () => {
    const readings = [
      [10, 57.7],
      [15, 73.6],
      [20, 87.5],
      [25, 100],
      [30, 111.6],
      [40, 132.6],
    ];
    const fit = fitLeakage(
      readings.map(([pressure_Pa, flow_m3s]) => ({ pressure_Pa: pressure_Pa!, flow_m3s: flow_m3s! })),
    );
    expect(fit.exponent).toBeCloseTo(0.60026, 5);
    expect(fit.coefficient).toBeCloseTo(14.4857, 3);
    expect(fit.flow25_m3s).toBeCloseTo(100.016, 2);
    expect(fit.plausible).toBe(true);
    expect(fit.rSquared).toBeGreaterThan(0.9999);
    expect(fit.relativeError25).toBeLessThan(1e-3);
  });

  it('refuses a fit without two pressures', () => {
    const reading = { pressure_Pa: 25, flow_m3s: 0.05 };
    expect(() => fitLeakage([reading, reading])).toThrow(RangeError);
  });

  // SMACNA leakage class, as used in ASHRAE Handbook—Fundamentals 2021 ch. 21: F = CL·P^0.65; at 25 Pa
  // 0.2244 cfm per 100 ft² of duct for each unit of class.
  it('turns a leakage class into flow at 25 Pa', () => {
    const hundredSquareFeet = 9.290304;
    expect(leakageClassFlow25_m3s(1, hundredSquareFeet) / cfm).toBeCloseTo(0.2244, 4);
  });

  // Cummings, Withers, McIlvaine, Sonne & Lombardi 2003, Florida: leakage at 25 Pa and at operation; the effective
  // pressures follow from both with n = 0.6.
  it.each([
    ['return ducts', 88, 170, 75],
    ['supply ducts', 132, 167, 37],
    ['cabinet and return joint', 27.8, 77.5, 138],
    ['supply joint', 2.2, 3.1, 44],
  ])('Florida houses: %s', (_, flow25_cfm, operating_cfm, pressure_Pa) => {
    expect(Math.abs(leakPressure_Pa(flow25_cfm, 0.6, operating_cfm) / pressure_Pa - 1)).toBeLessThan(0.01);
    expect(Math.abs(leakFlow_m3s(flow25_cfm, 0.6, pressure_Pa) / operating_cfm - 1)).toBeLessThan(0.01);
  });
});

describe('transfer opening', () => {
  // Building Science Corporation, research report RR-0005 (2000): 3 Pa, door 32 in with a ½ in undercut (16 in²).
  it.each([
    [50, 27.0, 11.0],
    [100, 54.0, 38.0],
    [150, 80.9, 64.9],
    [200, 107.9, 91.9],
    [250, 134.9, 118.9],
    [300, 161.9, 145.9],
    [350, 188.9, 172.9],
  ])('%f cfm', (flow_cfm, free_in2, afterUndercut_in2) => {
    const area_in2 = openingArea_m2(flow_cfm * cfm, 3, standard_kgm3) / squareInch;
    // Half the last printed digit, and 0.1 % for the factor itself, which is printed with three digits.
    const tolerance_in2 = 0.05 + 0.001 * free_in2;
    expect(Math.abs(area_in2 - free_in2)).toBeLessThan(tolerance_in2);
    expect(Math.abs(area_in2 - 16 - afterUndercut_in2)).toBeLessThan(tolerance_in2);
  });

  it.each([
    [32, 0.5, 29.7],
    [32, 0.75, 44.5],
    [30, 1, 55.6],
  ])('undercut %f × %f in at 3 Pa', (width_in, height_in, flow_cfm) => {
    const flow_m3s = openingFlow_m3s(width_in * height_in * squareInch, 3, standard_kgm3);
    expect(Math.abs(flow_m3s / cfm / flow_cfm - 1)).toBeLessThan(0.002);
  });
});
