import type { Job } from '../schema/job-schema.ts';
import { type DiffClash, tryDiff } from './apply-diff.ts';
import { invertDiff, type JobDiff } from './diff-jobs.ts';

/** One step in words, and the difference that it made. */
export type UndoStep = { readonly what: string; readonly diff: JobDiff };

/** What can be undone, oldest first, and redone, next first. Plain data: written with the job, it outlives a reload. */
export type UndoStack = { readonly past: readonly UndoStep[]; readonly future: readonly UndoStep[] };

/** Nothing to undo, nothing to redo. */
export const emptyUndoStack: UndoStack = { past: [], future: [] };

/** Steps kept; a day's work is some hundreds. */
const deepest = 2000;

/** The stack after one more change; what was undone before it can no longer be redone. */
export const pushStep = ({ past }: UndoStack, step: UndoStep): UndoStack => ({
  past: [...past, step].slice(-deepest),
  future: [],
});

/** A step back or forth: the job and stack after it, or the fields that another hand has changed since. */
export type UndoResult =
  | { readonly job: Job; readonly stack: UndoStack; readonly step: UndoStep }
  | { readonly step: UndoStep; readonly clashes: readonly DiffClash[] };

/** Takes the last change back; undefined when there is none. */
export const undo = (job: Job, { past, future }: UndoStack): UndoResult | undefined => {
  const step = past.at(-1);
  if (step === undefined) return undefined;
  const result = tryDiff(job, invertDiff(step.diff));
  return 'job' in result
    ? { job: result.job, step, stack: { past: past.slice(0, -1), future: [step, ...future] } }
    : { step, clashes: result.clashes };
};

/** Makes the last undone change again; undefined when there is none. */
export const redo = (job: Job, { past, future }: UndoStack): UndoResult | undefined => {
  const [step, ...rest] = future;
  if (step === undefined) return undefined;
  const result = tryDiff(job, step.diff);
  return 'job' in result
    ? { job: result.job, step, stack: { past: [...past, step], future: rest } }
    : { step, clashes: result.clashes };
};
