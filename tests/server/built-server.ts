import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { cp } from 'node:fs/promises';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';
import { buildForNode } from '../build-for-node.ts';

const root = fileURLToPath(new URL('../../', import.meta.url));
/** As deep below the root as the sources are, for the server finds the page from where it stands. */
const folder = join(root, '.cache/kill/server');

/** The server as one file of JavaScript: it starts in a fraction of the time that compiling on the fly takes. */
export const buildServer = async (): Promise<void> => {
  await buildForNode('apps/server/src/main.ts', folder);
  await cp(join(root, 'apps/server/src/store/database-worker.mjs'), join(folder, 'database-worker.mjs'));
};

export type ServerProcess = { readonly url: string; readonly kill: () => Promise<void> };

/**
 * Starts the built server in a process of its own, on a free port unless one is given; `kill` ends it by SIGKILL and
 * waits until it is gone.
 */
export const spawnServer = async (data: string, port = '0'): Promise<ServerProcess> => {
  const child: ChildProcess = spawn(process.execPath, [join(folder, 'main.js')], {
    env: { ...process.env, PORT: port, CI: '1', AIRLEDGER_DATA: data },
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  const gone = once(child, 'exit');
  for await (const line of createInterface(child.stdout!)) {
    const url = /^Open (\S+)$/.exec(line)?.[1];
    if (url === undefined) continue;
    return {
      url,
      kill: async () => {
        child.kill('SIGKILL');
        await gone;
      },
    };
  }
  throw new Error('The server ended before it was ready.');
};
