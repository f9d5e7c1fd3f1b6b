import { fromSi, toSi } from '@airledger/engine';
import { figures } from '@airledger/engine/figures/figures';
import { describe, expect, it } from 'vitest';

const inches = (value: number) => toSi('size', value, 'in');
const cfm = (value: number) => toSi('airflow', value, 'cfm');
const ask = (name: string, inputs: Parameters<(typeof figures)[string]['answer']>[0]) =>
  figures[name]!.answer(inputs).result;
const inWc100 = (pascalPerMetre: number) => fromSi('frictionRate', pascalPerMetre, 'in.wc/100 ft');

// Computed with the Python library `fluids` 1.3.1 (Colebrook) for standard air 0.075 lb/ft³, ν = 1.50998e-5 m²/s,
// roughness by ASHRAE Handbook—Fundamentals 2021 ch. 21 Table 1: [ε ft, D in, cfm, fpm, Re, f, in.wc/100 ft].
const frictionTable = [
  [0.0003, 4, 30, 343.8, 11751, 0.03106, 0.06853],
  [0.0003, 5, 50, 366.7, 15667, 0.028846, 0.05793],
  [0.0003, 6, 100, 509.3, 26112, 0.025711, 0.08301],
  [0.0003, 7, 150, 561.3, 33573, 0.024285, 0.08162],
  [0.0003, 8, 200, 573, 39169, 0.023419, 0.07177],
  [0.0003, 9, 250, 565.9, 43521, 0.02282, 0.06064],
  [0.0003, 10, 400, 733.4, 62670, 0.021256, 0.08538],
  [0.0003, 12, 600, 763.9, 78337, 0.020247, 0.07354],
  [0.0003, 14, 900, 841.9, 100719, 0.019251, 0.07279],
  [0.0003, 16, 1200, 859.4, 117506, 0.018633, 0.06424],
  [0.0003, 18, 1600, 905.4, 139266, 0.018016, 0.06128],
  [0.0003, 20, 2000, 916.7, 156674, 0.017581, 0.05517],
  [0.0005, 6, 100, 509.3, 26112, 0.0266, 0.08588],
  [0.0005, 8, 200, 573, 39169, 0.024238, 0.07428],
  [0.0005, 10, 400, 733.4, 62670, 0.022081, 0.08869],
  [0.0005, 14, 900, 841.9, 100719, 0.02001, 0.07566],
  [0.003, 4, 30, 343.8, 11751, 0.041375, 0.09129],
  [0.003, 5, 50, 366.7, 15667, 0.0382, 0.07672],
  [0.003, 6, 100, 509.3, 26112, 0.035053, 0.11317],
  [0.003, 7, 150, 561.3, 33573, 0.033187, 0.11154],
  [0.003, 8, 200, 573, 39169, 0.031828, 0.09754],
  [0.003, 9, 250, 565.9, 43521, 0.030761, 0.08174],
  [0.003, 10, 400, 733.4, 62670, 0.029353, 0.1179],
  [0.003, 12, 600, 763.9, 78337, 0.027802, 0.10098],
  [0.003, 14, 900, 841.9, 100719, 0.026498, 0.10019],
  [0.003, 16, 1200, 859.4, 117506, 0.025523, 0.08799],
  [0.01, 6, 100, 509.3, 26112, 0.050094, 0.16173],
  [0.01, 8, 200, 573, 39169, 0.044854, 0.13746],
  [0.01, 10, 400, 733.4, 62670, 0.041198, 0.16548],
  [0.01, 12, 600, 763.9, 78337, 0.038665, 0.14043],
  [0.01, 16, 1200, 859.4, 117506, 0.035085, 0.12096],
  [0.01, 20, 2000, 916.7, 156674, 0.032654, 0.10247],
] as const;

describe('friction of straight duct', () => {
  it.each(frictionTable)(
    'ε %f ft, %f in, %f cfm',
    (roughness, diameter, flow, fpm, reynolds, factor, rate) => {
      const result = ask('friction', {
        diameter: inches(diameter),
        flow: cfm(flow),
        roughness: toSi('length', roughness, 'ft'),
      });
      expect(fromSi('velocity', result.velocity!.value, 'fpm')).toBeCloseTo(fpm, 0);
      expect(result['Reynolds number']!.value / reynolds).toBeCloseTo(1, 4);
      expect(Math.abs(result['friction factor']!.value - factor)).toBeLessThan(1.5e-6);
      expect(Math.abs(inWc100(result['friction rate']!.value) - rate)).toBeLessThan(2e-5);
    },
  );

  // ASHRAE Handbook—Fundamentals 2021 ch. 21, Example 8 (Denver, ρ 0.978 kg/m³, ε 0.12 mm): [mm, L/s, m, Pa].
  it.each([
    [375, 1520, 6, 26],
    [350, 1140, 6, 21],
    [300, 760, 6, 21],
    [225, 380, 4.5, 18],
    [200, 380, 1.5, 11],
    [200, 380, 3, 22],
  ])('thin air: %i mm, %i L/s, %f m', (diameter, flow, length, published) => {
    // The elevation gives the density of the example at 20 °C.
    const result = ask('friction', {
      diameter: diameter / 1000,
      flow: flow / 1000,
      roughness: 0.12e-3,
      length,
      elevation: 1726,
      'air-temperature': 20,
    });
    expect(Math.abs(result.loss!.value - published)).toBeLessThanOrEqual(0.6);
  });

  // ASHRAE Handbook—Fundamentals 2021 ch. 21, Table 13: diameters (mm) for 0.4, 0.8, 1.0, 1.2, 1.6 Pa/m, rounded down.
  it.each([
    [240, [312, 270, 258, 248, 234]],
    [470, [402, 348, 332, 320, 302]],
    [940, [520, 452, 432, 416, 394]],
  ])('sizing table at %i L/s within 5 %%', (flow, diameters) => {
    [0.4, 0.8, 1, 1.2, 1.6].forEach((rate, i) => {
      const result = ask('friction', {
        diameter: diameters[i]! / 1000,
        flow: flow / 1000,
        roughness: 0.12e-3,
        'air-temperature': 20,
      });
      expect(Math.abs(result['friction rate']!.value / rate - 1)).toBeLessThan(0.05);
    });
  });

  // ASHRAE Handbook—Fundamentals 2021 ch. 21, Example 6: 250 mm, 470 L/s, 1.8 m; published Pa, within 4 %.
  it.each([
    ['spiral', 0, 7.7],
    ['flex', 0, 11.4],
    ['flex', 0.04, 19.5],
    ['flex', 0.15, 40],
    ['flex', 0.3, 68.9],
  ])('%s with slack %f', (material, slack, published) => {
    const result = ask('friction', {
      diameter: 0.25,
      flow: 0.47,
      material,
      slack,
      length: 1.8,
      'air-temperature': 20,
    });
    expect(Math.abs(result.loss!.value / published - 1)).toBeLessThan(0.04);
  });

  it('gives 0.083 in.wc per 100 ft for 100 cfm in 6 in galvanized duct', () => {
    const { value } = ask('friction', { diameter: inches(6), flow: cfm(100) })['friction rate']!;
    expect(inWc100(value)).toBeCloseTo(0.083, 3);
  });

  // Slack factors by ASHRAE Handbook—Fundamentals 2021 ch. 21, eq. 22–23: [in, K %, factor].
  it.each([
    [4, 4, 2.402],
    [6, 15, 5.085],
    [8, 30, 7.35],
    [10, 10, 2.645],
    [16, 20, 2.545],
  ])('slack factor of %i in at %i %%', (diameter, percent, factor) => {
    const result = ask('friction', {
      diameter: inches(diameter),
      flow: cfm(100),
      material: 'flex',
      slack: percent / 100,
    });
    expect(result['slack factor']!.value).toBeCloseTo(factor, 3);
  });
});

describe('equivalent size and length', () => {
  const diameter = (inputs: Record<string, number>) =>
    ask('equivalent', inputs)['equivalent diameter']!.value;

  // ASHRAE Handbook—Fundamentals 2021 ch. 21, circular equivalents of rectangular duct (Huebscher), mm.
  it.each([
    [300, 500, 420],
    [200, 250, 244],
    [400, 600, 533],
    [1000, 2000, 1523],
  ])('%i × %i mm', (width, height, published) => {
    const value = diameter({ width: width / 1000, height: height / 1000 });
    expect(Math.abs(value * 1000 - published)).toBeLessThan(0.5);
  });

  // ASHRAE Handbook—Fundamentals 2021 ch. 21, flat oval (Heyt & Diaz), mm; the table steps by 5 mm.
  it.each([
    [380, 100, 200],
    [385, 150, 250],
    [580, 200, 355],
    [760, 200, 400],
  ])('oval %i × %i mm', (major, minor, published) => {
    const value = diameter({ major: major / 1000, minor: minor / 1000 });
    expect(Math.abs(value * 1000 - published)).toBeLessThan(1);
  });

  it('turns a coefficient into a length and back: L = C·D/f', () => {
    const inputs = { diameter: inches(8), flow: cfm(200), roughness: toSi('length', 0.0003, 'ft') };
    const length = ask('equivalent', { ...inputs, coefficient: 0.5 })['equivalent length']!.value;
    // f = 0.023419 by `fluids` 1.3.1.
    expect(length).toBeCloseTo((0.5 * inches(8)) / 0.023419, 3);
    const back = ask('equivalent', { ...inputs, 'equivalent-length': length });
    expect(back['loss coefficient']!.value).toBeCloseTo(0.5, 12);
  });
});
