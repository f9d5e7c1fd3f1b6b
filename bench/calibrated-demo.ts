import { readFileSync } from 'node:fs';
import { account, calibrate, calibratedSurvey } from '@airledger/engine';
import { readingsOf, readJob, surveyOf } from '@airledger/job';

/** The first demo house as found, calibrated by the readings in its job. */
export function calibratedDemo() {
  const file = new URL('../demo/1-quail-run-lane.airledger.json', import.meta.url);
  const read = readJob(readFileSync(file, 'utf8'));
  if ('errors' in read) throw new Error(read.errors.map(({ message }) => message).join('\n'));
  const survey = surveyOf(read.job, 'as-found');
  const { readings } = readingsOf(read.job, 'as-found', survey);
  const calibration = calibrate(survey, readings, { draws: 100 });
  return { survey, readings, calibration, found: account(calibratedSurvey(survey, calibration), 'cooling') };
}
