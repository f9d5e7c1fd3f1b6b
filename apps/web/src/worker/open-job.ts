import type { Survey } from '@airledger/engine';
import { type Job, type JobError, readJob, stateIds, surveyOf } from '@airledger/job';

/** A job file that reads without a fault: its states in order, each as a survey. */
export type OpenedJob = {
  readonly name: string;
  readonly states: readonly { readonly id: string; readonly name: string }[];
  readonly surveys: Readonly<Record<string, Survey>>;
};

export type Opening =
  | { readonly opened: true; readonly job: OpenedJob }
  | { readonly opened: false; readonly problems: readonly JobError[] };

/** Reads a job file; gives every fault at once when it has any. The job as typed comes beside it. */
export const openJob = (text: string): { readonly opening: Opening; readonly typed?: Job } => {
  const read = readJob(text);
  if ('errors' in read) return { opening: { opened: false, problems: read.errors } };
  const { job } = read;
  const states = stateIds(job).map((id) => ({ id, name: stateName(job, id) }));
  const surveys = Object.fromEntries(states.map(({ id }) => [id, surveyOf(job, id)]));
  return { opening: { opened: true, job: { name: job.name, states, surveys } }, typed: job };
};

const stateName = (job: Job, id: string): string =>
  job.states?.find((state) => state.id === id)?.name ?? id.replaceAll('-', ' ');
