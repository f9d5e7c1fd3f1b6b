import { describe, expect, test } from 'vitest';
import { tinyJob } from '../history/random-edits.ts';
import { guessMapping, importReadings } from './import-readings.ts';
import { parseCsv } from './parse-csv.ts';
import { readingsOf } from './readings-of.ts';

const take = (text: string, everyRow = {}) => {
  const rows = parseCsv(text);
  return importReadings(tinyJob(), 'as-found', rows, { ...guessMapping(rows[0]!), everyRow });
};

describe('rows of a CSV', () => {
  test('quotes, line ends, a byte order mark and empty lines', () =>
    expect(parseCsv('\uFEFFa,b\r\n"x, ""y""",\n\n1,2')).toEqual([
      ['a', 'b'],
      ['x, "y"', ''],
      ['1', '2'],
    ]));
  test('semicolons and tabs', () => {
    expect(parseCsv('a;b\n1,5;2')).toEqual([
      ['a', 'b'],
      ['1,5', '2'],
    ]);
    expect(parseCsv('a\tb\n1\t2')[1]).toEqual(['1', '2']);
  });
});

describe('a gauge’s log', () => {
  test('columns are taken by their heads, units from brackets, registers by the name of their room', () => {
    const { job, added, faults } = take(
      'Date/time,Room,Flow (cfm)\n2025-07-15 10:15,Bedroom,61\n2025-07-15 10:17,living-register,142',
      { kind: 'register flow' },
    );
    expect([added, faults]).toEqual([2, []]);
    expect(job.readings).toEqual([
      {
        id: 'register-flow-bedroom-register',
        kind: 'register flow',
        state: 'as-found',
        of: 'bedroom-register',
        flow: '61 cfm',
        when: '2025-07-15 10:15',
      },
      {
        id: 'register-flow-living-register',
        kind: 'register flow',
        state: 'as-found',
        of: 'living-register',
        flow: '142 cfm',
        when: '2025-07-15 10:17',
      },
    ]);
    expect(readingsOf(job).readings).toHaveLength(2);
  });

  test('a faulty row is told by its number and left out, the others stay', () => {
    const { job, added, faults } = take(
      'kind,register,value\npressure pan,bedroom-register,1.2 Pa\npressure pan,attic-register,3 Pa\npressure pan,living-register,much\nbarometer,living-register,1 Pa\npressure pan,living-register,2 Pa',
    );
    expect(added).toBe(2);
    expect(job.readings!.map(({ of }) => of)).toEqual(['bedroom-register', 'living-register']);
    expect(faults.map(({ row }) => row)).toEqual([3, 4, 5]);
    expect(faults[0]!.message).toContain('"attic-register"');
    expect(faults[1]!.message).toContain('Write it like');
    expect(faults[2]!.message).toContain('expected one of duct leakage');
  });

  test('a decimal comma is read as one', () => {
    const { job } = take('register;pressure [Pa]\nbedroom-register;1,5', { kind: 'pressure pan' });
    expect(job.readings![0]!.pressure).toBe('1.5 Pa');
  });

  test('the same register twice makes two readings', () => {
    const { job } = take('register,flow (L/s)\nbedroom-register,28\nbedroom-register,29', {
      kind: 'register flow',
    });
    expect(new Set(job.readings!.map(({ id }) => id)).size).toBe(2);
  });
});
