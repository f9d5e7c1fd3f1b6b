import { type ChildProcess, spawn } from 'node:child_process';
import { rm } from 'node:fs/promises';
import { createServer } from 'node:net';
import { freshData } from '../server/fresh-data.ts';

/** A server with jobs of its own, that can be killed and started again on them. */
export type OwnServer = {
  readonly url: string;
  readonly start: () => Promise<void>;
  /** Ends it without a chance to tidy up, as a power cut would. */
  readonly kill: () => Promise<void>;
  /** Starts it again with no job and no file, as after a lost disk. */
  readonly empty: () => Promise<void>;
  readonly remove: () => Promise<void>;
};

const freePort = (): Promise<number> =>
  new Promise((resolve, reject) => {
    const probe = createServer();
    probe.once('error', reject);
    probe.listen(0, '127.0.0.1', () => {
      const { port } = probe.address() as { port: number };
      probe.close(() => resolve(port));
    });
  });

export const ownServer = async (): Promise<OwnServer> => {
  const port = await freePort();
  let data = await freshData();
  const url = `http://127.0.0.1:${port}`;
  let running: ChildProcess | undefined;
  const kill = async () => {
    if (!running || running.exitCode !== null || running.signalCode !== null) return;
    const ended = new Promise((resolve) => running?.once('exit', resolve));
    running.kill('SIGKILL');
    await ended;
  };
  const start = async () => {
    running = spawn(process.execPath, ['--import', 'tsx', 'apps/server/src/main.ts'], {
      env: { ...process.env, PORT: String(port), AIRLEDGER_DATA: data, CI: '1' },
      stdio: 'ignore',
    });
    for (let i = 0; i < 600; i++) {
      const state = await fetch(`${url}/api/store`)
        .then((answer) => answer.json())
        .catch(() => undefined);
      if (state?.state === 'ready') return;
      await new Promise((resume) => setTimeout(resume, 100));
    }
    throw new Error('The server does not start.');
  };
  const remove = async () => {
    await kill();
    await rm(data, { recursive: true, force: true });
  };
  await start();
  return {
    url,
    start,
    kill,
    empty: async () => {
      await remove();
      data = await freshData();
      await start();
    },
    remove,
  };
};
