import { readdirSync, readFileSync } from 'node:fs';
import { type Job, readJob, surveyOf } from '@airledger/job';
import { expect, test, vi } from 'vitest';
import { handleGroups } from '../trial/handles.ts';
import { applyTrials } from '../trial/trials.ts';

vi.stubGlobal('window', { matchMedia: () => ({ matches: true }) });
const { withTrials } = await import('./keep-trials.ts');

/** Every number of a survey by its path, facts aside. */
const numbers = (value: unknown, path = '', found: Map<string, number> = new Map()): Map<string, number> => {
  if (typeof value === 'number') found.set(path, value);
  else if (typeof value === 'object' && value !== null)
    for (const [key, item] of Object.entries(value))
      if (key !== 'facts') numbers(item, `${path}/${key}`, found);
  return found;
};

for (const file of readdirSync('demo').filter((name) => name.endsWith('.json')))
  for (const units of ['ip', 'si'] as const)
    test(`every value that can be tried on ${file} can be kept in ${units}, known as it was`, () => {
      const read = readJob(readFileSync(`demo/${file}`, 'utf8'));
      if ('errors' in read) throw new Error(read.errors[0]!.message);
      const { states: _states, ...job } = read.job as Job;
      const survey = surveyOf(job);
      const handles = new Map(
        survey.rooms
          .flatMap((room) => handleGroups(survey, room.id))
          .flatMap((group) => group.handles)
          .map((handle) => [handle.id, handle]),
      );
      expect(handles.size).toBeGreaterThan(10);
      const trials = Object.fromEntries(
        [...handles.values()].map((handle) => [
          handle.id,
          handle.measure === 'open or shut' ? !handle.value : handle.low + 0.4 * (handle.high - handle.low),
        ]),
      );
      const kept = withTrials(job, trials, survey, units);
      expect(readJob(kept)).not.toHaveProperty('errors');
      const now = surveyOf(kept);
      const wanted = numbers(applyTrials(survey, trials));
      const got = numbers(now);
      const off = [...wanted].filter(
        ([path, value]) => Math.abs((got.get(path) ?? Number.NaN) - value) > 0.01 * Math.abs(value) + 1e-4,
      );
      expect(off).toEqual([]);
      const told = Object.entries(survey.facts).filter(
        ([path, fact]) => now.facts[path] && now.facts[path].howKnown !== fact.howKnown,
      );
      expect(told).toEqual([]);
    });
