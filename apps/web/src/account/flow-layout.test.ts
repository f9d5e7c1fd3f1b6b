import { expect, test } from 'vitest';
import { flowLayout, type Stream, spreadApart } from './flow-layout.ts';

const stream = (id: string, kind: Stream['kind'], value: number, missing = 0): Stream => ({
  id,
  name: id,
  kind,
  value,
  missing,
  strength: 1,
});
const streams = [
  stream('full', 'room', 200),
  stream('short', 'room', 80, 60),
  stream('tiny', 'room', 5, 1),
  stream('seams', 'loss', 30),
  stream('boots', 'loss', 10),
  stream('none', 'loss', 0),
];
const space = { width: 800, height: 300 };

test('every band is to one scale', () => {
  const { rooms, losses, source, scale } = flowLayout(streams, space);
  for (const band of rooms) expect(band.end.height).toBeCloseTo(band.stream.value * scale, 9);
  for (const band of losses) expect(band.end.width).toBeCloseTo(band.stream.value * scale, 9);
  expect(source.height).toBeCloseTo(325 * scale, 9);
});

test('the room that lacks most comes first, and nothing without air is drawn as lost', () => {
  const { rooms, losses } = flowLayout(streams, space);
  expect(rooms.map((band) => band.stream.id)).toEqual(['short', 'tiny', 'full']);
  expect(losses.map((band) => band.stream.id)).toEqual(['seams', 'boots']);
});

test('rooms and the air they miss stand apart, and end above where losses leave', () => {
  const { rooms, source, scale } = flowLayout(streams, space);
  rooms.slice(1).forEach((band, i) => {
    const above = rooms[i]!;
    expect(band.end.y).toBeGreaterThanOrEqual(above.end.y + above.end.height + above.missingHeight);
  });
  const last = rooms.at(-1)!;
  expect(last.end.y + last.end.height + last.missingHeight).toBeLessThanOrEqual(
    source.y + 285 * scale + 1e-9,
  );
});

test('nothing leaves the space', () => {
  const { rooms, losses } = flowLayout(streams, space);
  for (const { label } of [...rooms, ...losses]) {
    expect(label.x).toBeLessThan(space.width);
    expect(label.y).toBeLessThan(space.height);
  }
});

test('words are spread until none overlap', () => {
  const spread = spreadApart([10, 11, 12, 80, 81], 15, 0, 100);
  for (let i = 1; i < spread.length; i++)
    expect(spread[i]! - spread[i - 1]!).toBeGreaterThanOrEqual(15 - 1e-9);
  expect(spread.at(-1)!).toBeLessThanOrEqual(100);
});
