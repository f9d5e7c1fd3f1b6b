import { spawn } from 'node:child_process';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterEach, expect, test } from 'vitest';
import { root, tiny } from './run-cli.ts';

let child: ReturnType<typeof spawn> | undefined;
afterEach(() => {
  child?.kill('SIGTERM');
});

test.each([[tiny], ['-']])('open %s serves that very job', async (job) => {
  const text = await readFile(tiny, 'utf8');
  const opened = spawn(
    process.execPath,
    [join(root, 'apps/cli/bin/airledger.mjs'), 'open', job, '--port', '0', '--no-browser', '--json'],
    { stdio: ['pipe', 'pipe', 'inherit'] },
  );
  child = opened;
  opened.stdin.end(job === '-' ? text : '');
  const line = await new Promise<string>((resolve) => {
    opened.stdout.once('data', (data) => resolve(String(data)));
  });
  const { url } = JSON.parse(line) as { url: string };
  expect(await (await fetch(`${url}api/job`)).text()).toBe(text);
});
