import { account } from '@airledger/engine';
import { expect, test } from 'vitest';
import { smallHouse } from '../../../../tests/fixtures/small-house.ts';
import { partPieces } from './part-pieces.ts';

const solved = account(smallHouse, 'cooling');
const pieces = partPieces(solved);

test('pieces of every part run from one end to the other', () => {
  for (const part of smallHouse.systems[0]!.parts) {
    const own = pieces.get(part.id)!;
    expect(own[0]!.from).toBe(0);
    expect(own.at(-1)!.to).toBe(1);
    for (const [i, piece] of own.slice(1).entries()) expect(piece.from).toBeCloseTo(own[i]!.to, 12);
  }
});

test('air gets less from piece to piece along the trunk, as runs leave it', () => {
  const trunk = pieces.get('trunk')!;
  expect(trunk.length).toBeGreaterThan(3);
  for (const [i, piece] of trunk.slice(1).entries()) expect(piece.flow_m3s).toBeLessThan(trunk[i]!.flow_m3s);
});

test('a return part starts with the most air, at the air handler', () => {
  const plenum = pieces.get('return-plenum')![0]!;
  const run = pieces.get('return-run')!;
  expect(plenum.flow_m3s).toBeGreaterThan(run.at(-1)!.flow_m3s);
  expect(run[0]!.flow_m3s).toBeGreaterThanOrEqual(run.at(-1)!.flow_m3s);
});

test('cool supply air warms along a run in a hot attic', () => {
  const run = pieces.get('run-bed-2')![0]!;
  expect(run.temperature_C).toBeGreaterThan(solved.systems[0]!.leavesAt_C);
  expect(run.temperature_C).toBeLessThan(solved.rooms.find(({ room }) => room === 'bed-2')!.arrives_C!);
});
