import { fromSi, toSi } from '@airledger/engine';
import { flowAtRunningPressure } from '@airledger/engine/readings/flow-at-running-pressure';
import { clockedHeat_W, flowByTemperatureRise } from '@airledger/engine/readings/flow-by-temperature-rise';
import { describe, expect, it } from 'vitest';

const toCfm = (si: number) => fromSi('airflow', si, 'cfm');

/** Btu/h that one cfm takes up for each °F, as the engine has it. */
const factor = (density_lbft3: number, humidityRatio: number): number =>
  1 /
  toCfm(
    flowByTemperatureRise(
      toSi('power', 1, 'Btu/h'),
      toSi('temperatureDifference', 1, '°F'),
      humidityRatio,
      toSi('density', density_lbft3, 'lb/ft³'),
    ),
  );

describe('fan flow by temperature rise', () => {
  // ASHRAE Handbook—Fundamentals ch. 18, air heat factors (from memory): 1.10 Btu/(h·cfm·°F) in standard air with
  // W = 0.01, 60·0.075·(0.24 + 0.45·0.01); 1.08 is the same for dry air; 0.92 at 5000 ft, where air has 0.832 of the density.
  it.each([
    ['standard air with moisture', 0.075, 0.01, 1.1],
    ['standard air, dry', 0.075, 0, 1.08],
    ['5000 ft', 0.075 * 0.832, 0.01, 0.92],
  ])('takes up in %s what the handbook has', (_, density, humidityRatio, expected) => {
    expect(factor(density, humidityRatio)).toBeCloseTo(expected, 2);
  });

  it('is worked by hand for a furnace: 61 800 Btu/h over 55 °F in standard air are 1021 cfm', () => {
    // 61 800/(1.10025·55), with the factor above before it is rounded.
    expect(61_800 / factor(0.075, 0.01) / 55 / 1021.3).toBeCloseTo(1, 2);
  });

  // National Fuel Gas Code (NFPA 54), annex with the input of burners by the time of one turn of a dial (from memory):
  // a turn of 1 ft³ in 36 s is 100 ft³/h, of 2 ft³ in 40 s 180 ft³/h.
  it.each([
    [1, 36, 100],
    [2, 40, 180],
  ])('a dial of %f ft³ that turns in %f s is %f ft³/h', (dial, seconds, perHour) => {
    const heat = clockedHeat_W(
      toSi('volume', dial, 'ft³'),
      seconds,
      toSi('heatingValue', 1030, 'Btu/ft³'),
      1,
    );
    expect(fromSi('power', heat, 'Btu/h') / 1030).toBeCloseTo(perHour, 6);
  });
});

describe('fan flow by plenum pressure', () => {
  // ASHRAE Standard 152 and ANSI/RESNET/ICC 310 in method (from memory): Q·√(P/P_read), roots worked by hand.
  it.each([
    [1000, 0.25, 0.25, 1000],
    [1000, 0.36, 0.25, 1200],
    [1060, 0.31, 0.28, 1115.4],
    [900, 50, 60.5, 818.2],
  ])('%f cfm at %f in use and %f as read is %f cfm', (read, running, at, expected) => {
    expect(flowAtRunningPressure(read, running, at)).toBeCloseTo(expected, 0);
  });

  it('does not turn round with the hoses, and refuses a flow that nothing can be said of', () => {
    expect(flowAtRunningPressure(1, -60, -50)).toBe(flowAtRunningPressure(1, 60, 50));
    expect(() => flowAtRunningPressure(1, 60, -50)).toThrow(RangeError);
    expect(() => flowAtRunningPressure(1, 0, 50)).toThrow(RangeError);
    expect(() => flowByTemperatureRise(1000, 0, 0, 1.2)).toThrow(RangeError);
  });
});
