import { seededRandom } from '@airledger/engine';
import { expect, test } from 'vitest';
import { drawFrom } from './draw.ts';
import { rangesOf } from './ranges.ts';

test('a tenth of the draws lies beyond each end, whatever the sides', () => {
  const uniform = seededRandom(7);
  const draws = Array.from({ length: 200_000 }, () => drawFrom({ value: 10, low: 9, high: 14 }, uniform));
  const share = (test: (value: number) => boolean) => draws.filter(test).length / draws.length;
  expect(share((value) => value < 9)).toBeCloseTo(0.1, 2);
  expect(share((value) => value > 14)).toBeCloseTo(0.1, 2);
  expect(share((value) => value < 10)).toBeCloseTo(0.5, 2);
});

test('the same seed draws the same, and leaks never turn negative', () => {
  const draws = (seed: number) => {
    const uniform = seededRandom(seed);
    return Array.from({ length: 500 }, () => drawFrom({ value: 1, low: 0, high: 9 }, uniform));
  };
  expect(draws(3)).toEqual(draws(3));
  expect(draws(3)).not.toEqual(draws(4));
  expect(Math.min(...draws(3))).toBeGreaterThanOrEqual(0);
});

test('ranges are the 10 and 90 % of a sample', () => {
  const sample = Array.from({ length: 101 }, (_, i) => ({ a: i, b: Number.NaN }));
  expect(rangesOf(sample)).toEqual({ a: [10, 90] });
});
