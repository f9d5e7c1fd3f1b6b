import { account, checkRules, toSi } from '@airledger/engine';
import { expect, test } from 'vitest';
import { tinyJob } from '../history/random-edits.ts';
import { readJob } from '../read-job.ts';
import { repairedHouse } from '../repairs/evaluate-set.ts';
import type { Job } from '../schema/job-schema.ts';
import type { JobReading } from '../schema/reading-schema.ts';
import { surveyOf } from '../survey/survey-of.ts';

const jobWith = (...readings: Partial<JobReading>[]): Job => {
  const common = { kind: 'duct leakage', of: 'main', to: 'total' } as const;
  const read = readJob({
    ...tinyJob(),
    leakageTests: [],
    readings: readings.map((reading, i) => ({ id: `test-${i}`, ...common, ...reading })),
  });
  if ('errors' in read) throw new Error(read.errors.map(({ message }) => message).join('\n'));
  return read.job;
};

const evidenceOf = (job: Job, state = 'as-found') => surveyOf(job, state).leakageTests;

const points = ['57.7 cfm at 10 Pa', '73.6 cfm at 15 Pa', '100 cfm at 25 Pa', '132.6 cfm at 40 Pa'];

test('a reading is a test of its own state, measured, with its range', () => {
  const job = jobWith({ points, when: '2025-07-15 09:06' });
  const [tested] = evidenceOf(job);
  expect(tested).toMatchObject({
    id: 'test-0',
    stage: 'as found',
    place: 'total',
    side: 'both',
    howKnown: 'measured',
    reading: { when: '2025-07-15 09:06' },
  });
  const cfm100 = toSi('airflow', 100, 'cfm');
  expect(tested!.reading!.low_m3s).toBeLessThan(0.96 * cfm100);
  expect(tested!.reading!.high_m3s).toBeGreaterThan(1.03 * cfm100);
  expect(evidenceOf(job, 'as-specified')).toEqual([]);
});

test('one taken after the repairs counts as of finished ducts, unless its sheet says another stage', () => {
  const after = { points, state: 'as-specified' };
  const job = jobWith(after, { ...after, stage: 'rough-in with air handler' });
  expect(evidenceOf(job, 'as-specified').map(({ stage }) => stage)).toEqual([
    'after construction',
    'rough-in with air handler',
  ]);
});

test('a flow decides when its sheet says the pressure, in the ducts or in the house', () => {
  const job = jobWith(
    { flow: '100 cfm' },
    { flow: '100 cfm', setup: { ductPressure: '25 Pa' } },
    { flow: '60 cfm', to: 'outdoors', setup: { housePressure: '-25 Pa' } },
  );
  expect(evidenceOf(job).map(({ howKnown }) => howKnown)).toEqual(['assumed', 'measured', 'measured']);
});

test.each<[string, Partial<JobReading>]>([
  ['blank', {}],
  ['against nothing', { points, to: undefined as never }],
  ['with a wrong sign', { points: ['-100 cfm at 25 Pa'] }],
  ['at no pressure', { points: ['100 cfm at 0 Pa'] }],
  ['that can not be', { points: ['40000 cfm at 25 Pa'] }],
  ['in a wrong unit', { points: ['100 m³/s at 25 Pa'] }],
  ['that follows no law', { points: ['100 cfm at 10 Pa', '90 cfm at 25 Pa', '80 cfm at 40 Pa'] }],
])('a sheet %s is no evidence', (_, reading) => expect(evidenceOf(jobWith(reading))).toEqual([]));

test('checks go by it: far, near and within the limit of a side', () => {
  const results = (flow: string) => {
    const survey = surveyOf(jobWith({ points: [`${flow} at 25 Pa`], setup: { side: 'supply' } }), 'as-found');
    const accounts = { heating: account(survey, 'heating'), cooling: account(survey, 'cooling') };
    const check = checkRules(survey, accounts).find(({ id }) => id === 'specification-leakage-main-supply')!;
    return { ...check, flow_m3s: accounts.cooling.systems[0]!.fanFlow_m3s };
  };
  const { limit, flow_m3s } = results('100 cfm');
  const at = (share: number) => results(`${share * limit! * flow_m3s * 3600} m³/h`).result;
  expect([at(2), at(1.03), at(0.97), at(0.5)]).toEqual(['fail', 'cannot tell', 'cannot tell', 'pass']);
});

test('a house that is only thought of has not been read', () => {
  const job = jobWith({ points });
  expect(surveyOf(repairedHouse(job, 'as-found', [], '')).leakageTests).toEqual([]);
});
