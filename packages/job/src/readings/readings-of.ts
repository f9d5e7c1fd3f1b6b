import type { Survey } from '@airledger/engine';
import type { LeakageSheet } from '@airledger/engine/leakage-test/types';
import type { Doubt } from '@airledger/engine/readings/doubt';
import type { Reading } from '@airledger/engine/readings/types';
import type { Job } from '../schema/job-schema.ts';
import type { JobReading } from '../schema/reading-schema.ts';
import { stateIds } from '../states/apply-state.ts';
import { surveyOf } from '../survey/survey-of.ts';
import { accuracyOf } from './accuracy-of.ts';
import { fanFlowReading } from './fan-flow-reading.ts';
import { leakageReading } from './leakage-reading.ts';
import { readingAir } from './reading-air.ts';
import { kindRow } from './reading-tables.ts';
import { readingValue, typedValue } from './reading-values.ts';
import { setupOf } from './setup-of.ts';
import { blankDoubt, mixedStates, sheetDoubt, stateOfReading } from './sheet-doubts.ts';
import { subjectOf } from './subject-of.ts';

/** Readings of one state in SI, their duct leakage tests with every point, and what is doubted about the sheets themselves. */
export type ReadReadings = {
  readonly readings: readonly Reading[];
  readonly sheets: readonly LeakageSheet[];
  readonly doubts: readonly Doubt[];
};

/**
 * The readings of a job in one of its states, the first when none is named. `job` must have passed `readJob`. A sheet
 * that is not filled in, or that no flow follows from, is told under `doubts` and left out; nothing else is. Flows come
 * at the survey's air density. `survey` saves the work of making it where it is at hand.
 */
export const readingsOf = (
  job: Job,
  state: string = stateIds(job)[0]!,
  survey: Survey = surveyOf(job, state),
): ReadReadings => {
  const own = (job.readings ?? []).filter((reading) => stateOfReading(job, reading) === state);
  const sheets = own.flatMap((reading) => blankDoubt(reading) ?? sheetDoubt(reading) ?? []);
  const unusable = new Set(sheets.filter(({ kind }) => kind !== 'unlikely').map(({ readings: [id] }) => id));
  const read = own.filter(({ id }) => !unusable.has(id)).map((reading) => readOne(reading, state, survey));
  return {
    readings: read.map(({ reading }) => reading),
    sheets: read.flatMap(({ sheet }) => sheet ?? []),
    doubts: [...sheets, ...mixedStates(job, state)],
  };
};

const readOne = (
  typed: JobReading,
  state: string,
  survey: Survey,
): { readonly reading: Reading; readonly sheet?: LeakageSheet } => {
  const setup = setupOf(typed);
  const outdoor = typedValue(typed.weather?.outdoor, 'temperature');
  const common = {
    id: typed.id,
    subject: subjectOf(typed),
    state,
    path: `readings/${typed.id}`,
    ...(outdoor && { outdoor_C: outdoor.value }),
  };
  const { value: field } = kindRow(typed.kind);
  if (field !== 'flow') {
    const { value } = readingValue(typed, field)!;
    return { reading: { ...common, setup, value, accuracy: accuracyOf(typed, value) } };
  }
  const { density_kgm3, actual } = readingAir(typed, setup, survey);
  if (/leakage/.test(typed.kind)) {
    const { sheet, ...rest } = leakageReading(typed, state, setup, density_kgm3, actual);
    return { reading: { ...common, ...rest }, ...(sheet && { sheet }) };
  }
  if (typed.kind === 'fan flow')
    return { reading: { ...common, setup, ...fanFlowReading(typed, survey, density_kgm3, actual) } };
  const { value } = readingValue(typed, 'flow')!;
  return {
    reading: { ...common, setup, value: actual(value), accuracy: actual(accuracyOf(typed, value)) },
  };
};
