import type { JobError } from '@airledger/job';
import { expect, test } from 'vitest';
import { runCli, tiny } from './run-cli.ts';

const manyAtOnce = 'tests/bad-jobs/many-at-once.json';

test('a bad job lists every error with path, value, expectation and remedy', async () => {
  const { code, stdout, stderr } = await runCli(['account', manyAtOnce]);
  expect([code, stdout]).toEqual([2, '']);
  const asJson = await runCli(['check', manyAtOnce, '--json']);
  expect([asJson.code, asJson.stdout]).toEqual([2, '']);
  const { errors } = JSON.parse(asJson.stderr) as { errors: readonly JobError[] };
  expect(errors.length).toBeGreaterThan(3);
  expect(stderr).toContain(`${manyAtOnce} has ${errors.length} errors:`);
  for (const { path, value, expected, remedy } of errors)
    expect(stderr).toContain(
      `  ${path}\n    value     ${value}\n    expected  ${expected}\n    remedy    ${remedy}`,
    );
});

test.each([
  [
    'a file that is not there',
    ['account', 'none.airledger.json'],
    'Cannot read none.airledger.json: no such file.',
  ],
  ['a folder', ['check', 'tests'], 'Cannot read tests: it is a folder.'],
  ['no JSON', ['check', '-'], 'The job on stdin has an error:'],
  [
    'an unknown state',
    ['handover', tiny, '--state', 'as-dreamt'],
    'There is no state "as-dreamt" in this job; it has: ',
  ],
  [
    'an unknown place',
    ['account', tiny, '--place', 'cellar'],
    'There is no place "cellar" in this house; it has: ',
  ],
  ['an unknown option', ['account', tiny, '--colour'], "unknown option '--colour'"],
  ['unknown units', ['account', tiny, '--units', 'cgs'], 'Allowed choices are ip, si.'],
  ['a missing job', ['check'], "missing required argument 'JOB'"],
  ['an unknown command', ['cook'], "unknown command 'cook'"],
  ['an impossible port', ['open', '--port', '99999'], 'A port is a whole number from 0 to 65535.'],
  [
    'a folder that is not there',
    ['handover', tiny, '-o', 'no/such/folder.html'],
    'Cannot write no/such/folder.html',
  ],
])('%s is bad input', async (_, words, message) => {
  const { code, stdout, stderr } = await runCli(words);
  expect([code, stdout]).toEqual([2, '']);
  expect(stderr).toContain(message);
  expect(stderr).not.toContain('    at ');
});
