import type { LeakageTest, Survey } from '@airledger/engine';
import { fitLeakageTest } from '@airledger/engine/leakage-test/fit-leakage-test';
import { doubtsAbout } from '@airledger/engine/readings/doubts-about';
import type { Job } from '../schema/job-schema.ts';
import type { JobReading } from '../schema/reading-schema.ts';
import { leakageReading } from './leakage-reading.ts';
import { readingAir } from './reading-air.ts';
import { setupOf } from './setup-of.ts';
import { blankDoubt, stateOfReading } from './sheet-doubts.ts';
import { subjectOf } from './subject-of.ts';

/**
 * Duct leakage readings of the survey's state as tests that checks go by, with their 95 % ranges. Left out is what is
 * blank, follows no law of leaks, or is doubted as it stands; a flow of which nobody says at which pressure it was
 * held is `assumed`, and decides nothing.
 */
export const leakageEvidence = (job: Job, survey: Survey): readonly LeakageTest[] =>
  (job.readings ?? []).flatMap((reading) =>
    reading.kind === 'duct leakage' && stateOfReading(job, reading) === survey.state
      ? (testOf(reading, survey) ?? [])
      : [],
  );

/** Whether the sheet says at which pressure the flow was read; the usual one may not have been reached. */
export const saysPressure = ({ points = [], setup = {} }: JobReading): boolean =>
  points.length > 0 || (setup.ductPressure ?? setup.housePressure) !== undefined;

const testOf = (reading: JobReading, survey: Survey): LeakageTest | undefined => {
  if (blankDoubt(reading)) return undefined;
  const setup = setupOf(reading);
  const { density_kgm3, actual } = readingAir(reading, setup, survey);
  const { sheet, ...read } = leakageReading(reading, survey.state, setup, density_kgm3, actual);
  if (!sheet) return undefined;
  const { id, when } = reading;
  const doubts = doubtsAbout(
    [{ id, subject: subjectOf(reading), state: survey.state, path: `readings/${id}`, ...read }],
    survey,
    'si',
  );
  if (doubts.some(({ kind }) => kind !== 'unlikely')) return undefined;
  const fit = fitLeakageTest(sheet.points, sheet.instrumentError, density_kgm3);
  if (fit.exponentStanding === 'impossible') return undefined;
  return {
    id,
    system: sheet.system,
    stage: sheet.stage,
    place: sheet.to,
    side: sheet.side,
    flow25_m3s: fit.flow25_m3s,
    howKnown: saysPressure(reading) ? 'measured' : 'assumed',
    reading: { low_m3s: fit.low_m3s, high_m3s: fit.high_m3s, ...(when !== undefined && { when }) },
  };
};
