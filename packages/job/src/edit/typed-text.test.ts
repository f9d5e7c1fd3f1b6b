import fc from 'fast-check';
import { expect, test } from 'vitest';
import { ft } from './drawn-house.ts';
import { lengthText } from './index.ts';
import { siOf } from './typed-text.ts';

test('a length reads back within half of its last digit, in either unit system', () => {
  fc.assert(
    fc.property(fc.double({ min: -60, max: 60, noNaN: true }), fc.constantFrom('ip', 'si'), (m, units) => {
      const back = siOf(lengthText(m, units as 'ip' | 'si'), 'length')!;
      expect(Math.abs(back - m)).toBeLessThanOrEqual(units === 'ip' ? 0.00128 : 0.000501);
    }),
  );
  expect(lengthText(12.5 * ft, 'ip')).toBe('12 ft 6 in');
  expect(lengthText(0, 'ip')).toBe('0 ft');
});
