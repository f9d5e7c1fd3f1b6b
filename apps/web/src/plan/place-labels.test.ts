import { expect, test } from 'vitest';
import { distanceToBox, isInside, type Point, sharedArea } from './geometry.ts';
import { type LabelWish, placeLabels } from './place-labels.ts';

const area = { x: 0, y: 0, width: 400, height: 300 };
const room = (x: number, y: number, width: number, height: number): Point[] => [
  [x, y],
  [x + width, y],
  [x + width, y + height],
  [x, y + height],
];
const wish = (id: string, outline: Point[]): LabelWish => ({
  id,
  outline,
  variants: [
    { width: 80, height: 48 },
    { width: 50, height: 32 },
  ],
});
const line = (from: Point, to: Point, radius: number) =>
  Array.from({ length: 41 }, (_, i) => ({
    centre: [from[0] + ((to[0] - from[0]) * i) / 40, from[1] + ((to[1] - from[1]) * i) / 40] as Point,
    radius,
  }));

test('a free room has its full label in its upper left', () => {
  const [label] = placeLabels([wish('a', room(0, 0, 200, 200))], { discs: [], boxes: [] }, area);
  expect(label).toMatchObject({ variant: 0, inside: true, box: { x: 6, y: 6 } });
});

test('a ribbon through the middle is never covered', () => {
  const discs = line([100, 0], [100, 200], 8);
  const [label] = placeLabels([wish('a', room(0, 0, 200, 200))], { discs, boxes: [] }, area);
  expect(label!.inside).toBe(true);
  for (const { centre, radius } of discs) expect(distanceToBox(centre, label!.box)).toBeGreaterThan(radius);
});

test('a shorter label is chosen before the label leaves its room', () => {
  const discs = line([70, 0], [70, 120], 4);
  const outline = room(0, 0, 120, 120);
  const [label] = placeLabels([wish('a', outline)], { discs, boxes: [] }, area);
  expect(label).toMatchObject({ variant: 1, inside: true });
  expect(isInside([label!.box.x + 1, label!.box.y + 1], outline)).toBe(true);
});

test('a room without any place has its label beside it, and labels never share a place', () => {
  const small = room(150, 100, 40, 30);
  const labels = placeLabels(
    [wish('a', small), wish('b', room(190, 60, 200, 120))],
    { discs: [], boxes: [] },
    area,
  );
  const a = labels.find(({ id }) => id === 'a')!;
  const b = labels.find(({ id }) => id === 'b')!;
  expect(a.inside).toBe(false);
  expect(b.inside).toBe(true);
  expect(sharedArea(a.box, b.box)).toBe(0);
});

test('a label stays where it stood while that place is clear', () => {
  const wishes = [wish('a', room(0, 0, 200, 200))];
  const previous = [{ id: 'a', variant: 0, box: { x: 90, y: 90, width: 80, height: 48 }, inside: true }];
  const [kept] = placeLabels(wishes, { discs: [], boxes: [] }, area, previous);
  expect(kept!.box).toEqual(previous[0]!.box);
  const [moved] = placeLabels(wishes, { discs: line([100, 0], [100, 200], 8), boxes: [] }, area, previous);
  expect(moved!.box).not.toEqual(previous[0]!.box);
});
