import { expect, test } from 'vitest';
import { closesWords } from './closes-words.ts';

test('an account closes as well as its own residual says', () => {
  expect(closesWords(3e-13)).toBe('to better than 1 part in 10¹²');
  expect(closesWords(-3e-13)).toBe('to better than 1 part in 10¹²');
  expect(closesWords(9.9e-10)).toBe('to better than 1 part in 10⁹');
  expect(closesWords(0.02)).toBe('to better than 1 part in 10¹');
});

test('nothing left over is no better than numbers can tell, and no number closes nothing', () => {
  expect(closesWords(0)).toBe('to better than 1 part in 10¹⁵');
  expect(closesWords(Number.NaN)).toContain('not');
});
