import { expect, test } from 'vitest';
import { quailRun, runCli } from './run-cli.ts';

type BalanceJson = {
  readonly settings: readonly { readonly part?: string; readonly position?: number }[];
  readonly seasons: readonly {
    readonly mode: string;
    readonly after: { readonly least: number; readonly most: number };
    readonly obstacles: readonly { readonly kind: string }[];
  }[];
  readonly sheets: readonly { readonly steps: readonly unknown[] }[];
};

test('settings of one season give equal shares, and the exit code says that they suffice', async () => {
  const words = ['balance', quailRun, '--state', 'as-specified', '--new-dampers', '--season', 'cooling'];
  const { code, stdout } = await runCli([...words, '--json']);
  const { settings, seasons, sheets } = JSON.parse(stdout) as BalanceJson;
  expect(code).toBe(0);
  expect(seasons.map(({ mode }) => mode)).toEqual(['cooling']);
  expect(seasons[0]!.after.most / seasons[0]!.after.least).toBeLessThan(1.02);
  expect(Math.max(...settings.map(({ position }) => position!))).toBeCloseTo(1, 6);
  expect(sheets[0]!.steps).toHaveLength(settings.length);
});

test('a leaky house without dampers: exit code 1, and words that name the rooms and the repair', async () => {
  const { code, stdout } = await runCli(['balance', quailRun]);
  expect(code).toBe(1);
  expect(stdout).toContain('Dampers alone do not do it');
  expect(stdout).toMatch(/Short of air: [^.]*Bedroom 3 \(57 % of\s+need\)/);
  expect(stdout).toContain('no damper in the run: ');
  expect(stdout).not.toMatch(/undefined|NaN/);
});
