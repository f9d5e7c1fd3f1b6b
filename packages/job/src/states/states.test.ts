import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { applyState, type Job, readJob, setField, valueAt } from '../index.ts';

const read = readJob(
  readFileSync(new URL('../../../../tests/fixtures/tiny.airledger.json', import.meta.url), 'utf8'),
);
if ('errors' in read) throw new Error('The fixture is broken.');
const { job } = read;
const found = 'as-found';
const specified = 'as-specified';
const slack = 'systems/main/parts/run-bedroom/slack';
const at = (of: Job, state: string, path: string): unknown => valueAt(applyState(of, state), path);
const changes = (of: Job, state: string) => of.states?.find(({ id }) => id === state)?.changes;

describe('applyState', () => {
  test('each state stands on the one before', () => {
    expect(at(job, found, slack)).toBeUndefined();
    expect(at(job, specified, slack)).toBe('4 %');
    expect(at(job, specified, 'systems/main/parts/run-living/leaks/1/tightness')).toBe('sealed');
  });

  test('leaves the job alone', () => {
    const before = JSON.stringify(job);
    applyState(job, specified);
    expect(JSON.stringify(job)).toBe(before);
  });

  test('adds and removes records', () => {
    const run = { ...job.systems![0]!.parts[2]!, id: 'run-new' };
    const edited: Job = {
      ...job,
      states: [
        { id: found, changes: [] },
        {
          id: specified,
          changes: [
            { add: 'systems/main/parts', item: run },
            { remove: 'systems/main/parts/run-bedroom' },
            {
              add: 'transfers',
              item: { id: 'jump', kind: 'jump duct', between: ['living', 'bedroom'], diameter: '8 in' },
            },
          ],
        },
      ],
    };
    expect(applyState(edited, specified).systems![0]!.parts.map(({ id }) => id)).toEqual([
      'supply-plenum',
      'run-living',
      'return-run',
      'run-new',
    ]);
    expect(applyState(edited, specified).transfers).toHaveLength(1);
  });

  test('a state that is not there is named', () =>
    expect(() => applyState(job, 'as-built')).toThrow(
      'The job has no state "as-built"; it has as-found, as-specified.',
    ));
});

describe('setField', () => {
  test('in the first state changes the house itself', () => {
    const edited = setField(job, found, 'systems/main/parts/run-living/length', '14 ft');
    expect(edited.systems![0]!.parts[1]!.length).toBe('14 ft');
    expect(edited.states).toEqual(job.states);
    expect(job.systems![0]!.parts[1]!.length).toBe('12 ft');
  });

  test('in a later state adds a change, and a second one takes its place with the reason kept', () => {
    const once = setField(job, specified, 'systems/main/parts/run-bedroom/insulation', 'R-8');
    expect(changes(once, specified)?.at(-1)).toEqual({
      set: 'systems/main/parts/run-bedroom/insulation',
      to: 'R-8',
    });
    expect(at(once, found, 'systems/main/parts/run-bedroom/insulation')).toBeUndefined();
    const twice = setField(once, specified, 'systems/main/parts/run-bedroom/insulation', 'R-12');
    expect(changes(twice, specified)).toHaveLength(3);
    const sealed = setField(job, specified, 'systems/main/parts/run-living/leaks/1/tightness', 'typical');
    expect(changes(sealed, specified)?.at(-1)).toEqual({
      set: 'systems/main/parts/run-living/leaks/1/tightness',
      to: 'typical',
      why: 'mastic at the boot',
    });
  });

  test('a value typed back to what it was leaves no change', () => {
    const edited = setField(job, specified, 'systems/main/parts/run-living/leaks/1/tightness', 'leaky');
    expect(changes(edited, specified)).toEqual([{ set: slack, to: '4 %' }]);
  });

  test('undefined takes a field away', () => {
    const base = setField(job, found, 'systems/main/parts/run-living/slack', undefined);
    expect('slack' in base.systems![0]!.parts[1]!).toBe(false);
    const later = setField(job, specified, 'systems/main/parts/run-living/slack', undefined);
    expect(at(later, specified, 'systems/main/parts/run-living/slack')).toBeUndefined();
    expect(at(later, found, 'systems/main/parts/run-living/slack')).toBe('10 % (4 to 20 %)');
    expect(setField(job, specified, slack, undefined).states![1]!.changes).toHaveLength(1);
  });

  test('a field of a record set as a whole goes on top of it', () => {
    const whole = setField(job, specified, 'systems/main/parts/run-bedroom/terminal', {
      id: 'bedroom-register',
      room: 'bedroom',
      face: '12 in x 4 in',
    });
    const edited = setField(whole, specified, 'systems/main/parts/run-bedroom/terminal/open', '50 %');
    expect(at(edited, specified, 'systems/main/parts/run-bedroom/terminal')).toEqual({
      id: 'bedroom-register',
      room: 'bedroom',
      face: '12 in x 4 in',
      open: '50 %',
    });
  });

  test('works on a job without states', () => {
    const { states: _, ...plain } = job;
    const edited = setField(plain, found, 'indoor', { heating: '68 °F' });
    expect(edited.indoor).toEqual({ heating: '68 °F' });
    expect('states' in edited).toBe(false);
  });

  test('a path that leads nowhere is an error', () =>
    expect(() => setField(job, found, 'systems/main/parts/run-9/length', '1 ft')).toThrow(
      'nothing stands at "run-9"',
    ));
});
