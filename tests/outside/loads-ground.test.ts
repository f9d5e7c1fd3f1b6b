// Ground, slabs and framed assemblies: ASHRAE Handbook—Fundamentals 2021 ch. 18 and ch. 27.
import { describe, expect, it } from 'vitest';
import { groundTemperature_C } from '../../packages/engine/src/climate/ground-temperature.ts';
import { parallelPathU } from '../../packages/engine/src/loads/assembly-u.ts';
import { belowGradeFloorU, belowGradeWallU } from '../../packages/engine/src/loads/below-grade.ts';

const within = (value: number, target: number, share: number) =>
  expect(Math.abs(value / target - 1), `${value} against ${target}`).toBeLessThanOrEqual(share);

describe('below grade, ch. 18 eq. 38–39 against Tables 22–23 (the tables used a slightly different resistance)', () => {
  it.each([
    [0, 0.9, 0, 1.574, 1.571],
    [0, 0.9, 0.88, 0.629, 0.628],
    [0, 2.4, 0, 0.904, 0.902],
    [0, 2.4, 1.76, 0.315, 0.315],
  ])('wall %d to %d m, insulation %d', (top, bottom, insulation, calculated, table) => {
    within(belowGradeWallU(top, bottom, insulation), calculated, 1e-3);
    within(belowGradeWallU(top, bottom, insulation), table, 0.015);
  });

  it.each([
    [6, 0.9, 0.274, 0.271],
    [8, 1.5, 0.192, 0.19],
  ])('floor %d m wide, %d m deep', (width, depth, calculated, table) => {
    within(belowGradeFloorU(width, depth, 0), calculated, 2e-3);
    within(belowGradeFloorU(width, depth, 0), table, 0.015);
  });

  it('a wall insulated to 0.6 m: .4274 above, .6129 below, .5599 over all', () => {
    const upper = belowGradeWallU(0, 0.6, 1.76);
    const lower = belowGradeWallU(0.6, 2.1, 0);
    within(upper, 0.4274, 5e-4);
    within(lower, 0.6129, 5e-4);
    within((upper * 0.6 + lower * 1.5) / 2.1, 0.5599, 5e-4);
  });
});

describe('ground temperature (Kusuda and Achenbach), values worked by hand: mean 15, amplitude 12, α .05 m²/day', () => {
  it.each([
    [0, 35, 3],
    [1, 35, 7.7475],
    [2, 35, 11.4672],
    [2, 218, 18.5659],
    [3, 35, 13.8928],
  ])('%d m deep on day %d', (depth, day, target) =>
    expect(groundTemperature_C(15, 12, 35, 0.05, depth, day)).toBeCloseTo(target, 4),
  );
});

describe('wood-framed wall, ch. 27 example 3: cavity 3.34, stud 1.81 m²·K/W, 75/25 %', () => {
  const layers = (core: number) => [0.03, 0.11, 0.7, core, 0.08, 0.12];
  const u = parallelPathU([
    { share: 0.75, resistances: layers(2.3) },
    { share: 0.25, resistances: layers(0.77) },
  ]);
  it('U .3627 (printed .36), R 2.757 (printed 2.78)', () => {
    within(u, 0.3627, 5e-4);
    within(1 / u, 2.757, 5e-4);
    within(1 / u, 2.78, 0.01);
  });
});
