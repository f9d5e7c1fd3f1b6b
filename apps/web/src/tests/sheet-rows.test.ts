import { readFileSync } from 'node:fs';
import { type Job, readingKindRows, readJob } from '@airledger/job';
import { expect, test } from 'vitest';
import { readingFields, sheetRows, typedReading } from './sheet-rows.ts';

const read = readJob(readFileSync('demo/1-quail-run-lane.airledger.json', 'utf8'));
if ('errors' in read) throw new Error(read.errors[0]!.message);
const job: Job = read.job;

test('every reading of the house stands on exactly one line of one sheet', () => {
  const lines = readingKindRows.flatMap(({ kind }) => sheetRows(job, 'as-found', kind));
  const ids = lines.flatMap(({ reading }) => reading?.id ?? []);
  expect([...ids].sort()).toEqual(job.readings!.map(({ id }) => id).sort());
  for (const { kind } of readingKindRows) {
    const keys = sheetRows(job, 'as-found', kind).map(({ key }) => key);
    expect(new Set(keys).size, kind).toBe(keys.length);
  }
});

test('another state has lines of its own, without readings', () => {
  const lines = sheetRows(job, 'as-specified', 'register flow');
  expect(lines.length).toBeGreaterThan(10);
  expect(lines.every(({ reading }) => reading === undefined)).toBe(true);
});

test('a place that was read twice has two lines', () => {
  const [first] = job.readings!.filter(({ kind }) => kind === 'fan flow');
  const twice = { ...job, readings: [...job.readings!, { ...first!, id: 'fan-again' }] };
  const lines = sheetRows(twice, 'as-found', 'fan flow');
  expect(lines.map(({ reading }) => reading?.id)).toEqual(['fan', 'fan-again']);
  expect(lines[1]!.label).toContain('again');
});

test('a bare number gets the unit of the gauge, points of a test are told apart, anything else stays as typed', () => {
  expect(readingFields('pressure pan', '5.2', 'ip')).toMatchObject({ pressure: '5.2 Pa' });
  expect(readingFields('plenum static', '-0.4', 'ip')).toMatchObject({ pressure: '-0.4 in.wc' });
  expect(readingFields('fan flow', '1,250', 'ip')).toMatchObject({ flow: '1,250 cfm' });
  expect(readingFields('fan flow', '590 L/s ± 5 %', 'ip')).toMatchObject({ flow: '590 L/s ± 5 %' });
  expect(readingFields('duct leakage', '100 cfm at 25 Pa; 75 cfm at 15 Pa', 'ip')).toEqual({
    flow: undefined,
    points: ['100 cfm at 25 Pa', '75 cfm at 15 Pa'],
  });
});

test('what is typed is what is shown again', () => {
  const total = job.readings!.find(({ id }) => id === 'ducts-total')!;
  const text = typedReading('duct leakage', total);
  expect(readingFields('duct leakage', text, 'ip').points).toEqual(total.points);
  expect(typedReading('duct leakage', undefined)).toBe('');
});
