import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { findChromium } from '../scripts/browser.mjs';
import { buildPage } from '../scripts/build-page.mjs';

const root = dirname(dirname(fileURLToPath(import.meta.url)));

/** The page as it is served to a user, and how to end that. */
export type Served = { readonly url: string; readonly end: () => Promise<void> };

/** How every benchmark starts its browser: without what would reach for the network. */
export const browserOptions = {
  executablePath: findChromium() ?? '',
  args: [
    ...(process.getuid?.() === 0 || process.env.CI ? ['--no-sandbox'] : []),
    '--disable-gpu',
    '--no-first-run',
    '--disable-quic',
    '--disable-background-networking',
    '--disable-component-update',
    '--disable-sync',
  ],
};

/** Builds the page and serves it with a store of jobs of its own. Throws when it cannot be built or does not start. */
export async function served(): Promise<Served> {
  buildPage();
  const data = mkdtempSync(join(tmpdir(), 'airledger-bench-'));
  const port = 20_000 + (process.pid % 20_000);
  const url = `http://127.0.0.1:${port}`;
  const server = spawn(process.execPath, ['--import', 'tsx', 'apps/server/src/main.ts'], {
    cwd: root,
    env: { ...process.env, PORT: String(port), AIRLEDGER_DATA: data, CI: '1' },
    stdio: 'ignore',
  });
  const end = async () => {
    await ended(server);
    rmSync(data, { recursive: true, force: true, maxRetries: 20, retryDelay: 100 });
  };
  for (let tries = 0; tries < 240; tries++) {
    const state = await fetch(`${url}/api/store`)
      .then((answer) => answer.json() as Promise<{ readonly state?: string }>)
      .catch(() => undefined);
    if (state?.state === 'ready') return { url, end };
    await new Promise((resume) => setTimeout(resume, 250));
  }
  await end();
  throw new Error('The server did not start.');
}

const ended = async (server: ChildProcess): Promise<void> => {
  if (server.exitCode !== null || server.signalCode !== null) return;
  const gone = new Promise((resolve) => server.once('exit', resolve));
  server.kill();
  await gone;
};
