import type { Fact } from '@airledger/engine';
import { type Job, surveyOf } from '@airledger/job';
import { setValue } from './set-value.ts';

/** What would stand at a field, and from where, were nothing typed there; undefined where something has to be. */
export const defaultOf = (job: Job, path: string): Fact | undefined => {
  try {
    return surveyOf(setValue(job, path, undefined)).facts[path];
  } catch {
    return undefined;
  }
};
