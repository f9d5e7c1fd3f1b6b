import { describe, expect, it } from 'vitest';
import {
  evaluateElement,
  frictionFactor,
  leakFlow,
  type NetworkElement,
} from '../../packages/engine/src/network/index.ts';

const air = { density_kgm3: 1.204, kinematicViscosity_m2s: 1.51e-5 };
const ends = { id: 'e', from: 0, to: 1 };
const close = (found: number, expected: number, tolerance: number) =>
  expect(Math.abs(found / expected - 1)).toBeLessThan(tolerance);

describe('single laws (independent Python program: Colebrook inverted by bracketing, 10 digits)', () => {
  const duct: NetworkElement = {
    ...ends,
    kind: 'duct',
    length_m: 10,
    area_m2: (Math.PI / 4) * 0.2 ** 2,
    hydraulicDiameter_m: 0.2,
    roughness_m: 9e-4,
    lossCoefficient: 3,
    slackFactor: 1,
  };
  const leak: NetworkElement = { ...ends, kind: 'leak', coefficient: 0.002, exponent: 0.65 };
  const square: NetworkElement = { ...ends, kind: 'square', coefficient: 2.5, area_m2: 0.018 };
  it.each([
    ['laminar duct', duct, 0.001, 0.00645946142, 8.289321997],
    ['laminar duct', duct, 0.0024, 0.02165103895, 13.41293161],
    ['duct between', duct, 0.006, 0.1026772369, 39.92798735],
    ['duct between', duct, 0.008, 0.2009681547, 55.75670733],
    ['turbulent duct', duct, 0.02, 1.196571494, 115.6528209],
    ['turbulent duct', duct, 0.2, 110.5285434, 1098.450166],
    ['leak', leak, 0.01, 11.8942885, 1829.890538],
    ['leak', leak, 1e-4, 0.00996357952, 153.2858388],
    ['square', square, 0.01, 0.4645061728, 92.90123457],
    ['square inside its foot', square, 1e-5, 1.078120825e-5, 1.079121947],
  ] as const)('%s at %d', (_name, element, flow, drop, slope) => {
    const found = evaluateElement(element, flow, air);
    close(found.drop_Pa, drop, 1e-8);
    close(found.slope_Pas_m3, slope, 1e-8);
    const back = evaluateElement(element, -flow, air);
    expect(back.drop_Pa).toBe(-found.drop_Pa);
    expect(back.slope_Pas_m3).toBe(found.slope_Pas_m3);
  });

  it('a leak by pressure is the inverse of a leak by flow, foot included', () => {
    for (const flow of [1e-2, 1e-4, 1e-5, 1e-7]) {
      close(leakFlow(evaluateElement(leak, flow, air).drop_Pa, 0.002, 0.65), flow, 1e-11);
    }
  });

  it('thinner air at the same mass flow drops more, in proportion', () => {
    const hot = { ...duct, density_kgm3: 1.0 };
    close(evaluateElement(hot, 0.2, air).drop_Pa, 110.5285434 * 1.204, 1e-8);
  });
});

describe('friction factor', () => {
  // Colebrook roots by bisection here in the test, independent of the Newton steps of the engine.
  const bisected = (reynolds: number, relative: number) => {
    let [low, high] = [1, 50];
    for (let i = 0; i < 200; i++) {
      const x = (low + high) / 2;
      if (x + 2 * Math.log10(relative / 3.7 + (2.51 * x) / reynolds) < 0) low = x;
      else high = x;
    }
    return 1 / low ** 2;
  };
  it.each([4000, 2e4, 1e5, 1e7])('satisfies the Colebrook equation at Re %d', (reynolds) => {
    for (const relative of [0, 1e-5, 1e-3, 0.05]) {
      close(frictionFactor(reynolds, relative), bisected(reynolds, relative), 1e-12);
    }
  });

  it('ASHRAE Handbook—Fundamentals 2021 ch. 21 chart values: galvanized .0003 ft and flex .003 ft, f to five figures', () => {
    // Re and f recomputed from Colebrook at standard air, 8 in / 200 cfm and 8 in / 200 cfm.
    expect(frictionFactor(39169, 0.0003 / (8 / 12))).toBeCloseTo(0.023419, 5);
    expect(frictionFactor(39169, 0.003 / (8 / 12))).toBeCloseTo(0.031828, 5);
  });

  it('Swamee–Jain (1976) is within 2 % of Colebrook, with a continuous cubic below (Dunlop 1991)', () => {
    close(
      frictionFactor(74534, 1e-3, 'swamee-jain'),
      0.25 / Math.log10(1e-3 / 3.7 + 5.74 / 74534 ** 0.9) ** 2,
      1e-12,
    );
    for (const law of ['colebrook', 'swamee-jain'] as const) {
      for (const edge of [2000, 4000]) {
        close(
          frictionFactor(edge * (1 - 1e-9), 0.01, law),
          frictionFactor(edge * (1 + 1e-9), 0.01, law),
          1e-7,
        );
      }
    }
  });
});
