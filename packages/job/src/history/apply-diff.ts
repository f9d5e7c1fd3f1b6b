import type { Job } from '../schema/job-schema.ts';
import type { Difference, JobDiff } from './diff-jobs.ts';
import { childOf, isEmpty, isPlain, joinNames, nameOf, same, shapeOf } from './shape.ts';

/** A field that is not what a change was made on. */
export type DiffClash = { readonly path: string; readonly expected?: unknown; readonly found?: unknown };

/** Value at a path of names; undefined where nothing stands. */
export const at = (root: unknown, path: string): unknown =>
  path === '' ? root : path.split('/').reduce<unknown>(childOf, root);

const parentOf = (path: string): string => path.slice(0, Math.max(path.lastIndexOf('/'), 0));

const withChild = (holder: unknown, name: string, value: unknown): unknown => {
  if (Array.isArray(holder)) {
    const others = (item: unknown): boolean => nameOf(item) !== name;
    if (value === undefined) return holder.filter(others);
    return holder.every(others) ? [...holder, value] : holder.map((item) => (others(item) ? item : value));
  }
  const { [name]: _, ...rest } = holder as Record<string, unknown>;
  return value === undefined ? rest : { ...(holder as object), [name]: value };
};

/** Copy of `root` with `value` at a path of names; undefined takes it away. Only branches on the way are copied. */
export const withValueAt = (root: unknown, path: string, value: unknown): unknown => {
  if (path === '') return value;
  const [name = '', ...rest] = path.split('/');
  return withChild(
    root,
    name,
    rest.length === 0 ? value : withValueAt(childOf(root, name), rest.join('/'), value),
  );
};

const reordered = (list: unknown, order: readonly string[]): unknown => {
  if (!Array.isArray(list)) return list;
  const names = list.map((item) => nameOf(item) ?? '');
  const there = new Set(names);
  return joinNames(
    order.filter((name) => there.has(name)),
    names,
  ).map((name) => childOf(list, name));
};

const step = (job: unknown, each: Difference, clashes: DiffClash[]): unknown => {
  const found = at(job, each.path);
  if ('order' in each) return withOrder(job, each.path, found, each.order.to);
  const { path, from, to } = each;
  if (same(found, to)) return job;
  // Made to hold something, and by now it holds something else too: it stays.
  const holds = shapeOf(found) !== 'value' && !isEmpty(found);
  if (holds && ((from === undefined && isEmpty(to)) || (to === undefined && isEmpty(from)))) return job;
  const holder = at(job, parentOf(path));
  if (!same(found, from) || !(isPlain(holder) || shapeOf(holder) === 'list')) {
    clashes.push({
      path,
      ...(from !== undefined && { expected: from }),
      ...(found !== undefined && { found }),
    });
    return job;
  }
  return withValueAt(job, path, to);
};

const withOrder = (job: unknown, path: string, list: unknown, order: readonly string[]): unknown => {
  const next = reordered(list, order);
  return same(next, list) ? job : withValueAt(job, path, next);
};

/**
 * The job after a diff, or every place where the job is not what the diff was made on.
 * What already stands as the diff wants it is no clash.
 */
export const tryDiff = (
  job: Job,
  diff: JobDiff,
): { readonly job: Job } | { readonly clashes: readonly DiffClash[] } => {
  const clashes: DiffClash[] = [];
  // Orders come last: they speak of records that the other entries add.
  const entries = [...diff.filter((each) => !('order' in each)), ...diff.filter((each) => 'order' in each)];
  const next = entries.reduce<unknown>((before, each) => step(before, each, clashes), job);
  return clashes.length === 0 ? { job: next as Job } : { clashes };
};

/** The job after a diff; throws when the job is not what the diff was made on. */
export const applyDiff = (job: Job, diff: JobDiff): Job => {
  const result = tryDiff(job, diff);
  if ('clashes' in result)
    throw new Error(`The change does not fit at ${result.clashes.map((clash) => clash.path).join(', ')}.`);
  return result.job;
};
