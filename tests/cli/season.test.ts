import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { yearFile } from '../fixtures/weather-file.ts';
import { quailRun, runCli } from './run-cli.ts';

test('the example of season --help works when pasted', async () => {
  const help = await runCli(['season', '--help']);
  const example = /Example:\n\s+npx airledger (.+)/.exec(help.stdout)?.[1] ?? '';
  const { code, stdout, stderr } = await runCli(example.split(' '));
  expect([code, stderr]).toEqual([0, '']);
  expect(stdout).toContain('made from its design temperatures');
  for (const word of ['Month', 'electricity', 'too cold', 'assumed']) expect(stdout).toContain(word);
}, 60_000);

test('gives JSON of a year of a weather file, and refuses what is none', async () => {
  const folder = await mkdtemp(join(tmpdir(), 'airledger-test-'));
  try {
    const file = join(folder, 'year.csv');
    await writeFile(
      file,
      yearFile((n) => 12 - 13 * Math.cos((2 * Math.PI * n) / 8760)),
    );
    const { code, stdout } = await runCli(['season', quailRun, '--weather', file, '--json']);
    expect(code).toBe(0);
    const found = JSON.parse(stdout);
    expect(found.hours).toBe(8760);
    expect(found.months).toHaveLength(12);
    expect(found.worstClosure).toBeLessThan(1e-6);
    expect(found.inputs.map(({ path }: { path: string }) => path)).toContain(
      'season/tariffs/electricity/price',
    );
    const refused = await runCli(['season', quailRun, '--weather', quailRun]);
    expect(refused.code).toBe(2);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}, 90_000);
