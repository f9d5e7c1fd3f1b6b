import type { Change, Job } from '../schema/job-schema.ts';
import { type Branch, brokenAt, changedAt, splitPath, valueAt, withItem, withoutItem } from './job-path.ts';

/** Why a change cannot be made, in words that follow "found". */
type ChangeProblem = { readonly value: string; readonly expected: string; readonly remedy: string };

const byIds = 'Address it by ids, as "systems/main/parts/run-2/insulation".';

/** Path that a change addresses. */
export const pathOf = (change: Change): string =>
  'set' in change ? change.set : 'add' in change ? change.add : change.remove;

/** Checks a change against the house that it is made on; undefined when it can be made. */
export const changeProblem = (job: unknown, change: Change): ChangeProblem | undefined => {
  const path = pathOf(change);
  if (path.startsWith('states') || path.startsWith('schemaVersion'))
    return { value: `"${path}"`, expected: 'a path into the house', remedy: byIds };
  if (path.split('/')[0] === 'readings')
    return {
      value: `"${path}"`,
      expected: 'a path into the house',
      remedy: 'A reading names its state itself: change it under "readings".',
    };
  const broken = brokenAt(job, path);
  if (broken !== undefined)
    return {
      value: `"${path}", where nothing stands at "${broken}"`,
      expected: 'a path that exists',
      remedy: byIds,
    };
  const there = valueAt(job, path);
  if ('remove' in change && there === undefined)
    return { value: `"${path}", where nothing stands`, expected: 'a path that exists', remedy: byIds };
  if (!('add' in change)) return undefined;
  const parent = path.includes('/') ? undefined : path;
  if (there === undefined && parent === undefined && !/\/[a-zA-Z]+$/.test(path))
    return {
      value: `"${path}"`,
      expected: 'a list to add to',
      remedy: 'Name the list, as "systems/main/parts".',
    };
  if (there !== undefined && !Array.isArray(there))
    return {
      value: `"${path}", which is not a list`,
      expected: 'a list to add to',
      remedy: 'Name the list, as "systems/main/parts".',
    };
  const added = change.item as { id?: unknown } | null;
  const ids = ((there ?? []) as readonly { id?: unknown }[]).map((item) => item?.id);
  if (typeof added === 'object' && added?.id !== undefined && ids.includes(added.id))
    return {
      value: `a second "${String(added.id)}"`,
      expected: 'an id that is free',
      remedy: 'Give it another id, or set the one that is there.',
    };
  return undefined;
};

/** The house after one change; throws when `changeProblem` would object. */
export const applyChange = (job: Job, change: Change): Job => {
  const problem = changeProblem(job, change);
  if (problem) throw new Error(`Found ${problem.value}, expected ${problem.expected}. ${problem.remedy}`);
  const segments = splitPath(pathOf(change));
  const changed = changedAt(job as unknown as Branch, segments, (holder, key) => {
    const at = key!;
    if ('set' in change) return withItem(holder, at, change.to);
    if ('remove' in change) return withoutItem(holder, at);
    const list = (holder as Record<string | number, unknown>)[at] as readonly unknown[] | undefined;
    return withItem(holder, at, [...(list ?? []), change.item]);
  });
  return changed as unknown as Job;
};

/** Ids of a job's states in order; a job without states has one, "as-found". */
export const stateIds = (job: Job): readonly string[] =>
  job.states === undefined || job.states.length === 0 ? ['as-found'] : job.states.map((state) => state.id);

const applied = new WeakMap<Job, Map<string, Job>>();

/**
 * The house in one state: the changes of every state up to and including it, in order.
 * What it returns has no states of its own. Throws when the job has no such state.
 * Remembered for each job, as a thousand drawn houses ask for the same one.
 */
export const applyState = (job: Job, stateId: string): Job => {
  const known = applied.get(job) ?? new Map<string, Job>();
  const before = known.get(stateId);
  if (before) return before;
  const { states = [], ...base } = job;
  const position = stateIds(job).indexOf(stateId);
  if (position < 0) throw new Error(`The job has no state "${stateId}"; it has ${stateIds(job).join(', ')}.`);
  const house = states
    .slice(0, position + 1)
    .flatMap((state) => state.changes)
    .reduce<Job>(applyChange, base);
  applied.set(job, known.set(stateId, house));
  return house;
};
