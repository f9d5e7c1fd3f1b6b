import { type Dimension, formatQuantity } from '@airledger/engine';
import { expect, test } from 'vitest';
import { fieldKind } from './field-kind.ts';
import { limitsWords } from './limits-words.ts';

const words = (pattern: string, units: 'ip' | 'si') =>
  limitsWords(fieldKind(pattern), (si: number, dimension: Dimension) => formatQuantity(si, dimension, units));

test('a quantity says its range in the units of the page', () => {
  expect(words('systems/*/parts/*/slack', 'ip')).toBe('0 % to 60 %');
  expect(words('rooms/*/height', 'ip')).toMatch(/^\d+\.\d ft to \d+\.\d ft$/);
  expect(words('rooms/*/height', 'si')).toMatch(/^\d\.\d+ m to \d+\.\d+ m$/);
});

test('counts and sizes say theirs, and words have none', () => {
  expect(words('house/yearBuilt', 'ip')).toMatch(/^1600 to \d{4}$/);
  expect(words('systems/*/parts/*/section', 'ip')).toBe('duct sizes from 1 in to 60 in');
  expect(words('systems/*/parts/*/side', 'ip')).toBe('');
});
