import fc from 'fast-check';
import { expect, test } from 'vitest';
import { someEdits, tinyJob } from '../history/random-edits.ts';
import { same } from '../history/shape.ts';
import type { Job } from '../schema/job-schema.ts';
import { setField } from '../states/set-field.ts';
import { mergeJobs, settleClash } from './merge-jobs.ts';

const base = tinyJob();
const plain = <T>(value: T): T => JSON.parse(JSON.stringify(value));
const runs = { numRuns: 500, seed: 4 };
const roomIds = (job: Job) => job.rooms.map((room) => room.id);
const withHeight = (job: Job, room: string, to: string) =>
  setField(job, 'as-found', `rooms/${room}/height`, to);

/** The job with every list of records in the order of their ids: content without order. */
const unordered = (value: unknown): unknown => {
  if (Array.isArray(value))
    return value.map(unordered).sort((a, b) => (JSON.stringify(a) < JSON.stringify(b) ? -1 : 1));
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value)
      .sort()
      .map(([key, item]) => [key, unordered(item)]),
  );
};

test('what only one side changed is that side', () => {
  fc.assert(
    fc.property(someEdits(), someEdits(), (first, second) => {
      const b = first(base);
      const m = second(b);
      expect(mergeJobs(b, m, b)).toEqual({ job: m, clashes: [] });
      expect(mergeJobs(b, b, m)).toEqual({ job: m, clashes: [] });
      expect(mergeJobs(b, m, plain(m))).toEqual({ job: m, clashes: [] });
    }),
    runs,
  );
});

test('both sides see the same merge, and the same clashes with sides exchanged', () => {
  fc.assert(
    fc.property(someEdits(), someEdits(), (one, two) => {
      const [m, t] = [one(base), two(base)];
      const here = mergeJobs(base, m, t);
      const there = mergeJobs(base, t, m);
      const mirrored = there.clashes.map(({ path, base: before, mine, theirs }) => ({
        path,
        base: before,
        mine: theirs,
        theirs: mine,
      }));
      const byPath = (a: { path: string }, b: { path: string }) => (a.path < b.path ? -1 : 1);
      expect(plain([...here.clashes].sort(byPath))).toEqual(plain([...mirrored].sort(byPath)));
      const settled = there.clashes.reduce((job, clash) => settleClash(job, clash, 'theirs'), there.job);
      const mine = here.clashes.reduce((job, clash) => settleClash(job, clash, 'mine'), here.job);
      expect(unordered(plain(settled))).toEqual(unordered(plain(mine)));
    }),
    runs,
  );
});

test('merging again changes nothing', () => {
  fc.assert(
    fc.property(someEdits(), someEdits(), (one, two) => {
      const [m, t] = [one(base), two(base)];
      const merged = mergeJobs(base, m, t);
      fc.pre(merged.clashes.length === 0);
      expect(mergeJobs(base, merged.job, t).clashes).toEqual([]);
      expect(unordered(plain(mergeJobs(base, merged.job, t).job))).toEqual(unordered(plain(merged.job)));
      expect(mergeJobs(t, merged.job, t)).toEqual({ job: merged.job, clashes: [] });
    }),
    runs,
  );
});

test('every value of the merge comes from one of the sides, and no clash is a field on which they agree', () => {
  fc.assert(
    fc.property(someEdits(), someEdits(), (one, two) => {
      const [m, t] = [one(base), two(base)];
      const { job, clashes } = mergeJobs(base, m, t);
      for (const clash of clashes) {
        expect(same(clash.mine, clash.theirs)).toBe(false);
        expect(same(clash.base, clash.mine) || same(clash.base, clash.theirs)).toBe(false);
      }
      const known = new Set([...roomIds(m), ...roomIds(t)]);
      expect(roomIds(job).every((id) => known.has(id))).toBe(true);
      expect(new Set(roomIds(job)).size).toBe(job.rooms.length);
      // A room that either side added is there.
      for (const id of known) if (!roomIds(base).includes(id)) expect(roomIds(job)).toContain(id);
    }),
    runs,
  );
});

test('different fields of one record both arrive', () => {
  const mine = withHeight(base, 'bedroom', '9 ft');
  const theirs = setField(base, 'as-found', 'rooms/bedroom/leakageShare', '30 %');
  const { job, clashes } = mergeJobs(base, mine, theirs);
  expect(clashes).toEqual([]);
  expect(job.rooms[1]).toMatchObject({ height: '9 ft', leakageShare: '30 %' });
});

test('different changes of one state both arrive', () => {
  const mine = setField(base, 'as-specified', 'rooms/bedroom/height', '9 ft');
  const theirs = setField(base, 'as-specified', 'rooms/living/height', '10 ft');
  const { job, clashes } = mergeJobs(base, mine, theirs);
  expect(clashes).toEqual([]);
  expect(job.states?.[1]?.changes).toHaveLength(4);
});

test('one field changed on both sides keeps both values for someone to choose', () => {
  const { job, clashes } = mergeJobs(
    base,
    withHeight(base, 'bedroom', '9 ft'),
    withHeight(base, 'bedroom', '10 ft'),
  );
  expect(clashes).toEqual([{ path: 'rooms/bedroom/height', mine: '9 ft', theirs: '10 ft' }]);
  expect(job.rooms[1]?.height).toBe('9 ft');
  expect(settleClash(job, clashes[0]!, 'theirs').rooms[1]?.height).toBe('10 ft');
  expect(settleClash(job, clashes[0]!, 'base').rooms[1]).not.toHaveProperty('height');
});

test('a value and how it is known are never mixed from two sides', () => {
  const typed = (value: string, known: 'measured' | 'assumed') =>
    setField(base, 'as-found', 'rooms/bedroom/height', { value, known });
  const { clashes } = mergeJobs(
    typed('8 ft', 'assumed'),
    typed('9 ft', 'assumed'),
    typed('8 ft', 'measured'),
  );
  expect(clashes.map((clash) => clash.path)).toEqual(['rooms/bedroom/height']);
});

test('a room worked on here and removed there stays until someone decides', () => {
  const mine = withHeight(base, 'bedroom', '9 ft');
  const theirs = { ...base, rooms: base.rooms.filter((room) => room.id !== 'bedroom') };
  for (const [m, t, remove] of [
    [mine, theirs, 'theirs'],
    [theirs, mine, 'mine'],
  ] as const) {
    const { job, clashes } = mergeJobs(base, m, t);
    expect(clashes.map((clash) => clash.path)).toEqual(['rooms/bedroom']);
    expect(job.rooms[1]?.height).toBe('9 ft');
    expect(roomIds(settleClash(job, clashes[0]!, remove))).toEqual(['living']);
  }
});

test('two rooms added under one id are asked about as a whole', () => {
  const room = (area: string): Job => ({ ...base, rooms: [...base.rooms, { id: 'den', floorArea: area }] });
  expect(mergeJobs(base, room('100 ft²'), room('120 ft²')).clashes.map((clash) => clash.path)).toEqual([
    'rooms/den',
  ]);
});

test('records added on both sides stand beside the neighbours they were put beside', () => {
  const add = (at: number, id: string): Job => ({
    ...base,
    rooms: base.rooms.toSpliced(at, 0, { id, floorArea: '90 ft²' }),
  });
  expect(roomIds(mergeJobs(base, add(0, 'porch'), add(1, 'den')).job)).toEqual([
    'porch',
    'living',
    'den',
    'bedroom',
  ]);
});

test('a merge of a house of 200 records is ready within a frame', () => {
  const rooms = Array.from({ length: 200 }, (_, i) => ({ ...base.rooms[0]!, id: `room-${i}` }));
  const big = { ...base, rooms };
  const mine = withHeight(big, 'room-3', '9 ft');
  const theirs = withHeight(big, 'room-150', '9 ft');
  mergeJobs(big, mine, theirs);
  const start = performance.now();
  mergeJobs(big, mine, theirs);
  expect(performance.now() - start).toBeLessThan(50);
});
