// Infiltration and ventilation: ASHRAE Handbook—Fundamentals 2021 ch. 16 and ch. 17, ASHRAE 62.2.
import type { Survey, Ventilator } from '@airledger/engine';
import { describe, expect, it } from 'vitest';
import { computeLoads } from '../../packages/engine/src/loads/compute-loads.ts';
import {
  hourlyInfiltration_m3s,
  leakageCoefficient,
} from '../../packages/engine/src/loads/hourly-infiltration.ts';
import { combinedInfiltration_m3s, drivingForce } from '../../packages/engine/src/loads/infiltration.ts';
import { leakageArea_cm2 } from '../../packages/engine/src/loads/leakage-area.ts';
import { ventilationRate_m3s } from '../../packages/engine/src/loads/ventilation-rate.ts';
import { smallHouse } from '../fixtures/small-house.ts';

const within = (value: number, target: number, share: number) =>
  expect(Math.abs(value / target - 1), `${value} against ${target}`).toBeLessThanOrEqual(share);

describe('leakage area from a blower door', () => {
  it('7 air changes at 50 Pa in 340 m³, n .65: 496.67 cm² (worked by hand)', () => {
    const leakage50 = (7 * 340) / 3600;
    within(leakageArea_cm2(leakage50, 0.65), 496.67, 1e-4);
    within(leakageCoefficient({ leakage50_m3s: leakage50, leakageExponent: 0.65 }), 0.0519929, 1e-5);
  });

  it('c .051, n .67 is 500 cm² (ch. 16)', () => within(leakageArea_cm2(0.051 * 50 ** 0.67, 0.67), 500, 2e-3));
});

describe('driving force of the design day, ch. 17', () => {
  it.each([
    ['heating', 2.5, 40, 0.086],
    ['heating', 2.5, 20, 0.0685],
    ['heating', 5, 40, 0.121],
    ['heating', 8, 40, 0.163],
    ['cooling', 2.5, 11, 0.0355],
    ['cooling', 5, 11, 0.0459],
    ['heating', 2.4, 23, 0.0703],
    ['cooling', 2.4, 9.1, 0.0333],
  ] as const)('%s, %d m, %d K', (mode, height, difference, force) =>
    within(drivingForce(mode, height, difference, 0), force, 2e-3),
  );
});

describe('hourly infiltration, enhanced model, ch. 16', () => {
  it('c .051, n .67, two storeys on a slab, flue, shelter 4, 39 K, 6.7 m/s: .0596 m³/s, .63 air changes in 340 m³', () => {
    const flow = hourlyInfiltration_m3s(
      0.051,
      0.67,
      { storeys: 2, shelter: 4, flue: true, foundation: 'basement or slab' },
      39,
      6.7,
    );
    within(flow, 0.0596, 2e-3);
    within((flow * 3600) / 340, 0.63, 5e-3);
  });

  it('its parts: .0528 by stack, .0276 by wind', () => {
    const setting = { storeys: 2, shelter: 4, flue: true, foundation: 'basement or slab' } as const;
    within(hourlyInfiltration_m3s(0.051, 0.67, setting, 39, 0), 0.0528, 3e-3);
    within(hourlyInfiltration_m3s(0.051, 0.67, setting, 0, 6.7), 0.0276, 3e-3);
  });
});

describe('unbalanced fans, ch. 17 eq. 12–14', () => {
  it.each([
    [0, 60],
    [40, 80],
    [120, 120],
    [200, 200],
  ])('natural 60 with %d unbalanced', (unbalanced, total) =>
    expect(combinedInfiltration_m3s(60, unbalanced)).toBe(total),
  );
});

describe('ASHRAE 62.2 rate', () => {
  it('195.3 m², 3 bedrooms: 43.3 L/s; 2000 ft², 3 bedrooms: 90 cfm', () => {
    within(ventilationRate_m3s(195.3, 3) * 1000, 43.3, 1e-3);
    // 0.15 L/s per m² and 3.5 L/s per person are themselves rounded from 0.03 and 7.5 cfm.
    within(ventilationRate_m3s(2000 * 0.09290304, 3) * 2118.88, 90, 0.02);
  });
});

describe('ventilators in the load', () => {
  const fan = (over: Partial<Ventilator>): Ventilator => ({
    id: 'fan',
    kind: 'balanced',
    flow_m3s: 0.04,
    sensibleRecovery: 0,
    latentRecovery: 0,
    running: true,
    ...over,
  });
  const house = (...ventilators: Ventilator[]): Survey => ({
    ...smallHouse,
    site: { ...smallHouse.site, elevation_m: 0, heatingDryBulb_C: -2 },
    ventilators,
  });
  const airLoad = (survey: Survey) =>
    computeLoads(survey, 'heating')
      .lines.filter((line) => line.cause === 'infiltration' || line.cause === 'ventilation')
      .reduce((sum, line) => sum + line.sensible_W, 0);
  // 1.23 W per L/s and kelvin over 21 − (−2) = 23 K.
  const perLitre = 1.23 * 23;
  const natural_Ls = airLoad(house()) / perLitre;

  it('recovery: 30 L/s of infiltration and 40 L/s through a 70 % exchanger at 23 K are 1188.2 W (ch. 17)', () => {
    const scaled = house(fan({ sensibleRecovery: 0.7 }));
    const leakage50_m3s = (scaled.house.leakage50_m3s * 30) / natural_Ls;
    within(airLoad({ ...scaled, house: { ...scaled.house, leakage50_m3s } }), 1188.2, 1e-4);
  });

  it('an exhaust fan adds half its flow to the infiltration, a large one only its own', () => {
    within(airLoad(house(fan({ kind: 'exhaust', flow_m3s: 0.01 }))) / perLitre, natural_Ls + 5, 1e-9);
    within(airLoad(house(fan({ kind: 'exhaust', flow_m3s: 0.2 }))) / perLitre, 200, 1e-9);
    within(
      airLoad(house(fan({ kind: 'supply', flow_m3s: 0.01, room: 'bed-1' }))) / perLitre,
      natural_Ls + 5,
      1e-9,
    );
  });

  it('a supply and an exhaust fan that match are a balanced pair', () => {
    const pair = house(
      fan({ id: 'in', kind: 'supply', flow_m3s: 0.02, room: 'bed-1' }),
      fan({ id: 'out', kind: 'exhaust', flow_m3s: 0.02, room: 'hall' }),
    );
    within(airLoad(pair) / perLitre, natural_Ls + 20, 1e-9);
  });

  it('a fan at rest, or one that feeds a return duct, puts no load on a room', () => {
    within(airLoad(house(fan({ running: false }))) / perLitre, natural_Ls, 1e-12);
    within(airLoad(house(fan({ returnPart: 'return-run' }))) / perLitre, natural_Ls, 1e-12);
  });
});
