import { account, calibrate, calibratedSurvey } from '@airledger/engine';
import { readingsOf, surveyOf } from '@airledger/job';
import { demoJob } from './demo-job.ts';

/** The first demo house as found, calibrated by the readings in its job. */
export function calibratedDemo() {
  const job = demoJob('1-quail-run-lane');
  const survey = surveyOf(job, 'as-found');
  const { readings } = readingsOf(job, 'as-found', survey);
  const calibration = calibrate(survey, readings, { draws: 100 });
  return { survey, readings, calibration, found: account(calibratedSurvey(survey, calibration), 'cooling') };
}
