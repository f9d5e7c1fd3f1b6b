import { account, toSi } from '@airledger/engine';
import { describe, expect, test } from 'vitest';
import { tinyJob } from '../history/random-edits.ts';
import { readJob } from '../read-job.ts';
import type { Job } from '../schema/job-schema.ts';
import type { JobReading } from '../schema/reading-schema.ts';
import { surveyOf } from '../survey/survey-of.ts';
import { candidateReadings } from './candidate-readings.ts';
import { readingKindRows } from './reading-tables.ts';
import { readingsOf } from './readings-of.ts';

const withReadings = (...readings: JobReading[]): Job => {
  const read = readJob({ ...tinyJob(), readings });
  if ('errors' in read) throw new Error(read.errors.map(({ message }) => message).join('\n'));
  return read.job;
};

const total = {
  id: 'total',
  kind: 'duct leakage',
  of: 'main',
  to: 'total',
} as const satisfies JobReading;

describe('readings in SI', () => {
  test('either unit gives the same reading, with sign and the usual set-up', () => {
    const job = withReadings(
      { id: 'a', kind: 'plenum static', of: 'main', at: 'return plenum', pressure: '-0.3 in.wc' },
      { id: 'b', kind: 'plenum static', of: 'main', at: 'return plenum', pressure: '-74.727 Pa' },
    );
    const [a, b] = readingsOf(job).readings;
    expect(a!.value).toBeCloseTo(b!.value, 2);
    expect(a!.value).toBeLessThan(0);
    expect(a).toMatchObject({
      subject: { kind: 'system static', system: 'main', place: 'return plenum' },
      setup: { fan: 'cooling', registers: 'open', filter: 'in' },
      path: 'readings/a',
    });
  });

  test('its accuracy is what was typed with it, else its own share, else that of the instrument', () => {
    const flow = { kind: 'fan flow', of: 'main' } as const;
    const job = withReadings(
      { id: 'range', ...flow, flow: '1000 cfm ± 64', instrument: 'temperature rise' },
      { id: 'share', ...flow, flow: '1000 cfm', accuracy: '10 %', instrument: 'temperature rise' },
      { id: 'usual', ...flow, flow: '1000 cfm' },
    );
    const share = readingsOf(job).readings.map(({ value, accuracy }) => accuracy / value);
    expect(share[0]).toBeCloseTo(0.064 / 1.2816, 4);
    expect(share[1]).toBeCloseTo(Math.hypot(0.1, 0.03), 4);
    // A flow plate: 7 % of the flow by its makers (from memory), and 15 cfm assumed.
    expect(share[2]).toBeCloseTo(Math.hypot(0.07, 0.015), 4);
  });

  test('thin air at the instrument is brought to the air of the survey', () => {
    const job = withReadings(
      { id: 'cold', kind: 'fan flow', of: 'main', flow: '1000 cfm', instrumentAir: '55 °F' },
      { id: 'warm', kind: 'fan flow', of: 'main', flow: '1000 cfm', instrumentAir: '75 °F' },
    );
    const [cold, warm] = readingsOf(job).readings;
    // An orifice passes mass as √ρ.
    expect(cold!.value / warm!.value).toBeCloseTo(Math.sqrt((75 + 459.67) / (55 + 459.67)), 4);
  });

  test('points of one test make one reading at 25 Pa, no surer than its instrument', () => {
    const points = ['57.7 cfm at 10 Pa', '73.6 cfm at 15 Pa', '100 cfm at 25 Pa', '132.6 cfm at 40 Pa'];
    const { readings, sheets } = readingsOf(withReadings({ ...total, points }));
    const one = readingsOf(withReadings({ ...total, flow: '100 cfm' })).readings[0]!;
    expect(readings).toHaveLength(1);
    expect(readings[0]!.setup.ductPressure_Pa).toBe(25);
    expect(readings[0]!.value / one.value).toBeCloseTo(1, 2);
    expect(readings[0]!.accuracy / readings[0]!.value).toBeGreaterThan(0.03);
    expect(sheets[0]!.points).toHaveLength(4);
  });

  test('to outdoors the house is held at the pressure of the test and the ducts at that of the house', () => {
    const job = withReadings({ ...total, to: 'outdoors', points: ['60 cfm at -20 Pa', '30 cfm at -6 Pa'] });
    expect(readingsOf(job).readings[0]!.setup).toMatchObject({ ductPressure_Pa: 0, housePressure_Pa: -20 });
  });

  test('only readings of the state count', () => {
    const job = withReadings(
      { ...total, flow: '200 cfm' },
      { ...total, id: 'after', flow: '20 cfm', state: 'as-specified' },
    );
    expect(readingsOf(job).readings.map(({ id }) => id)).toEqual(['total']);
    expect(readingsOf(job, 'as-specified').readings.map(({ id }) => id)).toEqual(['after']);
  });
});

describe('sheets in doubt', () => {
  test('a blank sheet is kept, told and not used', () => {
    const job = withReadings({ id: 'pan', kind: 'pressure pan', of: 'bedroom-register' });
    const { readings, doubts } = readingsOf(job);
    expect(readings).toEqual([]);
    expect(doubts.map(({ kind, readings: ids }) => [kind, ids])).toEqual([['blank', ['pan']]]);
    expect(doubts[0]!.message).toMatch(/pressure pan of bedroom-register: is left blank; expected the value/);
  });

  test('readings before and after a repair that are mixed up by their times', () => {
    const job = withReadings(
      { ...total, id: 'before', flow: '200 cfm', when: '2025-08-02 09:00' },
      { ...total, id: 'after', flow: '20 cfm', when: '2025-08-01 15:00', state: 'as-specified' },
    );
    const { readings, doubts } = readingsOf(job);
    expect(readings).toHaveLength(1);
    expect(doubts.map(({ kind, readings: ids }) => [kind, ids])).toEqual([
      ['mixed states', ['before', 'after']],
    ]);
    expect(readingsOf(job, 'as-specified').doubts).toEqual([]);
  });

  test('a negative leakage flow is kept as typed', () => {
    const { readings, sheets } = readingsOf(withReadings({ ...total, flow: '-40 cfm' }));
    expect(readings[0]!.value).toBeLessThan(0);
    expect(sheets).toEqual([]);
  });
});

test('every kind of reading has a usual set-up that can be read, and a source', () => {
  const survey = surveyOf(tinyJob());
  const of = {
    system: 'main',
    part: 'run-bedroom',
    terminal: 'bedroom-register',
    room: 'bedroom',
    space: 'attic',
  };
  const value = { flow: '90 cfm', pressure: '4 Pa', temperature: '60 °F', power: '400 W' };
  for (const row of readingKindRows) {
    const job = withReadings({
      id: 'one',
      kind: row.kind,
      ...(row.of && { of: of[row.of] }),
      ...(row.at && { at: row.at[0]! }),
      ...(row.to && { to: row.to[0] === 'space' ? 'attic' : row.to[0]! }),
      [row.value]: value[row.value],
    });
    const [reading] = readingsOf(job, undefined, survey).readings;
    expect(reading!.accuracy, row.kind).toBeGreaterThan(0);
    expect(reading!.accuracy, row.kind).toBeLessThan(Math.abs(reading!.value) + toSi('pressure', 2, 'Pa'));
    expect(row.source.length, row.kind).toBeGreaterThan(5);
  }
});

test('what could be read next leaves out what was read, and costs its minutes', () => {
  const job = withReadings({ ...total, flow: '200 cfm' });
  const survey = surveyOf(job, 'as-found');
  const system = survey.systems[0]!;
  const candidates = candidateReadings(job, account(survey, 'cooling'), system);
  const kinds = candidates.map(({ sheet }) =>
    [sheet.kind, sheet.to, sheet.setup?.side].filter(Boolean).join(' '),
  );
  expect(kinds).not.toContain('duct leakage total');
  expect(kinds).toContain('duct leakage outdoors');
  expect(kinds.filter((kind) => kind === 'register flow')).toHaveLength(3);
  for (const { candidate } of candidates) {
    expect(candidate.minutes).toBeGreaterThan(0);
    expect(candidate.accuracy).toBeGreaterThan(0);
  }
});
