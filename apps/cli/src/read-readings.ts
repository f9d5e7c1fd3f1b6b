import type { Survey } from '@airledger/engine';
import { type Job, type ReadReadings, readingsOf, stateOfReading, surveyOf } from '@airledger/job';
import { BadInput } from './bad-input.ts';
import { chosenState, readJobFile } from './read-house.ts';

export type HouseWithReadings = ReadReadings & { readonly job: Job; readonly survey: Survey };

/** One state of a job file with the readings taken in it. @throws BadInput when there is none to go by. */
export const readReadings = async (
  path: string,
  { state, weather }: { readonly state?: string; readonly weather?: string },
): Promise<HouseWithReadings> => {
  const job = await readJobFile(path, weather);
  const id = chosenState(job, state);
  const survey = surveyOf(job, id);
  const read = readingsOf(job, id, survey);
  if (read.readings.length > 0) return { job, survey, ...read };
  const states = [...new Set((job.readings ?? []).map((reading) => stateOfReading(job, reading)))];
  throw new BadInput(
    states.length === 0
      ? 'There are no readings in this job; add them under "readings".'
      : `There are no readings in the state "${id}"; there are in: ${states.join(', ')}.`,
  );
};
