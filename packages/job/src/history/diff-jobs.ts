import type { Job } from '../schema/job-schema.ts';
import { childOf, isEmpty, isPlain, joinNames, namesOf, type Plain, same, shapeOf } from './shape.ts';

/** One field, record or list order that differs. An absent side is absent in the entry too. */
export type Difference =
  | { readonly path: string; readonly from?: unknown; readonly to?: unknown }
  | {
      readonly path: string;
      readonly order: { readonly from: readonly string[]; readonly to: readonly string[] };
    };

/** What leads from one job to another, and back: plain data that survives JSON. */
export type JobDiff = readonly Difference[];

const under = (path: string, name: string): string => (path === '' ? name : `${path}/${name}`);

/** The empty counterpart of a record or list that is compared by its content. */
const emptyOf = (value: unknown): Plain | readonly unknown[] | undefined => {
  const shape = shapeOf(value);
  return shape === 'value' ? undefined : shape === 'list' ? [] : {};
};

const diffLists = (path: string, before: readonly unknown[], after: readonly unknown[]): Difference[] => {
  const from = namesOf(before)!;
  const to = namesOf(after)!;
  const entries = [...new Set([...from, ...to])].flatMap((name) => {
    const [a, b] = [childOf(before, name), childOf(after, name)];
    return a === undefined || b === undefined
      ? [entry(under(path, name), a, b)]
      : diffAt(under(path, name), a, b);
  });
  // Without a word on the order, what is kept stays in order and what is new goes to the end; on the way back the
  // entries run backwards.
  const plain = same(joinNames(from, to), to) && same(joinNames(to, from.toReversed()), from);
  return plain ? entries : [...entries, { path, order: { from, to } }];
};

const entry = (path: string, from: unknown, to: unknown): Difference => ({
  path,
  ...(from !== undefined && { from }),
  ...(to !== undefined && { to }),
});

const diffAt = (path: string, before: unknown, after: unknown): Difference[] => {
  if (same(before, after)) return [];
  // A record that appears is made empty and then filled, so that two may fill it and each can be taken back.
  const empty = before === undefined ? emptyOf(after) : after === undefined ? emptyOf(before) : undefined;
  if (empty !== undefined && !isEmpty(before ?? after))
    return before === undefined
      ? [entry(path, undefined, empty), ...diffAt(path, empty, after)]
      : [...diffAt(path, before, empty), entry(path, empty, undefined)];
  const shapes = [shapeOf(before), shapeOf(after)];
  if (shapes.every((shape) => shape === 'list'))
    return diffLists(path, before as readonly unknown[], after as readonly unknown[]);
  if (shapes.every((shape) => shape === 'record') && isPlain(before) && isPlain(after))
    return [...new Set([...Object.keys(before), ...Object.keys(after)])].flatMap((key) =>
      diffAt(under(path, key), childOf(before, key), childOf(after, key)),
    );
  return [entry(path, before, after)];
};

/**
 * What changed between two jobs, field by field; records of a list are addressed by id.
 * `applyDiff(before, diffJobs(before, after))` equals `after`, and inverted it leads back.
 */
export const diffJobs = (before: Job, after: Job): JobDiff => diffAt('', before, after);

/** The diff that leads back. */
export const invertDiff = (diff: JobDiff): JobDiff =>
  diff
    .map((each) =>
      'order' in each
        ? { path: each.path, order: { from: each.order.to, to: each.order.from } }
        : entry(each.path, each.to, each.from),
    )
    .reverse();
