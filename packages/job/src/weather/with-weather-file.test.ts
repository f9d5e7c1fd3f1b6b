import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { yearFile } from '../../../../tests/fixtures/weather-file.ts';
import { readJob } from '../read-job.ts';
import { surveyOf } from '../survey/survey-of.ts';
import { withWeatherFile } from './with-weather-file.ts';

const read = readJob(
  readFileSync(new URL('../../../../tests/fixtures/tiny.airledger.json', import.meta.url), 'utf8'),
);
if ('errors' in read) throw new Error('the tiny house should read');

test('the site takes the file’s place and hours, says so, and still reads', () => {
  // A year that warms evenly from −10 to 20 °C: its 88th coldest hour has −9.70, its 88th hottest 19.70.
  const job = withWeatherFile(
    read.job,
    yearFile((n) => -10 + (30 * n) / 8760),
  );
  expect('job' in readJob(job)).toBe(true);
  const { site } = surveyOf(job, 'as-found');
  expect(site.place).toBe('MADE, UP, ZZ');
  expect(site.elevation_m).toBe(273);
  expect(site.heatingDryBulb_C).toBeCloseTo(-9.7, 5);
  expect(site.coolingDryBulb_C).toBeCloseTo(19.7, 5);
  expect(site.designSource).toContain('not a design source');
});

test('what is no weather file is refused by its line', () => {
  expect(() => withWeatherFile(read.job, 'hello')).toThrow(/Line 1|Line 2|two header lines/);
});
