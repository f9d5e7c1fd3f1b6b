import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Job, readJob, stateIds, surveyOf, writeJob } from './index.ts';

const text = readFileSync(new URL('../../../tests/fixtures/tiny.airledger.json', import.meta.url), 'utf8');
const tiny = (): Job => {
  const read = readJob(text);
  if ('errors' in read) throw new Error(read.errors.map((error) => error.message).join('\n'));
  return read.job;
};
const messages = (input: string | object): readonly string[] => {
  const read = readJob(input);
  return 'errors' in read ? read.errors.map((error) => error.message) : [];
};

/** A part of a value somewhere replaced, or taken away, or a field added. */
const mutated = (value: unknown, path: readonly number[], junk: unknown): unknown => {
  const [first, ...rest] = path;
  if (typeof value !== 'object' || value === null || first === undefined) return junk;
  const keys = Object.keys(value);
  const key = keys[first % (keys.length + 1)] ?? 'extra';
  const child = (value as Record<string, unknown>)[key];
  const changed = mutated(child, rest, junk);
  if (Array.isArray(value)) return key === 'extra' ? [...value, changed] : value.with(Number(key), changed);
  return { ...value, [key]: changed };
};

describe('readJob', () => {
  test('gives the job as typed, and writing it gives the text again', () => {
    const job = tiny();
    expect(job).toEqual(JSON.parse(text));
    expect(writeJob(job)).toBe(text);
  });

  test('takes a value already parsed', () => expect(messages(JSON.parse(text))).toEqual([]));

  test('takes a byte order mark and any line ends', () =>
    expect(messages(`\ufeff${text.replaceAll('\n', '\r\n')}`)).toEqual([]));

  test('never throws, and what it lets through can be surveyed in every state', () => {
    const job = JSON.parse(text) as unknown;
    const junk = fc.oneof(
      fc.constantFrom(
        undefined,
        null,
        '',
        'living',
        '12 cfm',
        '-3 ft',
        '7 in',
        [],
        {},
        { value: '7 in' },
        1e9,
        true,
      ),
      fc.jsonValue(),
    );
    fc.assert(
      fc.property(fc.array(fc.nat(30), { minLength: 1, maxLength: 7 }), junk, (path, value) => {
        const read = readJob(mutated(job, path, value) as object);
        if ('errors' in read) {
          for (const error of read.errors) expect(error.message).toContain(error.remedy);
          return;
        }
        for (const state of stateIds(read.job)) surveyOf(read.job, state);
      }),
      { numRuns: 400 },
    );
  });

  test('any text is read or refused with a place', () => {
    fc.assert(
      fc.property(fc.nat(text.length), fc.string({ maxLength: 3 }), (at, slip) => {
        const read = readJob(text.slice(0, at) + slip + text.slice(at + 1));
        if ('errors' in read)
          for (const error of read.errors) expect(error.message.length).toBeGreaterThan(20);
      }),
      { numRuns: 200 },
    );
  });
});

describe('versions', () => {
  const renamed = (job: Job): object => ({
    ...job,
    schemaVersion: 0,
    systems: job.systems?.map(({ parts, thermostatRoom, ...system }) => ({
      ...system,
      ducts: parts,
      thermostat: thermostatRoom,
    })),
    states: job.states?.map((state) => ({
      ...state,
      changes: state.changes.map((change) =>
        'set' in change ? { ...change, set: change.set.replace('/parts/', '/ducts/') } : change,
      ),
    })),
  });

  test('version 0 is brought to the present', () =>
    expect(readJob(renamed(tiny()))).toEqual({ job: tiny() }));

  test('a newer version is refused and nothing else is said', () =>
    expect(messages({ schemaVersion: 2, whatever: true })).toEqual([
      'schemaVersion: found 2, expected 1 or less. The file was written by a newer version of this program; update the program to read it.',
    ]));
});
