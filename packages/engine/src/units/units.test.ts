import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Dimension, dimensions, type UnitOf, unitsOf } from './dimension.ts';
import { formatQuantity, fromSi, parseQuantity, toSi } from './index.ts';

const names = Object.keys(dimensions) as Dimension[];
const value = (text: string, dimension: Dimension): number => {
  const parsed = parseQuantity(text, dimension);
  if ('problem' in parsed) throw new Error(`${text} ${parsed.problem}`);
  return parsed.value;
};

describe('parseQuantity', () => {
  test.each<[string, Dimension, number]>([
    ['12 ft', 'length', 3.6576],
    ['12 ft 6 in', 'length', 3.81],
    [`12'6"`, 'length', 3.81],
    ['12′ 6 1/2″', 'length', 3.8227],
    ['7½ in', 'size', 0.1905],
    ['3 m', 'length', 3],
    ['180 mm', 'size', 0.18],
    ['0.5 in.wc', 'pressure', 124.544455],
    ['.5 in. w.c.', 'pressure', 124.544455],
    ['0.5 IN WG', 'pressure', 124.544455],
    ['94 cfm', 'airflow', 0.0443630596608],
    ['1,200CFM', 'airflow', 0.5663369318400001],
    ['44 L/s', 'airflow', 0.044],
    ['160 m³/h', 'airflow', 160 / 3600],
    ['R-8', 'resistance', 1.4088814694584468],
    ['r8', 'resistance', 1.4088814694584468],
    ['8 ft²·°F·h/Btu', 'resistance', 1.4088814694584468],
    ['RSI 1.4', 'resistance', 1.4],
    ['1.4 m²·K/W', 'resistance', 1.4],
    ['U-0.30', 'transmittance', 1.703479002334046],
    ['1.7 W/m²K', 'transmittance', 1.7],
    ['72 °F', 'temperature', 22.22222222222222],
    ['72f', 'temperature', 22.22222222222222],
    ['−40 °C', 'temperature', -40],
    ['-40 degF', 'temperature', -40],
    ['300 K', 'temperature', 26.85],
    ['18 °F', 'temperatureDifference', 10],
    ['10 K', 'temperatureDifference', 10],
    ['3 tons', 'capacity', 10550.5585262],
    ['36 kBtu/h', 'power', 10550.5585262],
    ['0.5 W/cfm', 'fanPower', 1059.4400016446575],
    ['0.08 in.wc/100 ft', 'frictionRate', 0.6537766666666667],
    ['15 %', 'ratio', 0.15],
    ['0.15', 'ratio', 0.15],
    ['7 ACH', 'airChange', 7],
    ['SW', 'angle', 225],
    ['north-east', 'angle', 45],
    ['225°', 'angle', 225],
    ['1e-3 m', 'length', 0.001],
  ])('%s as %s', (text, dimension, si) => expect(value(text, dimension)).toBeCloseTo(si, 12));

  test.each<[string, Dimension, [number, number, number]]>([
    ['R-6 ± 1', 'resistance', [6, 5, 7].map((r) => r * 0.17611018368230585) as [number, number, number]],
    ['30 % (10 to 50 %)', 'ratio', [0.3, 0.1, 0.5]],
    ['30 % (10–50 %)', 'ratio', [0.3, 0.1, 0.5]],
    ['3 m (2.5 m to 4 m)', 'length', [3, 2.5, 4]],
    ['10 ± 2 ft', 'length', [3.048, 2.4384, 3.6576]],
    ['7 ft ± 2 in', 'length', [2.1336, 2.0828, 2.1844]],
    ['100 L/s ± 10 %', 'airflow', [0.1, 0.09, 0.11]],
    ['30 % +/- 5', 'ratio', [0.3, 0.25, 0.35]],
    ['70 °F ± 9', 'temperature', [21.11111111111111, 16.11111111111111, 26.11111111111111]],
    ['36 to 72 °F', 'temperatureDifference', [30, 20, 40]],
  ])('range %s as %s', (text, dimension, [middle, low, high]) => {
    const parsed = parseQuantity(text, dimension);
    expect(parsed).toEqual({
      value: expect.closeTo(middle, 10),
      low: expect.closeTo(low, 10),
      high: expect.closeTo(high, 10),
    });
  });

  test.each<[string, Dimension, string]>([
    ['12 cfm', 'length', 'is an airflow'],
    ['12 °F', 'pressure', 'is a temperature'],
    ['U-0.3', 'resistance', 'is a U-value'],
    ['12', 'length', 'has no unit'],
    ['12 rods', 'length', 'has a unit that is not known'],
    ['twelve ft', 'length', 'is not a number with a unit'],
    ['', 'length', 'is not a number with a unit'],
    ['R--8', 'resistance', 'is not a number with a unit'],
    ['R-6 (8 to 4)', 'resistance', 'has a range that runs backwards'],
    ['R-6 (7 to 8)', 'resistance', 'lies outside its own range'],
  ])('%s is no %s', (text, dimension, problem) =>
    expect(parseQuantity(text, dimension)).toEqual({ problem }),
  );

  test('never throws, whatever is typed', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme' }), fc.constantFrom(...names), (text, dimension) => {
        const parsed = parseQuantity(text, dimension);
        if (!('problem' in parsed)) expect(Number.isFinite(parsed.value)).toBe(true);
      }),
    );
  });
});

describe('units', () => {
  test('every unit of every dimension converts there and back', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...names),
        fc.double({ min: -1e6, max: 1e6, noNaN: true }),
        (name, number) => {
          for (const unit of Object.keys(unitsOf(name))) {
            const there = toSi(name, number, unit as UnitOf<typeof name> as never);
            expect(fromSi(name, there, unit as never)).toBeCloseTo(number, 5);
          }
        },
      ),
    );
  });

  test('every unit of every dimension is read as written', () => {
    for (const name of names)
      for (const [unit, { leads }] of Object.entries(unitsOf(name))) {
        const parsed = parseQuantity(leads ? `${unit}-2` : `2 ${unit}`, name);
        expect(parsed, `${name}: ${unit}`).toEqual({ value: toSi(name, 2, unit as never) });
      }
  });

  test('every example of a dimension is of that dimension', () => {
    for (const name of names)
      for (const example of dimensions[name].examples)
        expect(parseQuantity(example, name)).toHaveProperty('value');
  });

  test('what is shown can be typed back, to the digits shown', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...names),
        fc.constantFrom('ip' as const, 'si' as const),
        fc.double({ min: 0, max: 1e5, noNaN: true }),
        (name, system, shown) => {
          const unit = dimensions[name][system][0] as never;
          const si = toSi(name, shown, unit);
          const back = value(formatQuantity(si, name, system, 6), name);
          expect(fromSi(name, back, unit)).toBeCloseTo(shown, 5);
        },
      ),
    );
  });
});

describe('formatQuantity', () => {
  test.each<[number, Dimension, string, string]>([
    [0.04436, 'airflow', '94 cfm', '44.4 L/s'],
    [125, 'pressure', '0.502 in.wc', '125.0 Pa'],
    [1.409, 'resistance', 'R-8', 'RSI 1.41'],
    [0.74, 'resistance', 'R-4.2', 'RSI 0.74'],
    [22, 'temperature', '71.6 °F', '22.0 °C'],
    [10, 'temperatureDifference', '18.0 °F', '10.0 K'],
    [10550, 'power', '35,998 Btu/h', '10,550 W'],
    [0.1778, 'size', '7.0 in', '178 mm'],
    [3, 'velocity', '591 fpm', '3.00 m/s'],
    [-0.00001, 'airflow', '0 cfm', '0.0 L/s'],
    [0.15, 'ratio', '15 %', '15 %'],
    [Number.NaN, 'airflow', '—', '—'],
  ])('%d as %s', (si, dimension, ip, metric) => {
    expect(formatQuantity(si, dimension, 'ip')).toBe(ip);
    expect(formatQuantity(si, dimension, 'si')).toBe(metric);
  });
});
