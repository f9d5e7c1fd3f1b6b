// Peak irradiance and window factors of ASHRAE Handbook—Fundamentals 2021 ch. 17 (its table of values, ±0.5 W/m² rounding).
import { describe, expect, it } from 'vitest';
import { designHourHorizontal_Wm2, peakIrradiance } from '../../packages/engine/src/loads/peak-irradiance.ts';
import {
  fenestrationFactorAt,
  shadeLineFactorAt,
  windowSun,
} from '../../packages/engine/src/loads/window-sun.ts';

const near = (value: number, target: number, tolerance: number) =>
  expect(Math.abs(value - target), `${value} against ${target}`).toBeLessThanOrEqual(tolerance);

describe('peak irradiance', () => {
  it.each([
    ['N', 35, 0, 172, 74.4],
    ['NE', 35, 45, 575.1, 131],
    ['E', 35, 90, 734.3, 164.2],
    ['SE', 35, 135, 588.8, 182],
    ['S', 35, 180, 390.7, 188.2],
    ['W', 25, 270, 702, 178],
    ['E', 30, 90, 719, 171],
    ['W', 40, 270, 748, 159],
    ['E', 45, 90, 761, 154],
    ['W', 50, 270, 773, 149],
    ['E', 55, 90, 783, 145],
    ['W', 60, 270, 792, 141],
    ['S', 25, 180, 218, 197],
    ['S', 40, 180, 471, 185],
    ['S', 50, 180, 619, 180],
    ['S', 60, 180, 749, 175],
  ])('%s at %d°: published', (_name, latitude, facing, total, diffuse) => {
    const sun = peakIrradiance(latitude, facing);
    near(sun.total, total, 0.55);
    near(sun.diffuse, diffuse, 0.55);
    near(sun.beam, sun.total - sun.diffuse, 1e-9);
  });

  it.each([
    ['N', 0, 230.9, 111.2],
    ['NW', 315, 601.1, 159.4],
    ['W', 270, 684.5, 186.5],
    ['SW', 225, 438.7, 199.6],
    ['S', 180, 124.9, 124.9],
  ])('%s at 20°: from the equations, worked by hand', (_name, facing, total, diffuse) => {
    near(peakIrradiance(20, facing).total, total, 0.06);
    near(peakIrradiance(20, facing).diffuse, diffuse, 0.06);
  });

  it('horizontal at 35°: 952 total, 170 diffuse', () => {
    near(peakIrradiance(35).total, 952, 0.5);
    expect(peakIrradiance(35).diffuse).toBe(170);
  });

  it('is the same east and west, at any full turn, and total ≥ diffuse ≥ 0', () => {
    for (let facing = 0; facing < 360; facing += 7)
      for (const latitude of [20, 28, 33.6, 47, 60]) {
        const sun = peakIrradiance(latitude, facing);
        expect(sun.total).toBeGreaterThanOrEqual(sun.diffuse);
        expect(sun.diffuse).toBeGreaterThanOrEqual(0);
        near(peakIrradiance(latitude, 360 - facing).total, sun.total, 1e-9);
        near(peakIrradiance(latitude, facing + 360).total, sun.total, 1e-9);
      }
  });

  it('at the hottest hour is below the noon peak and above half of it', () => {
    for (const latitude of [20, 30, 45, 60]) {
      const share = designHourHorizontal_Wm2(latitude) / peakIrradiance(latitude).total;
      expect(share).toBeGreaterThan(0.5);
      expect(share).toBeLessThan(0.9);
    }
  });
});

describe('window factors', () => {
  it.each([
    [0, 0.44],
    [45, 0.21],
    [90, 0.31],
    [135, 0.37],
    [180, 0.47],
    [225, 0.58],
    [270, 0.56],
    [315, 0.46],
    [405, 0.21],
    [-90, 0.56],
  ])('fenestration factor facing %d°', (facing, factor) => near(fenestrationFactorAt(facing), factor, 1e-12));

  it.each([
    [20, 180, 20],
    [35, 180, 4.7],
    [35, 90, 1.1],
    [35, 270, 1.1],
    [35, 135, 1.7],
    [40, 225, 1.5],
    [45, 45, 1.3],
    [50, 315, 0.9],
    [25, 0, 2.1],
    [32.5, 180, 5.8],
    [55, 180, 2.1],
  ])('shade line factor at %d° facing %d°', (latitude, facing, factor) =>
    near(shadeLineFactorAt(latitude, facing), factor, 1e-9),
  );

  it('an overhang shades more and more of a window, and never more than all of it', () => {
    const glass = {
      solarHeatGain: 0.4,
      shadeFactor: 1,
      screen: 1,
      height_m: 1.2,
      overhangDepth_m: 0,
      overhangAbove_m: 0.2,
    };
    let previous = Number.POSITIVE_INFINITY;
    for (let overhangDepth_m = 0; overhangDepth_m < 3; overhangDepth_m += 0.1) {
      const sun = windowSun(
        {
          id: 'w',
          name: 'w',
          kind: 'window',
          inside: 'r',
          beyond: 'outdoors',
          area_m2: 1,
          u_Wm2K: 2,
          facing_deg: 180,
          glass: { ...glass, overhangDepth_m },
        },
        40,
      );
      expect(sun.gain).toBeLessThanOrEqual(previous);
      expect(sun.shadedShare).toBeLessThanOrEqual(1);
      previous = sun.gain;
    }
    near(previous, peakIrradiance(40, 180).diffuse * 0.4 * 0.47, 1e-9);
  });
});
