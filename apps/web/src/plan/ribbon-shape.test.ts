import { expect, test } from 'vitest';
import { boxAround, type Point } from './geometry.ts';
import { ribbonShape } from './ribbon-shape.ts';

const pointsOf = (path: string): Point[] =>
  path
    .slice(1, -1)
    .split('L')
    .map((pair) => pair.split(' ').map(Number) as unknown as Point);

test('a straight piece is as wide as its air, a later one thinner', () => {
  const shape = ribbonShape(
    [
      [0, 0],
      [100, 0],
    ],
    [
      { from: 0, to: 0.5, width: 20 },
      { from: 0.5, to: 1, width: 10 },
    ],
  );
  const [first, second] = shape.pieces.map((path) => boxAround(pointsOf(path)));
  expect(first).toEqual({ x: 0, y: -10, width: 50, height: 20 });
  expect(second).toEqual({ x: 50, y: -5, width: 50, height: 10 });
});

test('the width holds around a square corner', () => {
  const shape = ribbonShape(
    [
      [0, 0],
      [100, 0],
      [100, 100],
    ],
    [{ from: 0, to: 1, width: 10 }],
  );
  const points = pointsOf(shape.pieces[0]!);
  expect(points).toContainEqual([95, 5]);
  expect(points).toContainEqual([105, -5]);
});

test('a path that turns back on itself stays near its path', () => {
  const shape = ribbonShape(
    [
      [0, 0],
      [100, 0],
      [0, 1],
    ],
    [{ from: 0, to: 1, width: 10 }],
  );
  const box = boxAround(pointsOf(shape.outline));
  expect(box.width).toBeLessThan(120);
  expect(box.height).toBeLessThan(30);
});
