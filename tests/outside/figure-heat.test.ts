import { fromSi, toSi } from '@airledger/engine';
import { insulationAgainstCondensation, thicknessOnRound } from '@airledger/engine/figures/condensation';
import { figures } from '@airledger/engine/figures/figures';
import { cylinderConductance, temperatureAlong } from '@airledger/engine/figures/temperature';
import { describe, expect, it } from 'vitest';

const ask = (name: string, inputs: Parameters<(typeof figures)[string]['answer']>[0]) =>
  figures[name]!.answer(inputs).result;
const inches = (value: number) => toSi('size', value, 'in');
const feet = (value: number) => toSi('length', value, 'ft');
const cfm = (value: number) => toSi('airflow', value, 'cfm');
const fahrenheit = (value: number) => toSi('temperature', value, '°F');
const toFahrenheit = (si: number) => fromSi('temperature', si, '°F');
const r = (value: number) => toSi('resistance', value, 'R');
const toR = (si: number) => fromSi('resistance', si, 'R');

describe('temperature along a run', () => {
  // Exponential law worked by hand with the trade's 1.08 Btu/h per cfm·°F: 100 cfm, 6 in × 25 ft, 55 °F in a 120 °F attic.
  it.each([
    [6, 58.822],
    [8, 57.888],
    [4.2, 60.391],
    [1, 74.814],
  ])('R-%f', (label, leaving) => {
    const result = ask('temperature', {
      diameter: inches(6),
      length: feet(25),
      flow: cfm(100),
      entering: fahrenheit(55),
      surroundings: fahrenheit(120),
      insulation: r(label),
    });
    expect(toFahrenheit(result['leaving temperature']!.value)).toBeCloseTo(leaving, 2);
  });

  // The same for 400 cfm, 10 in × 40 ft, 110 °F in 30 °F, R-8.
  it('warm air in the cold', () => {
    const result = ask('temperature', {
      diameter: inches(10),
      length: feet(40),
      flow: cfm(400),
      entering: fahrenheit(110),
      surroundings: fahrenheit(30),
      insulation: r(8),
    });
    expect(toFahrenheit(result['leaving temperature']!.value)).toBeCloseTo(107.612, 2);
  });

  // ASHRAE Handbook—Fundamentals 2021 ch. 23, Examples 1 and 2: 0.6 × 0.9 m, 20 m, 15 m/s lose 2.7 K at 444 W/m² and
  // 0.27 K at 44.7 W/m². The flux is given, so the resistance is 60 K over it.
  it.each([
    [444, 2.7, 0.05],
    [44.7, 0.27, 0.005],
  ])('rectangular duct that loses %f W/m²', (flux, drop, rounding) => {
    const result = ask('temperature', {
      width: 0.6,
      height: 0.9,
      length: 20,
      flow: 0.6 * 0.9 * 15,
      entering: 80,
      surroundings: 20,
      insulation: 60 / flux,
      'air-temperature': 20,
    });
    expect(Math.abs(-result.change!.value - drop)).toBeLessThanOrEqual(rounding);
  });

  // ISO 12241 (from memory), insulated pipe worked by hand: Di 0.2032 m, 50 mm, λ 0.04, h 8 W/(m²·K),
  // 409.167 kg/h of air with cp 1.006 kJ/(kg·K), 12 m, from 50 °C in 0 °C.
  it('round pipe by ISO 12241', () => {
    const conductance = cylinderConductance(0.2032, 0.05, 0.04, 1 / 8);
    expect(conductance).toBeCloseTo(0.580187, 6);
    expect(1 / conductance).toBeCloseTo(1.72358, 5);
    const capacityFlow = (409.167 / 3600) * 1006;
    expect(temperatureAlong(50, 0, 12 * conductance, capacityFlow)).toBeCloseTo(47.0463, 4);
    expect(conductance * 50).toBeCloseTo(29.01, 2);
  });
});

describe('insulation against condensation', () => {
  // ASHRAE Handbook—Fundamentals 2021 ch. 23 Table 4: 4 °C vessel, 27 °C room, h 6.8 W/(m²·K), k 0.043 W/(m·K).
  // The table rounds outside 70 to 90 % relative humidity, so only these rows are held: [RH, mm].
  it.each([
    [0.7, 18],
    [0.8, 33],
    [0.9, 74],
  ])('at %f relative humidity %i mm', (humidity, published) => {
    const result = ask('condensation', {
      'duct-air': 4,
      surroundings: 27,
      humidity,
      'surface-coefficient': 6.8,
      conductivity: 0.043,
    });
    expect(Math.abs(result['thickness, flat']!.value * 1000 - published) / published).toBeLessThan(0.02);
  });

  // Dew points by psychrolib 2.5.0, formula of ch. 23 eq. 14: 55 °F air, [°F, RH, dew °F, R at h 1.0, R at h 1.5].
  it.each([
    [80, 0.7, 69.34, 1.34, 0.9],
    [85, 0.8, 78.13, 3.37, 2.25],
    [90, 0.7, 78.89, 2.15, 1.43],
    [80, 0.9, 76.8, 6.81, 4.54],
  ])('duct at 55 °F in %i °F and %f', (surroundings, humidity, dew, foil, dull) => {
    const at = (h: number) =>
      ask('condensation', {
        'duct-air': fahrenheit(55),
        surroundings: fahrenheit(surroundings),
        humidity,
        'surface-coefficient': toSi('surfaceCoefficient', h, 'Btu/(h·ft²·°F)'),
      });
    expect(toFahrenheit(at(1)['dew point']!.value)).toBeCloseTo(dew, 2);
    expect(Math.abs(toR(at(1)['insulation needed']!.value) - foil)).toBeLessThan(0.0075);
    expect(Math.abs(toR(at(1.5)['insulation needed']!.value) - dull)).toBeLessThan(0.0075);
  });

  it('asks for none when the duct is above the dew point', () => {
    expect(insulationAgainstCondensation(20, 25, 15, 8)).toBe(0);
  });

  // Equivalent thickness r₂·ln(r₂/r₁) (ch. 23): by hand, r₁ 3 in, r₂ 5.16 in gives 5.16·ln(1.72) = 2.7984 in.
  it('needs less thickness on round duct than on a flat wall', () => {
    const flat = 5.16 * Math.log(5.16 / 3);
    expect(thicknessOnRound(flat, 6)).toBeCloseTo(2.16, 10);
  });
});

// t* = √(k·ΔT·H·c·PWF/(η·p)) − k·R by hand: k 0.27/12 Btu/(h·ft·°F), 60 °F, 1500 h, 12 $/MMBtu, PWF 12, 18 $/ft³, R-0.6.
describe('economic thickness', () => {
  it('is 1.365 in for the example', () => {
    const result = ask('thickness', {
      difference: toSi('temperatureDifference', 60, '°F'),
      time: toSi('duration', 1500, 'h'),
      'energy-price': 12,
      'insulation-price': 18,
    });
    expect(fromSi('size', result.thickness!.value, 'in')).toBeCloseTo(1.365, 3);
  });

  it('is the cheapest: thicker and thinner both cost more', () => {
    const [k, difference, time, energy, worth, price, films] = [0.04, 30, 5e6, 1.2e-8, 12, 600, 0.1];
    const cost = (thickness: number) =>
      price * thickness + (worth * energy * time * difference) / (films + thickness / k);
    const best = ask('thickness', {
      difference,
      time,
      'energy-price': energy,
      'energy-amount': 1,
      'insulation-price': price,
      'insulation-amount': 1,
      'present-worth': worth,
      films,
      conductivity: k,
    }).thickness!.value;
    expect(best).toBeGreaterThan(0.001);
    expect(cost(best * 1.01)).toBeGreaterThan(cost(best));
    expect(cost(best * 0.99)).toBeGreaterThan(cost(best));
  });
});
