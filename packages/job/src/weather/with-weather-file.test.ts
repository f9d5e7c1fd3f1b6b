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
  // One hour for every 0.005 K from −20 to 23.795 °C: 88 hours lie at or below −19.565 and at or above 23.36.
  const job = withWeatherFile(
    read.job,
    yearFile((n) => -20 + ((n * 7919) % 8760) / 200),
  );
  expect('job' in readJob(job)).toBe(true);
  const { site } = surveyOf(job, 'as-found');
  expect(site.place).toBe('MADE, UP, ZZ');
  expect(site.elevation_m).toBe(273);
  expect(site.heatingDryBulb_C).toBeCloseTo(-19.6, 5);
  expect(site.coolingDryBulb_C).toBeCloseTo(23.4, 5);
  expect(site.designSource).toContain('not a design source');
});

test('what is no weather file is refused by its line', () => {
  expect(() => withWeatherFile(read.job, 'hello')).toThrow(/Line 1|Line 2|two header lines/);
});
