import { fromSi, toSi } from '@airledger/engine';
import { deliveryEfficiency, withRegain } from '@airledger/engine/figures/delivery-efficiency';
import { figures } from '@airledger/engine/figures/figures';
import { describe, expect, it } from 'vitest';

const cfm = (value: number) => toSi('airflow', value, 'cfm');
const squareFeet = (value: number) => toSi('area', value, 'ft²');
const r = (value: number) => toSi('resistance', value, 'R');
const fahrenheit = (value: number) => toSi('temperature', value, '°F');
const toFahrenheit = (si: number) => fromSi('temperature', si, '°F');

// Form of ASHRAE Standard 152 (from memory), cases worked by hand with 0.075 lb/ft³ and 0.24 Btu/(lb·°F), sensible:
// [Q_e, E_cap, A_s, R, A_r, Q_s, Q_r, t_in, t_surroundings, B_s, B_r, a_s, a_r, Δt_e, DE, DE with regain 0.10].
const cases = [
  ['H1', 1200, 60000, 400, 6, 150, 120, 120, 70, 30, 0.94986, 0.98089, 0.9, 0.9, 46.2963, 0.72932, 0.75639],
  ['H2', 1200, 60000, 400, 8, 150, 36, 36, 70, 30, 0.96215, 0.98564, 0.97, 0.97, 46.2963, 0.86615, 0.87953],
  ['H3', 1000, 30000, 300, 4.2, 60, 100, 50, 68, 45, 0.936, 0.98686, 0.9, 0.95, 27.7778, 0.75113, 0.77602],
  [
    'C1',
    1200,
    -27000,
    400,
    6,
    150,
    120,
    120,
    76,
    120,
    0.94986,
    0.98089,
    0.9,
    0.9,
    -20.8333,
    0.54797,
    0.59318,
  ],
  [
    'C2',
    1200,
    -27000,
    400,
    8,
    150,
    36,
    36,
    76,
    120,
    0.96215,
    0.98564,
    0.97,
    0.97,
    -20.8333,
    0.76916,
    0.79225,
  ],
] as const;

const inputsOf = ([
  ,
  flow,
  output,
  supply,
  label,
  back,
  leakS,
  leakR,
  indoor,
  around,
]: (typeof cases)[number]) => ({
  mode: output > 0 ? 'heating' : 'cooling',
  'fan-flow': cfm(flow),
  output: toSi('power', Math.abs(output), 'Btu/h'),
  'supply-area': squareFeet(supply),
  'supply-insulation': r(label),
  'supply-leakage': cfm(leakS),
  'return-area': squareFeet(back),
  'return-insulation': r(label),
  'return-leakage': cfm(leakR),
  indoor: fahrenheit(indoor),
  surroundings: fahrenheit(around),
});

describe('delivery efficiency', () => {
  it.each(cases.map((one) => [one[0], one] as const))('%s', (_, one) => {
    const result = figures.delivery!.answer(inputsOf(one)).result;
    const [, , , , , , , , , , supply, back, tightS, tightR, rise, efficiency, regained] = one;
    expect(result['conduction factor, supply']!.value).toBeCloseTo(supply, 4);
    expect(result['conduction factor, return']!.value).toBeCloseTo(back, 4);
    expect(result['tightness, supply']!.value).toBeCloseTo(tightS, 12);
    expect(result['tightness, return']!.value).toBeCloseTo(tightR, 12);
    expect(fromSi('temperatureDifference', result['equipment rise']!.value, '°F')).toBeCloseTo(rise, 2);
    expect(Math.abs(result['delivery efficiency']!.value - efficiency)).toBeLessThan(2e-5);
    expect(Math.abs(result['with regain']!.value - regained)).toBeLessThan(2e-5);
  });

  // Temperatures of the same cases along the way: return plenum, supply plenum, register, °F.
  it.each([
    [cases[0], 65.3122, 111.6085, 107.5167],
    [cases[3], 81.1566, 60.3232, 63.3154],
  ])('temperatures on the way', (one, back, supply, register) => {
    const result = figures.delivery!.answer(inputsOf(one)).result;
    expect(toFahrenheit(result['return plenum']!.value)).toBeCloseTo(back, 2);
    expect(toFahrenheit(result['supply plenum']!.value)).toBeCloseTo(supply, 2);
    expect(toFahrenheit(result.register!.value)).toBeCloseTo(register, 2);
  });

  it('counts the moisture that a return leak draws in', () => {
    const dry = figures.delivery!.answer(inputsOf(cases[3])).result['delivery efficiency']!.value;
    const humid = figures.delivery!.answer({
      ...inputsOf(cases[3]),
      'indoor-humidity': 0.5,
      'surroundings-humidity': 0.25,
    }).result['delivery efficiency']!.value;
    expect(humid).toBeLessThan(dry);
  });
});

/*
 * ASHRAE Handbook—Fundamentals 2021 ch. 17 Table 6, duct loss factors of one-storey attic systems (R-0, R-4, R-8 at
 * 11 % and 5 % leakage). The handbook does not print its duct areas, equipment rise and films; they are fitted here
 * to the table, so this holds the shape of the formula, not its inputs. F = 1/DE − 1, regain 0.10, A_r/A_s 0.05/0.27.
 */
describe('duct loss factors of the handbook', () => {
  const modes = [
    ['furnace', 68, 32, 0.211, 44.6, 1.72, 1.26, [0.49, 0.29, 0.25, 0.34, 0.16, 0.13]],
    ['heat pump', 68, 32, 0.153, 25.2, 2.05, 2, [0.56, 0.37, 0.34, 0.34, 0.19, 0.16]],
    ['cooling', 75.2, 120.2, 0.158, -16.4, 2.03, 2, [1.26, 0.71, 0.63, 0.68, 0.33, 0.27]],
  ] as const;
  it.each(modes)('%s', (_, indoor, attic, areaPerFlow, rise, bare, film, published) => {
    const flow = cfm(1000);
    const area = squareFeet(areaPerFlow * 1000);
    const factors = [0.11, 0.05].flatMap((leak) =>
      [bare, 4 + film, 8 + film].map((label) => {
        const { efficiency } = deliveryEfficiency({
          fanFlow_m3s: flow,
          output_W: toSi('power', 1.08 * 1000 * rise, 'Btu/h'),
          supplyArea_m2: area,
          supplyResistance_m2KW: r(label),
          returnArea_m2: (area * 0.05) / 0.27,
          returnResistance_m2KW: r(label),
          supplyLeak_m3s: leak * flow,
          returnLeak_m3s: leak * flow,
          indoor_C: fahrenheit(indoor),
          supplySurroundings_C: fahrenheit(attic),
          returnSurroundings_C: fahrenheit(attic),
          density_kgm3: toSi('density', 0.075, 'lb/ft³'),
          specificHeat_JkgK: 1004.832,
          leakLatent_Jkg: 0,
        });
        return 1 / withRegain(efficiency, 0.1) - 1;
      }),
    );
    for (const [i, factor] of factors.entries()) expect(Math.abs(factor - published[i]!)).toBeLessThan(0.005);
  });
});
