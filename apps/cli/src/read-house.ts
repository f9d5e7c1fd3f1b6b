import { type Survey, WeatherFileError } from '@airledger/engine';
import { type Job, readJob, stateIds, surveyOf, withWeatherFile } from '@airledger/job';
import { BadInput } from './bad-input.ts';
import { readText } from './read-text.ts';

/**
 * Reads a job file, with the weather file's place in it when one is named.
 * @throws BadInput with every fault of it, each with path, value, expectation and remedy.
 */
export const readJobFile = async (path: string, weather: string | undefined): Promise<Job> => {
  const read = readJob(await readText(path));
  if ('job' in read) return weather === undefined ? read.job : atWeather(read.job, weather);
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

const atWeather = async (job: Job, weather: string): Promise<Job> => {
  try {
    return withWeatherFile(job, await readText(weather));
  } catch (error) {
    if (!(error instanceof WeatherFileError)) throw error;
    throw new BadInput(`${weather} can not be read as a TMY3 file. ${error.message}`);
  }
};

/** Id of the state asked for, the first when none is. @throws BadInput when the job has no such state. */
export const chosenState = (job: Job, asked: string | undefined): string => {
  const ids = stateIds(job);
  if (asked === undefined) return ids[0]!;
  if (ids.includes(asked)) return asked;
  throw new BadInput(`There is no state "${asked}" in this job; it has: ${ids.join(', ')}.`);
};

export type HouseChoice = { readonly state?: string; readonly weather?: string };

/** One state of a job file. @throws BadInput when the file or the state cannot be had. */
export const readHouse = async (path: string, { state, weather }: HouseChoice): Promise<Survey> => {
  const job = await readJobFile(path, weather);
  return surveyOf(job, chosenState(job, state));
};
