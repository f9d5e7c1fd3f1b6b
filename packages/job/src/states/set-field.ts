import type { Change, Job } from '../schema/job-schema.ts';
import { applyChange, applyState, pathOf, stateIds } from './apply-state.ts';
import { brokenAt, valueAt } from './job-path.ts';

const same = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b);

/** Change that brings `path` to `value`; undefined takes the field away. */
const changeTo = (path: string, value: unknown): Change =>
  value === undefined ? { remove: path } : { set: path, to: value };

/**
 * The job with one field of one state typed anew; the job given is left as it is.
 * In the first state the house itself changes, unless that state already says otherwise; in a later one the
 * state's own list of changes does, and a value typed back to what it was before leaves no change behind.
 * `undefined` takes the field away. Throws on a path that leads nowhere or a state that is not there.
 */
export const setField = (job: Job, stateId: string, path: string, value: unknown): Job => {
  const ids = stateIds(job);
  const position = ids.indexOf(stateId);
  if (position < 0) throw new Error(`The job has no state "${stateId}"; it has ${ids.join(', ')}.`);
  const states = job.states ?? [];
  const state = states[position];
  const { states: _, ...base } = job;

  const concerns = (change: Change): boolean =>
    'set' in change &&
    (change.set === path || change.set.startsWith(`${path}/`) || path.startsWith(`${change.set}/`));
  const inBase =
    position === 0 &&
    !(
      state?.changes.some(
        (change) => concerns(change) || ('remove' in change && path.startsWith(change.remove)),
      ) ?? false
    ) &&
    brokenAt(base, path) === undefined;
  if (state === undefined || inBase) {
    if (value === undefined && valueAt(base, path) === undefined) return job;
    const changed = applyChange(base as Job, changeTo(path, value));
    return job.states === undefined ? changed : { ...changed, states: job.states };
  }

  const before = position === 0 ? (base as Job) : applyState(job, ids[position - 1]!);
  const isOlder = (change: Change): boolean =>
    !('add' in change) && (pathOf(change) === path || pathOf(change).startsWith(`${path}/`));
  const kept = state.changes.filter((change) => !isOlder(change));
  const withChanges = (changes: readonly Change[]): Job => ({
    ...job,
    states: states.with(position, { ...state, changes: [...changes] }),
  });
  const without = kept.reduce<Job>(applyChange, before);
  if (same(valueAt(without, path), value)) return withChanges(kept);
  // A reason given for the same field stays with it.
  const why = state.changes.find((change) => isOlder(change) && pathOf(change) === path)?.why;
  const change = changeTo(path, value);
  const next = why === undefined ? change : { ...change, why };
  applyChange(without, next);
  return withChanges([...kept, next]);
};
