import { readFile } from 'node:fs/promises';
import { beforeAll, describe, expect, test } from 'vitest';
import { quailRun, type Run, runCli, tiny } from './run-cli.ts';

type Range = { readonly low: number; readonly middle: number; readonly high: number };
type Json = {
  readonly state: string;
  readonly readings: number;
  readonly tests: readonly {
    readonly verdicts: readonly { readonly id: string; readonly judged?: { readonly result: string } }[];
  }[];
  readonly calibration: {
    readonly doubts: readonly { readonly reading: string }[];
    readonly groups: readonly { readonly id: string; readonly flow25_m3s: Range }[];
    readonly restrictions: readonly { readonly run: string; readonly defectProbability: number }[];
  };
};

describe('the first demo house with its readings', () => {
  let json: Json;
  beforeAll(async () => {
    const { code, stdout, stderr } = await runCli(['calibrate', quailRun, '--draws', '0', '--json']);
    expect([code, stderr]).toEqual([0, '']);
    json = JSON.parse(stdout) as Json;
  }, 120_000);

  test('names the slipped hose, and only that', () =>
    expect(json.calibration.doubts.map(({ reading }) => reading)).toEqual(['static-return-plenum']));

  test('finds the run that is crushed', () => {
    const worst = json.calibration.restrictions.toSorted(
      (a, b) => b.defectProbability - a.defectProbability,
    )[0]!;
    expect(worst.run).toBe('run-study');
    expect(worst.defectProbability).toBeGreaterThan(0.8);
  });

  test('gives ranges that are ranges, and says that neither code nor project limit is met', () => {
    for (const { flow25_m3s: range } of json.calibration.groups) {
      expect(range.low).toBeLessThan(range.middle);
      expect(range.middle).toBeLessThan(range.high);
    }
    for (const { judged } of json.tests[0]!.verdicts) expect(judged?.result).toBe('fail');
  });
});

describe('as text', () => {
  let run: Run;
  beforeAll(async () => {
    run = await runCli(['calibrate', quailRun, '--draws', '0', '--units', 'si']);
  }, 120_000);
  test('puts the doubt as a question and names leaks by group', () => {
    expect(run.code).toBe(0);
    expect(run.stdout).toContain('Is the static pressure in the return plenum of Heat pump right?');
    expect(run.stdout).toContain('Bedroom 3: boot and takeoff');
    expect(run.stdout).not.toMatch(/undefined|NaN|cfm/);
  });
});

test('a house or a state without readings is bad input, and says where there are some', async () => {
  const none = await runCli(['calibrate', tiny]);
  expect([none.code, none.stdout]).toEqual([2, '']);
  expect(none.stderr).toContain('There are no readings in this job');
  const other = await runCli(['calibrate', '-', '--state', 'as-specified'], {
    stdin: await readFile(quailRun, 'utf8'),
  });
  expect(other.code).toBe(2);
  expect(other.stderr).toContain('there are in: as-found');
}, 120_000);
