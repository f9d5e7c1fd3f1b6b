import { dimensions } from '@airledger/engine';
import { type Doubt, doubt } from '@airledger/engine/readings/doubt';
import { parseMoment } from '../compound.ts';
import type { Job } from '../schema/job-schema.ts';
import type { JobReading } from '../schema/reading-schema.ts';
import { stateIds } from '../states/apply-state.ts';
import { fanFlowDoubt, type Missing, missingInFanFlow } from './fan-flow-sheet.ts';
import { isByRise, kindRow } from './reading-tables.ts';

/** Id of the state that a reading belongs to. */
export const stateOfReading = (job: Job, reading: JobReading): string => reading.state ?? stateIds(job)[0]!;

/** What is read and where, as a sheet says it: "register flow of kitchen-register". */
export const sheetName = ({ kind, of, at, to }: JobReading): string =>
  [kind, of && `of ${of}`, at && `at ${at}`, to && `to ${to}`].filter(Boolean).join(' ');

/** What a sheet lacks before it says anything; undefined when it is filled in. */
const missingIn = (reading: JobReading): Missing | undefined => {
  const row = kindRow(reading.kind);
  if (row.of && reading.of === undefined)
    return {
      what: `which ${row.of === 'terminal' ? 'register' : row.of}`,
      example: 'Pick it from the list.',
    };
  if (row.at && reading.at === undefined) return { what: 'where the probe sat', example: 'Pick the place.' };
  if (row.to && reading.to === undefined)
    return { what: 'against what it was read', example: `Pick ${row.to.join(' or ')}.` };
  const points = reading.points?.length ?? 0;
  if (reading[row.value] === undefined && points === 0 && !isByRise(reading)) {
    const dimension = row.value === 'flow' ? 'airflow' : row.value === 'power' ? 'electricPower' : row.value;
    return {
      what: 'the value',
      example: `Type it as the instrument shows it, like "${dimensions[dimension].examples[0]}".`,
    };
  }
  return reading.kind === 'fan flow' ? missingInFanFlow(reading) : undefined;
};

/** A sheet that is not filled in says nothing yet; undefined when it is. */
export const blankDoubt = (reading: JobReading): Doubt | undefined => {
  const missing = missingIn(reading);
  return (
    missing &&
    doubt(
      'blank',
      [reading.id],
      sheetName(reading),
      'is left blank',
      missing.what,
      `${missing.example} It is not used until then.`,
    )
  );
};

/** What is doubted about a sheet that is filled in, before its value is known. */
export const sheetDoubt = (reading: JobReading): Doubt | undefined =>
  reading.kind === 'fan flow' ? fanFlowDoubt(reading, sheetName(reading)) : undefined;

/** Readings that belong to one state by their sheet and to another by their time: taken before and after a repair. */
export const mixedStates = (job: Job, state: string): readonly Doubt[] => {
  const order = stateIds(job);
  const timed = (job.readings ?? []).flatMap((reading) => {
    const parsed = reading.when === undefined ? undefined : parseMoment(reading.when);
    const place = order.indexOf(stateOfReading(job, reading));
    return parsed && 'moment' in parsed ? [{ reading, moment: parsed.moment, place }] : [];
  });
  const here = order.indexOf(state);
  return timed
    .filter(({ place }) => place === here)
    .flatMap(({ reading, moment }) => {
      const later = timed.find((other) => other.place > here && other.moment < moment);
      if (!later) return [];
      const other = order[later.place]!;
      return [
        doubt(
          'mixed states',
          [reading.id, later.reading.id],
          sheetName(reading),
          `read ${reading.when} in the state "${state}", after ${sheetName(later.reading)} had been read in "${other}"`,
          `a time before the readings of "${other}"`,
          `Check its time, or give it the state "${other}": readings before and after a repair do not mix.`,
        ),
      ];
    });
};
