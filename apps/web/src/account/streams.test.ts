import { account, type Mode } from '@airledger/engine';
import { describe, expect, test } from 'vitest';
import { smallHouse } from '../../../../tests/fixtures/small-house.ts';
import { streamsOf } from './streams.ts';

describe.each<Mode>(['cooling', 'heating'])('streams on a %s day', (mode) => {
  const solved = account(smallHouse, mode);
  const sign = mode === 'heating' ? 1 : -1;
  const equipment = (key: 'sensible_W' | 'latent_W') =>
    solved.ledger.lines
      .filter((line) => line.cause === mode)
      .reduce((sum, line) => sum + sign * (line.from === 'equipment' ? line[key] : -line[key]), 0);
  const gains = (streams: ReturnType<typeof streamsOf>) =>
    streams.gains.reduce((sum, { value }) => sum + value, 0);

  test('air: rooms and leaks together are what the fan moves', () => {
    expect(streamsOf(solved, 'air').given).toBeCloseTo(solved.systems[0]!.fanFlow_m3s, 9);
  });

  test('heat: rooms and losses together are what the equipment gives', () => {
    const streams = streamsOf(solved, 'sensible');
    expect(streams.given - gains(streams)).toBeCloseTo(equipment('sensible_W'), 6);
  });

  test('moisture: rooms and losses together are what the coil takes out', () => {
    const streams = streamsOf(solved, 'moisture');
    expect(streams.given - gains(streams)).toBeCloseTo(equipment('latent_W'), 6);
  });

  test('heat to a room counts from its own temperature', () => {
    const { share } = solved.heat.floating;
    const room = solved.rooms.find((each) => each.room === 'bed-2')!;
    const mass = room.delivered_m3s * solved.air.referenceDensity_kgm3;
    const own = sign * share * mass * solved.heat.specificHeat_JkgK * (room.arrives_C! - room.predicted_C);
    const stream = streamsOf(solved, 'sensible').streams.find(({ id }) => id === 'bed-2')!;
    expect(stream.value).toBeCloseTo(own, 6);
  });

  test('what a room lacks is its need less what it gets', () => {
    for (const stream of streamsOf(solved, 'air').streams.filter(({ kind }) => kind === 'room')) {
      const room = solved.rooms.find((each) => each.room === stream.id)!;
      expect(stream.missing).toBeCloseTo(Math.max(0, room.needed_m3s - room.delivered_m3s), 9);
    }
  });
});
