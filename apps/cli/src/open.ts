import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Command, InvalidArgumentError } from 'commander';
import { buildPage } from '../../../scripts/build-page.mjs';
import { BadInput } from './bad-input.ts';
import { readText } from './read-text.ts';

type Options = { readonly json?: true; readonly port: number; readonly browser: boolean };

/** `airledger open`: the workbench on this machine, with a job file in it. */
export const openCommand = (): Command =>
  new Command('open')
    .argument('[JOB]', 'job file (*.airledger.json), or - for stdin; a demo house when not given')
    .option('--port <number>', 'port on 127.0.0.1; 0 takes a free one', portNumber, 4310)
    .option('--no-browser', 'print the address only')
    .option('--json', 'write the address as JSON')
    .addHelpText('after', '\nExample:\n  npx airledger open demo/1-quail-run-lane.airledger.json')
    .action(async (path: string | undefined, { json, port, browser }: Options) => {
      const jobFile = path === undefined ? undefined : await fileOf(path);
      buildPage();
      const { startServer } = await import('@airledger/server');
      try {
        const { url } = await startServer({ port, open: browser, jobFile });
        process.stdout.write(json ? `${JSON.stringify({ url })}\n` : `Open ${url}\n`);
      } catch (error) {
        if ((error as NodeJS.ErrnoException).code !== 'EADDRINUSE') throw error;
        throw new BadInput(`Port ${port} is in use. Choose another with --port, or 0 for any free one.`);
      }
    });

const portNumber = (text: string): number => {
  const port = Number(text);
  if (!Number.isInteger(port) || port < 0 || port > 65535)
    throw new InvalidArgumentError('A port is a whole number from 0 to 65535.');
  return port;
};

/** The file to serve: as named once it reads, or a copy of stdin that goes when the program ends. */
const fileOf = async (path: string): Promise<string> => {
  const text = await readText(path);
  if (path !== '-') return path;
  const folder = await mkdtemp(join(tmpdir(), 'airledger-'));
  const file = join(folder, 'stdin.airledger.json');
  await writeFile(file, text);
  for (const signal of ['SIGINT', 'SIGTERM'] as const)
    process.on(signal, () => rm(folder, { recursive: true, force: true }).finally(() => process.exit()));
  return file;
};
