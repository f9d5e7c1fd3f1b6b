import type { Job, JobError } from '@airledger/job';
import { uniqueId } from '@airledger/job';
import { type EditResult, edit, editTyped } from '../document/document.ts';
import { setValue } from './set-value.ts';

/** One field to be typed anew; `undefined` takes it away. */
export type Entry = { readonly path: string; readonly value: unknown };

/** A register that is begun by one of its fields needs a name of its own. */
const withNames = (job: Job, path: string): Job => {
  const terminal = /^(systems\/[^/]+\/parts\/([^/]+)\/terminal)\/(?!id$)/.exec(path);
  if (!terminal) return job;
  const part = job.systems?.flatMap(({ parts }) => parts).find(({ id }) => id === terminal[2]);
  return part?.terminal ? job : setValue(job, `${terminal[1]}/id`, uniqueId(job, `${terminal[2]}-register`));
};

/** Fields that say one thing in two ways: typed in one, it no longer stands in the other. */
const rivals: readonly (readonly [field: RegExp, other: string])[] = [
  [/(\/leaks\/[^/]+\/)flow$/, '$1tightness'],
  [/(\/leaks\/[^/]+\/)tightness$/, '$1flow'],
  [/^house\/leakage50$/, 'house/airChanges50'],
  [/^house\/airChanges50$/, 'house/leakage50'],
];

const withoutRivals = (job: Job, path: string): Job =>
  rivals.reduce(
    (next, [field, other]) =>
      field.test(path) ? setValue(next, path.replace(field, other), undefined) : next,
    job,
  );

/** The house with some of its fields typed anew. */
export const withEntries = (job: Job, entries: readonly Entry[]): Job =>
  entries.reduce(
    (next, { path, value }) =>
      setValue(value === undefined ? next : withNames(withoutRivals(next, path), path), path, value),
    job,
  );

/**
 * Types fields anew in the state in view, as one step; where the job would not read, nothing changes. A reading names
 * its state itself, so it is the same in all of them.
 */
export const editValues = (label: string, entries: readonly Entry[]): EditResult =>
  (entries.every(({ path }) => path.startsWith('readings/')) ? editTyped : edit)(label, (job) =>
    withEntries(job, entries),
  );

/** What is wrong at a field, out of all errors of an edit; of an error elsewhere, where it is. */
export const errorAt = (errors: readonly JobError[], path: string): string => {
  const own = errors.find((error) => error.path === path || error.path.startsWith(`${path}/`));
  if (!own) return errors[0]?.message ?? 'This is not taken.';
  return `Found ${own.value}, expected ${own.expected}. ${own.remedy}`;
};
