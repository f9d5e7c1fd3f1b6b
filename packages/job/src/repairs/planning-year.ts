import { readWeatherFile, type Season, type Survey, season, shortYear, yearOfSite } from '@airledger/engine';
import type { Job } from '../schema/job-schema.ts';
import { surveyOf } from '../survey/survey-of.ts';

/**
 * What a year brings to a house of this job, for plans: the hours of a weather file, or of a year made from the site, as
 * a short year that keeps the energy of the house in this state. Costs one whole year to make.
 * @param weather text of a TMY3 file
 * @throws WeatherFileError when the text is no such file
 */
export const planningYear = (job: Job, stateId: string, weather?: string): ((survey: Survey) => Season) => {
  const like = surveyOf(job, stateId);
  const hours = weather === undefined ? yearOfSite(like) : readWeatherFile(weather);
  const short = shortYear(hours, { like });
  return (survey) => season(survey, short);
};
