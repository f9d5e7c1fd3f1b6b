import { toSi } from '@airledger/engine';
import { expect, test } from 'vitest';

/** NIST Special Publication 811 (2008), appendix B.8, from memory: factors of seven digits, exact ones in full. */
test.each([
  ['foot', toSi('length', 1, 'ft'), 0.3048],
  ['inch', toSi('length', 1, 'in'), 0.0254],
  ['square foot', toSi('area', 1, 'ft²'), 0.09290304],
  ['square inch', toSi('area', 1, 'in²'), 6.4516e-4],
  ['cubic foot', toSi('volume', 1, 'ft³'), 0.02831685],
  ['inch of water, conventional', toSi('pressure', 1, 'in.wc'), 249.0889],
  ['cubic foot per minute', toSi('airflow', 1, 'cfm'), 4.719474e-4],
  ['Btu (IT) per hour', toSi('power', 1, 'Btu/h'), 0.2930711],
  ['ton of refrigeration', toSi('capacity', 1, 'tons'), 3516.853],
  ['R, square foot hour degree Fahrenheit per Btu', toSi('resistance', 1, 'R'), 0.1761102],
  ['U, Btu per hour square foot degree Fahrenheit', toSi('transmittance', 1, 'U'), 5.678263],
  [
    'Btu inch per hour square foot degree Fahrenheit',
    toSi('conductivity', 1, 'Btu·in/(h·ft²·°F)'),
    0.1442279,
  ],
  ['Btu per hour square foot', toSi('heatFlux', 1, 'Btu/(h·ft²)'), 3.154591],
  ['Btu per pound', toSi('enthalpy', 1, 'Btu/lb'), 2326],
  ['pound per cubic foot', toSi('density', 1, 'lb/ft³'), 16.01846],
  ['pound per hour', toSi('massFlow', 1, 'lb/h'), 1.259979e-4],
  ['foot per minute', toSi('velocity', 1, 'fpm'), 0.00508],
  ['mile per hour', toSi('velocity', 1, 'mph'), 0.44704],
])('%s', (_, ours, published) => expect(Math.abs(ours / published - 1)).toBeLessThan(5e-7));

test('degrees Fahrenheit by definition', () => {
  expect(toSi('temperature', 32, '°F')).toBeCloseTo(0, 12);
  expect(toSi('temperature', 212, '°F')).toBeCloseTo(100, 12);
  expect(toSi('temperatureDifference', 180, '°F')).toBeCloseTo(100, 12);
});
