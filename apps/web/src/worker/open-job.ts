import type { Survey } from '@airledger/engine';
import { type Job, type JobError, readJob } from '@airledger/job';
import { surveyStates } from '../document/survey-states.ts';

/** A job that reads without a fault: its states in order, each as a survey. */
export type OpenedJob = {
  readonly name: string;
  readonly states: readonly { readonly id: string; readonly name: string }[];
  readonly surveys: Readonly<Record<string, Survey>>;
};

export type Opening =
  | { readonly opened: true; readonly job: OpenedJob; readonly typed: Job }
  | { readonly opened: false; readonly problems: readonly JobError[] };

/** Reads a job from its text or as it was kept; gives every fault at once when it has any. */
export const openJob = (input: string | Job): Opening => {
  const read = readJob(input);
  if ('errors' in read) return { opened: false, problems: read.errors };
  return { opened: true, job: surveyStates(read.job), typed: read.job };
};
