import { mkdtemp, rm, symlink } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { root, runCli, runInstalled } from './run-cli.ts';

let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'airledger-test-'));
  await symlink(join(root, 'demo'), join(folder, 'demo'));
});
afterAll(() => rm(folder, { recursive: true, force: true }));

/** Words of an example as a shell would split them; quotes hold words together. */
const wordsOf = (help: string): string[] => {
  const example = /Example:\n\s+npx airledger (.+)/.exec(help)?.[1] ?? '';
  return [...example.matchAll(/"([^"]*)"|(\S+)/g)].map(([, quoted, bare]) => quoted ?? bare!);
};

// The examples of season and of repair, which take long, are run by the tests of these commands.
test.each([
  ['--help'],
  ['account --help'],
  ['calibrate --help'],
  ['explain --help'],
  ['balance --help'],
  ['check --help'],
  ['figure --help'],
  ['handover --help'],
])('the example of %s works when pasted', async (asked) => {
  const help = await runCli(asked.split(' '));
  expect([help.code, help.stderr]).toEqual([0, '']);
  const words = wordsOf(help.stdout);
  expect(words.length).toBeGreaterThan(1);
  const run = await runInstalled(words, { cwd: folder });
  expect([words.join(' '), run.stderr]).toEqual([words.join(' '), '']);
  expect([0, 1]).toContain(run.code);
});

test('says what exit codes mean', async () => {
  const { stdout } = await runCli(['--help']);
  expect(stdout).toContain('Exit codes: 0 fine, 1 the house fails a check, 2 bad input, 3 internal error.');
});

test('help about a command is the help of that command', async () => {
  const { code, stdout } = await runCli(['help', 'open']);
  expect([code, stdout]).toEqual([0, (await runCli(['open', '--help'])).stdout]);
});
