// Check points of moist air, and agreement with psychrolib (MIT; ASHRAE Handbook—Fundamentals ch. 1 formulas).
import fc from 'fast-check';
import psychrolib from 'psychrolib';
import { beforeAll, describe, expect, it } from 'vitest';
import {
  moistAirDensity,
  standardPressure_Pa,
} from '../../packages/engine/src/psychrometrics/air-properties.ts';
import {
  enthalpy,
  saturatedEnthalpy,
  saturatedTemperatureFromEnthalpy,
} from '../../packages/engine/src/psychrometrics/enthalpy.ts';
import {
  humidityRatioFromDewPoint,
  humidityRatioFromRelativeHumidity,
  humidityRatioFromWetBulb,
  relativeHumidity,
} from '../../packages/engine/src/psychrometrics/humidity-ratio.ts';
import {
  saturationPressure,
  saturationSlope,
  saturationTemperature,
} from '../../packages/engine/src/psychrometrics/saturation.ts';
import { dewPoint, wetBulb } from '../../packages/engine/src/psychrometrics/wet-bulb.ts';

const within = (value: number, target: number, share: number) =>
  expect(Math.abs(value / target - 1), `${value} against ${target}`).toBeLessThanOrEqual(share);

beforeAll(() => psychrolib.SetUnitSystem(psychrolib.SI));

describe('check points computed with psychrolib 2.5.0 (Python)', () => {
  it.each([
    [-20, 103.26],
    [-10, 259.903],
    [0.01, 611.657],
    [10, 1227.995],
    [25, 3169.216],
    [40, 7383.46],
  ])('saturation pressure at %d °C', (t, p) => within(saturationPressure(t), p, 1e-5));

  it.each([
    [0, 101325],
    [300, 97772.56],
    [1000, 89874.52],
    [1609.344, 83427.51],
    [2000, 79495.12],
    [2500, 74682.43],
  ])('standard pressure at %d m', (z, p) => within(standardPressure_Pa(z), p, 1e-6));

  it.each([
    [0, 35, { wb: 24 }, 0.014235, 19.499, { rh: 0.4028 }, 71.737, 1.13585],
    [0, 26.7, { wb: 19.4 }, 0.011094, 15.628, { rh: 0.5066 }, 55.157, 1.16945],
    [0, 24, { rh: 0.5 }, 0.0092985, 12.946, { wb: 17.068 }, 47.815, 1.18133],
    [0, 20, { rh: 0.3 }, 0.0043368, 1.914, { wb: 10.853 }, 31.128, 1.201],
    [0, -10, { rh: 0.8 }, 0.0012789, -12.49, { wb: -10.648 }, -6.885, 1.34039],
    [313, 33, { wb: 23.2 }, 0.01453, 19.223, { rh: 0.4427 }, 70.43, 1.10128],
    [1609.344, 35, { wb: 24 }, 0.0184, 20.399, { rh: 0.426 }, 82.426, 0.93295],
    [1609.344, 24, { rh: 0.5 }, 0.0113296, 12.946, { wb: 16.603 }, 52.985, 0.9715],
    [2500, 24, { rh: 0.5 }, 0.0126833, 12.946, { wb: 16.35 }, 56.431, 0.86897],
  ] as const)('air at %d m, %d °C', (z, t, given, w, dew, other, h, density) => {
    const p = standardPressure_Pa(z);
    const ratio =
      'wb' in given
        ? humidityRatioFromWetBulb(t, given.wb, p)
        : humidityRatioFromRelativeHumidity(t, given.rh, p);
    within(ratio, w, 5e-4);
    expect(Math.abs(dewPoint(ratio, p) - dew)).toBeLessThanOrEqual(0.01);
    if ('rh' in other) within(relativeHumidity(t, ratio, p), other.rh, 5e-4);
    else expect(Math.abs(wetBulb(t, ratio, p) - other.wb)).toBeLessThanOrEqual(0.01);
    within(enthalpy(t, ratio) / 1000, h, 5e-4);
    within(moistAirDensity(t, ratio, p), density, 5e-4);
  });

  it('humidity above that of the room grows with elevation at equal wet bulb', () => {
    const grains = (ft: number) => {
      const p = standardPressure_Pa(ft * 0.3048);
      const outdoors = humidityRatioFromWetBulb(35, (75 - 32) / 1.8, p);
      const indoors = humidityRatioFromRelativeHumidity((75 - 32) / 1.8, 0.5, p);
      return (outdoors - indoors) * 7000;
    };
    within(grains(0), 33.81, 2e-3);
    within(grains(5280), 48.64, 2e-3);
    within(grains(7000), 54.34, 2e-3);
  });
});

describe('agreement with psychrolib 1.1.1 (npm)', () => {
  const temperature = fc.double({ min: -40, max: 55, noNaN: true });
  const humidity = fc.double({ min: 0.02, max: 1, noNaN: true });
  const elevation = fc.double({ min: 0, max: 3000, noNaN: true });

  it('pressure, saturation, humidity ratio, dew point, wet bulb, enthalpy, density', () => {
    fc.assert(
      fc.property(temperature, humidity, elevation, (t, rh, z) => {
        const p = standardPressure_Pa(z);
        within(p, psychrolib.GetStandardAtmPressure(z), 1e-9);
        within(saturationPressure(t), psychrolib.GetSatVapPres(t), 1e-9);
        const w = humidityRatioFromRelativeHumidity(t, rh, p);
        within(w, psychrolib.GetHumRatioFromRelHum(t, rh, p), 1e-9);
        within(enthalpy(t, w) + 1e5, psychrolib.GetMoistAirEnthalpy(t, w) + 1e5, 1e-9);
        within(moistAirDensity(t, w, p), psychrolib.GetMoistAirDensity(t, w, p), 1e-9);
        const dew = dewPoint(w, p);
        expect(Math.abs(dew - psychrolib.GetTDewPointFromHumRatio(t, w, p))).toBeLessThan(0.01);
        const wet = wetBulb(t, w, p);
        expect(Math.abs(wet - psychrolib.GetTWetBulbFromHumRatio(t, w, p))).toBeLessThan(0.01);
        within(humidityRatioFromWetBulb(t, wet, p), psychrolib.GetHumRatioFromTWetBulb(t, wet, p), 1e-9);
        within(humidityRatioFromDewPoint(dew, p), psychrolib.GetHumRatioFromTDewPoint(dew, p), 1e-9);
      }),
      { numRuns: 500 },
    );
  });
});

describe('order and inverses', () => {
  const temperature = fc.double({ min: -35, max: 50, noNaN: true });

  it('dew point ≤ wet bulb ≤ dry bulb', () => {
    fc.assert(
      fc.property(temperature, fc.double({ min: 0.02, max: 1, noNaN: true }), (t, rh) => {
        const w = humidityRatioFromRelativeHumidity(t, rh, 101325);
        const wet = wetBulb(t, w, 101325);
        expect(dewPoint(w, 101325)).toBeLessThanOrEqual(wet + 1e-6);
        expect(wet).toBeLessThanOrEqual(t + 1e-6);
      }),
    );
  });

  it('saturation temperature undoes saturation pressure, and the slope is its derivative', () => {
    fc.assert(
      fc.property(fc.double({ min: -90, max: 100, noNaN: true }), (t) => {
        expect(Math.abs(saturationTemperature(saturationPressure(t)) - t)).toBeLessThan(1e-3);
        fc.pre(Math.abs(t - 0.01) > 1e-3);
        const step = Math.log(saturationPressure(t + 1e-4) / saturationPressure(t - 1e-4)) / 2e-4;
        within(saturationSlope(t), step, 1e-5);
      }),
    );
  });

  it('saturated temperature undoes saturated enthalpy', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -30, max: 45, noNaN: true }),
        fc.double({ min: 70000, max: 101325, noNaN: true }),
        (t, p) => {
          expect(Math.abs(saturatedTemperatureFromEnthalpy(saturatedEnthalpy(t, p), p) - t)).toBeLessThan(
            2e-3,
          );
        },
      ),
    );
  });
});
