import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { readJob } from '@airledger/job';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { quailRun, runCli } from './run-cli.ts';

let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'airledger-test-'));
});
afterAll(() => rm(folder, { recursive: true, force: true }));

test('the example of the help plans, with work, money and what came close', async () => {
  const help = await runCli(['repair', '--help']);
  const words = /npx airledger (repair .+)/.exec(help.stdout)![1]!.split(' ');
  const { code, stdout, stderr } = await runCli(words);
  expect([code, stderr]).toEqual([0, '']);
  for (const head of [
    'Plan',
    'Work, in order',
    'Energy:',
    'Payback:',
    'What each next dollar buys',
    'What came close',
  ])
    expect(stdout).toContain(head);
}, 240_000);

test('a plan is written as a state of the job, and --json says the same', async () => {
  const file = join(folder, 'planned.airledger.json');
  const words = ['repair', quailRun, '--goal', 'rooms', '--room', 'laundry', '--not', 'fan-down-main'];
  const { code, stdout } = await runCli([...words, '--json', '--write', file]);
  expect(code).toBe(0);
  const plan = JSON.parse(stdout) as {
    met: boolean;
    plan: { repairs: string[] };
    work: { id: string; name: string }[];
  };
  expect(plan.met).toBe(true);
  expect(plan.plan.repairs).not.toContain('fan-down-main');
  const read = readJob(await readFile(file, 'utf8'));
  if ('errors' in read) throw new Error(read.errors.map(({ message }) => message).join());
  const state = read.job.states!.find(({ id }) => id === 'as-specified')!;
  expect(new Set(state.changes.map(({ why }) => why))).toEqual(new Set(plan.work.map(({ name }) => name)));
}, 240_000);

test('what names nothing is bad input', async () => {
  const bad = [
    [['--room', 'cellar'], 'There is no room "cellar"'],
    [['--must', 'paint-it'], 'There is no measure "paint-it"'],
    [['--goal', 'comfort'], 'say how much with --budget'],
  ] as const;
  for (const [words, said] of bad) {
    const { code, stderr } = await runCli(['repair', quailRun, ...words]);
    expect([words, code]).toEqual([words, 2]);
    expect(stderr).toContain(said);
  }
}, 120_000);
