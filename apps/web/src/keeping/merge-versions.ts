import { type Job, type MergedJob, mergeJobs, readJob } from '@airledger/job';

/**
 * Three-way merge of two versions of a job by field. Where changes fit one by one but the house would not read with
 * both, the whole of it is one clash, and my version stands until someone decides.
 */
export const mergeVersions = (base: Job, mine: Job, theirs: Job): MergedJob => {
  const merged = mergeJobs(base, mine, theirs);
  if (merged.job === mine || merged.job === theirs || 'job' in readJob(merged.job)) return merged;
  return { job: mine, clashes: [{ path: '', base, mine, theirs }] };
};
