import type { JobReading } from '../schema/reading-schema.ts';
import { tableValue } from '../survey/surveyor.ts';
import { instrumentOf, kindRow } from './reading-tables.ts';
import { readingValue, typedValue } from './reading-values.ts';

const leastDimension = {
  flow: 'airflow',
  pressure: 'pressure',
  temperature: 'temperatureDifference',
  power: 'electricPower',
} as const;

/**
 * One standard deviation of a reading, SI: of the range typed with it, else of the share typed as its accuracy, else
 * of its instrument, √((share·value)² + least²).
 */
export const accuracyOf = (reading: JobReading, value: number): number => {
  const { value: field } = kindRow(reading.kind);
  const typed = readingValue(reading, field)?.deviation;
  if (typed !== undefined) return typed;
  const instrument = instrumentOf(reading);
  const least = tableValue(instrument.least, leastDimension[field]);
  const share = typedValue(reading.accuracy, 'ratio')?.value ?? instrument.share;
  return Math.hypot(share * value, least);
};
