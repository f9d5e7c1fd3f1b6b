import fc from 'fast-check';
import { expect, test } from 'vitest';
import { setField } from '../states/set-field.ts';
import { applyDiff, tryDiff } from './apply-diff.ts';
import { describeDiff, summariseDiff } from './describe-diff.ts';
import { diffJobs, invertDiff } from './diff-jobs.ts';
import { appendChange, type History, takeBack } from './history.ts';
import { someEdits, tinyJob } from './random-edits.ts';
import { emptyUndoStack, pushStep, redo, type UndoStack, undo } from './undo-stack.ts';

const base = tinyJob();
/** As it comes back from a file, a store or another window. */
const reloaded = <T>(value: T): T => JSON.parse(JSON.stringify(value));
const stamp = { at: new Date(Date.UTC(2026, 4, 1, 9, 30)), who: 'Ada' };
const height = (job: typeof base, room: string) => job.rooms.find((each) => each.id === room)?.height;
const withHeight = (job: typeof base, room: string, to: string) =>
  setField(job, 'as-found', `rooms/${room}/height`, to);

test('a diff leads to the other job and, inverted, back, order of records included', () => {
  fc.assert(
    fc.property(someEdits(), someEdits(), (first, second) => {
      const before = first(base);
      const after = second(before);
      const diff = reloaded(diffJobs(before, after));
      expect(applyDiff(before, diff)).toEqual(reloaded(after));
      expect(applyDiff(reloaded(after), invertDiff(diff))).toEqual(reloaded(before));
      expect(diffJobs(before, reloaded(before))).toEqual([]);
    }),
    { numRuns: 500, seed: 4 },
  );
});

test('a changed field is one entry at its path', () => {
  expect(diffJobs(base, withHeight(base, 'bedroom', '9 ft'))).toEqual([
    { path: 'rooms/bedroom/height', to: '9 ft' },
  ]);
  const found = setField(base, 'as-specified', 'systems/main/parts/run-bedroom/slack', '5 %');
  expect(diffJobs(base, found).map((each) => each.path)).toEqual([
    'states/as-specified/changes/systems.main.parts.run-bedroom.slack',
  ]);
});

test('a diff does not fit on a job that another hand has changed at the same field', () => {
  const diff = diffJobs(base, withHeight(base, 'bedroom', '9 ft'));
  const other = withHeight(base, 'bedroom', '10 ft');
  expect(tryDiff(other, diff)).toEqual({ clashes: [{ path: 'rooms/bedroom/height', found: '10 ft' }] });
  expect(() => applyDiff(other, diff)).toThrow('rooms/bedroom/height');
  const without = { ...base, rooms: base.rooms.filter((room) => room.id !== 'bedroom') };
  expect(tryDiff(without, diff)).toEqual({ clashes: [{ path: 'rooms/bedroom/height' }] });
});

test('any work can be undone to the start and redone to the end, with a reload at every step', () => {
  fc.assert(
    fc.property(fc.array(someEdits(2), { maxLength: 8 }), (edits) => {
      let job = base;
      let stack: UndoStack = emptyUndoStack;
      for (const edit of edits) {
        const next = edit(job);
        const diff = diffJobs(job, next);
        if (diff.length > 0) stack = pushStep(stack, { what: summariseDiff(diff, next), diff });
        job = next;
      }
      const end = job;
      for (const move of [undo, redo])
        for (let step = move(job, stack); step !== undefined; step = move(job, stack)) {
          if ('clashes' in step) throw new Error('a clash where nobody else worked');
          [job, stack] = reloaded([step.job, step.stack] as const);
          if (move === undo && stack.past.length === 0) expect(job).toEqual(reloaded(base));
        }
      expect(job).toEqual(reloaded(end));
    }),
    { numRuns: 200, seed: 4 },
  );
});

test('undo says what clashes when another hand has changed the same field since', () => {
  const mine = withHeight(base, 'bedroom', '9 ft');
  const stack = pushStep(emptyUndoStack, { what: 'height', diff: diffJobs(base, mine) });
  expect(undo(withHeight(mine, 'bedroom', '10 ft'), stack)).toMatchObject({
    clashes: [{ path: 'rooms/bedroom/height', expected: '9 ft', found: '10 ft' }],
  });
  expect(redo(mine, stack)).toBeUndefined();
});

test('an earlier change is taken back alone, unless a later one touches the same field', () => {
  const jobs = [base];
  const edit = (to: typeof base) => jobs.push(to);
  edit(withHeight(jobs.at(-1)!, 'bedroom', '9 ft'));
  edit(withHeight(jobs.at(-1)!, 'living', '10 ft'));
  edit(withHeight(jobs.at(-1)!, 'living', '11 ft'));
  const history = jobs
    .slice(1)
    .reduce<History>((past, after, i) => appendChange(past, jobs[i]!, after, stamp), []);
  const now = jobs.at(-1)!;
  expect(history.map((entry) => entry.what)).toEqual([
    'Room bedroom: height 9 ft',
    'Room living: height 10 ft',
    'Room living: height from 10 ft to 11 ft',
  ]);
  expect(history[0]).toMatchObject({ at: '2026-05-01T09:30:00.000Z', who: 'Ada' });

  const first = takeBack(now, history, 0);
  if ('clashes' in first) throw new Error('nothing is in the way');
  expect([height(first.job, 'bedroom'), height(first.job, 'living')]).toEqual([undefined, '11 ft']);

  expect(takeBack(now, history, 1)).toEqual({
    clashes: [{ path: 'rooms/living/height', expected: '10 ft', found: '11 ft', by: [history[2]] }],
  });
  expect(() => takeBack(now, history, 3)).toThrow('3 changes');
});

test('the first of two new records in a new list is taken back alone', () => {
  const grille = (id: string) => ({ id, kind: 'transfer grille' as const, between: ['living', 'bedroom'] });
  const one = { ...base, transfers: [grille('a')] };
  const two = { ...base, transfers: [grille('a'), grille('b')] };
  const history = appendChange(appendChange([], base, one, stamp), one, two, stamp);
  const result = takeBack(two, history, 0);
  expect('job' in result && result.job.transfers).toEqual([grille('b')]);
});

test('nothing changed leaves no entry', () => {
  expect(appendChange([], base, reloaded(base), stamp)).toEqual([]);
});

test('changes read as sentences', () => {
  const named = {
    ...base,
    rooms: base.rooms.map((room) => (room.id === 'bedroom' ? { ...room, name: 'Bedroom 2' } : room)),
  };
  const lines = (after: typeof base) => describeDiff(diffJobs(named, after), after);
  expect(lines(withHeight(named, 'bedroom', '9 ft'))).toEqual(['Bedroom 2: height 9 ft']);
  expect(lines({ ...named, rooms: named.rooms.slice(0, 1) })).toEqual(['Bedroom 2 removed']);
  expect(lines({ ...named, rooms: [...named.rooms].reverse() })).toEqual(['Rooms: in another order']);
  expect(lines(setField(named, 'as-found', 'systems/main/parts/run-bedroom/section', '7 in'))).toEqual([
    'Duct run-bedroom: section from 6 in to 7 in',
  ]);
  expect(
    lines(setField(named, 'as-specified', 'rooms/bedroom/height', { value: '9 ft', known: 'measured' })),
  ).toEqual(['State as-specified: Bedroom 2, height becomes 9 ft (measured)']);
  expect(
    lines(setField(named, 'as-specified', 'systems/main/parts/run-bedroom/slack', undefined)).length,
  ).toBe(1);
  expect(
    lines(setField(named, 'as-specified', 'systems/main/parts/run-bedroom/leaks', [{ place: 'joint' }])),
  ).toEqual(['State as-specified: duct run-bedroom, leaks become 1 leak']);
  expect(lines({ ...named, indoor: { heating: '68 °F' } })).toEqual(['Indoor: heating 68 °F']);
  expect(summariseDiff(diffJobs(named, { ...named, name: 'A', rooms: named.rooms.slice(0, 1) }), named)).toBe(
    'Name from Two rooms to A and 1 more',
  );
});
