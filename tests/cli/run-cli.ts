import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { builtCli } from './built-cli.ts';

export const root = fileURLToPath(new URL('../..', import.meta.url));
export const tiny = join(root, 'tests/fixtures/tiny.airledger.json');
export const quailRun = join(root, 'demo/1-quail-run-lane.airledger.json');

export type Run = { readonly code: number | null; readonly stdout: string; readonly stderr: string };

type Given = { readonly stdin?: string; readonly cwd?: string };

/** Runs the command line in a process of its own, with piped streams, as a script would. */
export const runCli = async (words: readonly string[], given: Given = {}): Promise<Run> =>
  run(await builtCli(), words, given);

/** The same by the program that `npx airledger` starts. */
export const runInstalled = (words: readonly string[], given: Given = {}): Promise<Run> =>
  run(join(root, 'apps/cli/bin/airledger.mjs'), words, given);

const run = (program: string, words: readonly string[], given: Given): Promise<Run> =>
  new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [program, ...words], { cwd: given.cwd ?? root });
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
