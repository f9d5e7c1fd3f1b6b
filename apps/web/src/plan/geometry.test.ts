import { expect, test } from 'vitest';
import { distanceToBox, isInside, type Point, pointAlong, sharedArea, stretch } from './geometry.ts';

const bend: Point[] = [
  [0, 0],
  [30, 0],
  [30, 70],
];

test('points along a path count by its length', () => {
  expect(pointAlong(bend, 0.3).point).toEqual([30, 0]);
  expect(pointAlong(bend, 1)).toEqual({ point: [30, 70], direction: [0, 1] });
  expect(pointAlong(bend, 2).point).toEqual([30, 70]);
  expect(pointAlong([[5, 5]], 0.5).point).toEqual([5, 5]);
});

test('a stretch keeps the corners inside it', () => {
  expect(stretch(bend, 0.1, 0.5)).toEqual([
    [10, 0],
    [30, 0],
    [30, 20],
  ]);
  expect(stretch(bend, 0.5, 0.9)).toEqual([
    [30, 20],
    [30, 60],
  ]);
});

test('inside an outline with a notch', () => {
  const outline: Point[] = [
    [0, 0],
    [10, 0],
    [10, 10],
    [5, 10],
    [5, 5],
    [0, 5],
  ];
  expect(isInside([2, 2], outline)).toBe(true);
  expect(isInside([2, 8], outline)).toBe(false);
  expect(isInside([8, 8], outline)).toBe(true);
});

test('distance to a box and area in common', () => {
  const box = { x: 0, y: 0, width: 10, height: 10 };
  expect(distanceToBox([13, 14], box)).toBe(5);
  expect(distanceToBox([5, 5], box)).toBe(0);
  expect(sharedArea(box, { x: 8, y: 8, width: 10, height: 10 })).toBe(4);
  expect(sharedArea(box, { x: 10, y: 0, width: 5, height: 5 })).toBe(0);
});
