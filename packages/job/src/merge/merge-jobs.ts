import { withValueAt } from '../history/apply-diff.ts';
import { childOf, isEmpty, namesOf, type Plain, same, shapeOf } from '../history/shape.ts';
import type { Job } from '../schema/job-schema.ts';
import { mergeOrder } from './merge-order.ts';

/** A field or record that both sides changed, each in its own way. An absent side is absent here too. */
export type MergeClash = {
  /** Where, by ids, as in a diff: `rooms/bedroom-2/height`. */
  readonly path: string;
  readonly base?: unknown;
  readonly mine?: unknown;
  readonly theirs?: unknown;
};

/** The job of both sides; where they clash it keeps mine, or theirs where mine is gone, until `settleClash` says otherwise. */
export type MergedJob = { readonly job: Job; readonly clashes: readonly MergeClash[] };

type Sides = { readonly base: unknown; readonly mine: unknown; readonly theirs: unknown };

const under = (path: string, name: string): string => (path === '' ? name : `${path}/${name}`);

const childSides = ({ base, mine, theirs }: Sides, name: string): Sides => ({
  base: childOf(base, name),
  mine: childOf(mine, name),
  theirs: childOf(theirs, name),
});

const clash = (path: string, { base, mine, theirs }: Sides, clashes: MergeClash[]): unknown => {
  clashes.push({
    path,
    ...(base !== undefined && { base }),
    ...(mine !== undefined && { mine }),
    ...(theirs !== undefined && { theirs }),
  });
  // Taken away on one side and worked on at the other: the work stays until someone decides.
  return mine === undefined ? theirs : mine;
};

const mergeLists = (path: string, sides: Sides, clashes: MergeClash[]): readonly unknown[] => {
  const [base, mine, theirs] = [sides.base ?? [], sides.mine, sides.theirs].map(
    (list) => namesOf(list as readonly unknown[])!,
  );
  return mergeOrder(base!, mine!, theirs!).flatMap((name) => {
    const merged = mergeAt(under(path, name), childSides(sides, name), clashes, true);
    return merged === undefined ? [] : [merged];
  });
};

const mergeRecords = (path: string, sides: Sides, clashes: MergeClash[]): Plain => {
  const keys = new Set([sides.mine, sides.theirs].flatMap((side) => Object.keys(side as Plain)));
  return Object.fromEntries(
    [...keys].flatMap((key) => {
      const merged = mergeAt(under(path, key), childSides(sides, key), clashes, false);
      return merged === undefined ? [] : [[key, merged]];
    }),
  );
};

const mergeAt = (path: string, sides: Sides, clashes: MergeClash[], isItem: boolean): unknown => {
  const { base, mine, theirs } = sides;
  if (same(mine, theirs) || same(base, theirs)) return mine;
  if (same(base, mine)) return theirs;
  const shape = shapeOf(mine);
  // Two records of one id, made on both sides, are two different things: their fields are not mixed.
  const comparable =
    shape === shapeOf(theirs) && (base === undefined ? !isItem : isEmpty(base) || shape === shapeOf(base));
  if (comparable && shape === 'list') return mergeLists(path, sides, clashes);
  if (comparable && shape === 'record') return mergeRecords(path, sides, clashes);
  return clash(path, sides, clashes);
};

/**
 * Three-way merge by record and field: what only one side changed is taken, and what both changed differently is
 * a clash. Until a clash is settled the job holds my value, or the side that was worked on when the other side
 * took the record away. Two changes that fit one by one may still not fit together (a duct into a room that the
 * other side removed), so the merged job has to be read again before it is kept.
 */
export const mergeJobs = (base: Job, mine: Job, theirs: Job): MergedJob => {
  const clashes: MergeClash[] = [];
  const job = mergeAt('', { base, mine, theirs }, clashes, false) as Job;
  return { job, clashes };
};

/** The merged job with one clash settled for a side. */
export const settleClash = (job: Job, clash: MergeClash, side: 'base' | 'mine' | 'theirs'): Job =>
  withValueAt(job, clash.path, clash[side]) as Job;
