import type { PlanPoint } from '@airledger/engine';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  counterClockwise,
  nearestOnPath,
  pathLength,
  pointAlong,
  pointInPolygon,
  polygonArea,
  sharedStretches,
  turnsOf,
} from './geometry.ts';
import { overlapArea } from './overlap-area.ts';
import { snapPoint } from './snap-point.ts';

const box = (x: number, y: number, width: number, depth: number): readonly PlanPoint[] => [
  [x, y],
  [x + width, y],
  [x + width, y + depth],
  [x, y + depth],
];
/** An L: a square of 4 without its north-east quarter. */
const corner: readonly PlanPoint[] = [
  [0, 0],
  [4, 0],
  [4, 2],
  [2, 2],
  [2, 4],
  [0, 4],
];
const size = fc.double({ min: 0.5, max: 20, noNaN: true });
const place = fc.double({ min: -20, max: 20, noNaN: true });

test('two boxes overlap by their common box', () => {
  fc.assert(
    fc.property(place, place, size, size, place, place, size, size, (x, y, w, d, u, v, e, f) => {
      const wide = Math.max(0, Math.min(x + w, u + e) - Math.max(x, u));
      const deep = Math.max(0, Math.min(y + d, v + f) - Math.max(y, v));
      expect(overlapArea(box(x, y, w, d), box(u, v, e, f).toReversed())).toBeCloseTo(wide * deep, 6);
    }),
  );
});

test('an L overlaps with itself, and with what fills its notch, as it should', () => {
  expect(overlapArea(corner, corner)).toBeCloseTo(12, 9);
  expect(overlapArea(corner, box(2, 2, 2, 2))).toBeCloseTo(0, 9);
  expect(overlapArea(corner, box(1, 1, 2, 2))).toBeCloseTo(3, 9);
  expect(
    overlapArea(
      corner,
      corner.map(([x, y]) => [x + 1, y] as const),
    ),
  ).toBeCloseTo(8, 9);
});

test('parts of a divided box overlap it by their own area', () => {
  fc.assert(
    fc.property(size, size, fc.double({ min: 0.1, max: 0.9, noNaN: true }), (w, d, share) => {
      const whole = box(0, 0, w, d);
      const slanted: readonly PlanPoint[] = [
        [0, 0],
        [w * share, 0],
        [w * (1 - share), d],
        [0, d],
      ];
      expect(overlapArea(whole, slanted)).toBeCloseTo(polygonArea(slanted), 6);
    }),
  );
});

test('a point is in an L, or in its notch', () => {
  expect(pointInPolygon([1, 3], corner)).toBe(true);
  expect(pointInPolygon([3, 1], corner)).toBe(true);
  expect(pointInPolygon([3, 3], corner)).toBe(false);
  expect(counterClockwise(corner.toReversed())).toEqual(corner);
});

test('the nearest place on a line is found again along it', () => {
  const path: readonly PlanPoint[] = [
    [0, 0],
    [3, 0],
    [3, 4],
  ];
  expect(pathLength(path)).toBe(7);
  expect(turnsOf(path)).toEqual([90]);
  fc.assert(
    fc.property(fc.double({ min: 0, max: 7, noNaN: true }), (along) => {
      const { point } = pointAlong(path, along);
      expect(nearestOnPath(point, path).along_m).toBeCloseTo(along, 6);
      expect(nearestOnPath(point, path).away_m).toBeCloseTo(0, 9);
    }),
  );
});

test('an edge is shared where another outline lies on its other side', () => {
  const east = [
    [4, 0],
    [4, 3],
  ] as const;
  expect(sharedStretches(east, box(4, 1, 5, 5))).toEqual([{ from_m: 1, to_m: 3 }]);
  expect(sharedStretches(east, box(4.15, 1, 5, 1))[0]).toMatchObject({ from_m: 1, to_m: 2 });
  expect(sharedStretches(east, box(4.6, 1, 5, 1))).toEqual([]);
  // The room itself lies on this side.
  expect(sharedStretches(east, box(0, 0, 4, 3))).toEqual([]);
});

test('a point is drawn to a corner before a line, to a line before the grid', () => {
  const lines = [
    [
      [0, 0],
      [10, 0],
    ],
  ] as const;
  const near = { within_m: 0.3, points: [[0, 0]] as const, lines, grid_m: 0.5 };
  expect(snapPoint([0.1, 0.2], near)).toEqual({ point: [0, 0], on: 'point' });
  expect(snapPoint([5.1, 0.2], near)).toEqual({ point: [5, 0], on: 'line' });
  const slope = [
    [
      [0, 0],
      [10, 10],
    ],
  ] as const;
  const [east, north] = snapPoint([5.1, 5.1], { ...near, lines: slope }).point;
  expect([east, north]).toEqual([expect.closeTo(5.1, 9), expect.closeTo(5.1, 9)]);
  // No point of the grid lies on a wall shorter than its spacing.
  const stub = [
    [
      [5.1, 1],
      [5.4, 1],
    ],
  ] as const;
  expect(snapPoint([5.2, 1.1], { ...near, lines: stub })).toEqual({ point: [5.2, 1], on: 'line' });
  expect(snapPoint([5.1, 3.2], near)).toEqual({ point: [5, 3], on: 'grid' });
  expect(snapPoint([5.1, 3.2], { within_m: 0.3, from: [5, 9] })).toEqual({ point: [5, 3.2], on: 'square' });
  expect(snapPoint([5.1, 3.2], { within_m: 0.3 })).toEqual({ point: [5.1, 3.2], on: 'nothing' });
});
