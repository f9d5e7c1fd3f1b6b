import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = fileURLToPath(new URL('../..', import.meta.url));
export const tiny = join(root, 'tests/fixtures/tiny.airledger.json');
export const quailRun = join(root, 'demo/1-quail-run-lane.airledger.json');

export type Run = { readonly code: number | null; readonly stdout: string; readonly stderr: string };

/** Runs the real command line in a process of its own, with piped streams, as a script would. */
export const runCli = (
  words: readonly string[],
  given: { stdin?: string; cwd?: string } = {},
): Promise<Run> =>
  new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [join(root, 'apps/cli/bin/airledger.mjs'), ...words], {
      cwd: given.cwd ?? root,
    });
    let stdout = '';
    let stderr = '';
    child.stdout.setEncoding('utf8').on('data', (text: string) => {
      stdout += text;
    });
    child.stderr.setEncoding('utf8').on('data', (text: string) => {
      stderr += text;
    });
    child.on('error', reject);
    child.on('close', (code) => resolve({ code, stdout, stderr }));
    child.stdin.end(given.stdin ?? '');
  });
