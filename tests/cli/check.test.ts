import type { Check } from '@airledger/engine';
import { expect, test } from 'vitest';
import { quailRun, runCli } from './run-cli.ts';

type ChecksJson = { readonly state: string; readonly failed: number; readonly checks: readonly Check[] };

test.each([
  ['as-found', 1],
  ['as-specified', 0],
])('exit code says whether the house %s fails', async (state, code) => {
  const run = await runCli(['check', quailRun, '--state', state, '--json']);
  const { failed, checks, state: shown } = JSON.parse(run.stdout) as ChecksJson;
  expect([run.code, shown]).toEqual([code, state]);
  expect(failed).toBe(checks.filter(({ result }) => result === 'fail').length);
  expect(failed > 0).toBe(code === 1);
  const order = ['fail', 'cannot tell', 'pass', 'exempt'];
  const ranks = checks.map(({ result }) => order.indexOf(result));
  expect(ranks).toEqual(ranks.toSorted((a, b) => a - b));
});

test('text gives value, limit, margin, clause and remedy of what fails, first in its group', async () => {
  const { stdout } = await runCli(['check', quailRun, '--state', 'as-found']);
  const block = stdout.split('\n\n').find((text) => text.includes('Insulation of supply ducts, Attic'))!;
  expect(block).toContain('FAIL');
  expect(block).toContain('R-4.2, at least R-8, margin −3.8 R');
  expect(block).toContain('Clause: IECC 2018 R403.3.1');
  expect(block).toContain('Remedy: After sealing and testing, insulate');
  expect(stdout).not.toMatch(/undefined|NaN/);
  expect(stdout).not.toContain('\u001b');
});
