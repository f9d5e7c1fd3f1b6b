import { expect, test } from 'vitest';
import { nearest, type Spot } from './nearest.ts';

const spots: Spot[] = [
  { id: 'west', at: [0, 50] },
  { id: 'middle', at: [50, 50] },
  { id: 'east', at: [100, 55] },
  { id: 'north', at: [55, 0] },
  { id: 'far-east', at: [200, 50] },
];

test('arrows lead to the next spot ahead', () => {
  expect(nearest(spots, 'middle', 'ArrowLeft')).toBe('west');
  expect(nearest(spots, 'middle', 'ArrowRight')).toBe('east');
  expect(nearest(spots, 'east', 'ArrowRight')).toBe('far-east');
  expect(nearest(spots, 'middle', 'ArrowUp')).toBe('north');
});

test('at the edge there is no next, and from nowhere the first', () => {
  expect(nearest(spots, 'west', 'ArrowLeft')).toBeUndefined();
  expect(nearest(spots, 'gone', 'ArrowLeft')).toBe('west');
});
