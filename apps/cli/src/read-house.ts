import type { Survey } from '@airledger/engine';
import { type Job, readJob, stateIds, surveyOf } from '@airledger/job';
import { BadInput } from './bad-input.ts';
import { readText } from './read-text.ts';

/** Reads a job file. @throws BadInput with every fault of it, each with path, value, expectation and remedy. */
export const readJobFile = async (path: string): Promise<Job> => {
  const read = readJob(await readText(path));
  if ('job' in read) return read.job;
  const { errors } = read;
  const file = path === '-' ? 'The job on stdin' : path;
  const list = errors.map(
    (error) =>
      `  ${error.path || '(the file)'}\n    value     ${error.value}\n    expected  ${error.expected}\n    remedy    ${error.remedy}`,
  );
  throw new BadInput(
    `${file} has ${errors.length === 1 ? 'an error' : `${errors.length} errors`}:\n${list.join('\n')}`,
    errors,
  );
};

/** Id of the state asked for, the first when none is. @throws BadInput when the job has no such state. */
export const chosenState = (job: Job, asked: string | undefined): string => {
  const ids = stateIds(job);
  if (asked === undefined) return ids[0]!;
  if (ids.includes(asked)) return asked;
  throw new BadInput(`There is no state "${asked}" in this job; it has: ${ids.join(', ')}.`);
};

/** One state of a job file. @throws BadInput when the file or the state cannot be had. */
export const readHouse = async (path: string, state: string | undefined): Promise<Survey> => {
  const job = await readJobFile(path);
  return surveyOf(job, chosenState(job, state));
};
