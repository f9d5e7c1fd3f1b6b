import type { Job } from '../schema/job-schema.ts';
import { type DiffClash, tryDiff } from './apply-diff.ts';
import { summariseDiff } from './describe-diff.ts';
import { diffJobs, invertDiff, type JobDiff } from './diff-jobs.ts';

/** One change of a job: when (ISO 8601), by whom, what in words, and the change itself. */
export type HistoryEntry = {
  readonly at: string;
  readonly who: string;
  readonly what: string;
  readonly diff: JobDiff;
};

/** Every change of a job, oldest first. Entries are only ever added. */
export type History = readonly HistoryEntry[];

/** Who changes a job, when, and in which words; without words the change describes itself. */
export type Stamp = { readonly at: Date; readonly who: string; readonly what?: string };

/** The entry for one change; undefined when nothing changed. */
export const historyEntry = (before: Job, after: Job, { at, who, what }: Stamp): HistoryEntry | undefined => {
  const diff = diffJobs(before, after);
  return diff.length === 0
    ? undefined
    : { at: at.toISOString(), who, what: what ?? summariseDiff(diff, after), diff };
};

/** The history with one more change; as it was when nothing changed. */
export const appendChange = (history: History, before: Job, after: Job, stamp: Stamp): History => {
  const entry = historyEntry(before, after, stamp);
  return entry === undefined ? history : [...history, entry];
};

/** A field that keeps a change from being taken back, and the later changes that touched it. */
export type TakeBackClash = DiffClash & { readonly by: History };

/** One path inside the other, or the same. */
const touches = (a: string, b: string): boolean => a === b || a.startsWith(`${b}/`) || b.startsWith(`${a}/`);

/**
 * The job without one earlier change, all later ones kept; or the fields in the way.
 * `index` counts from the oldest entry. Throws when there is no such entry.
 */
export const takeBack = (
  job: Job,
  history: History,
  index: number,
): { readonly job: Job } | { readonly clashes: readonly TakeBackClash[] } => {
  const entry = history[index];
  if (entry === undefined) throw new Error(`The history has ${history.length} changes, none at ${index}.`);
  const result = tryDiff(job, invertDiff(entry.diff));
  if ('job' in result) return result;
  const later = history.slice(index + 1);
  return {
    clashes: result.clashes.map((clash) => ({
      ...clash,
      by: later.filter((each) => each.diff.some(({ path }) => touches(path, clash.path))),
    })),
  };
};
