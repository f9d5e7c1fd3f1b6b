import { rm } from 'node:fs/promises';
import { type ServerProcess, spawnServer } from '../server/built-server.ts';
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

/** Starts a server whose store is open: the first request for jobs waits for that. */
const startOn = async (data: string, port?: string): Promise<ServerProcess> => {
  const server = await spawnServer(data, port);
  const { ok, status } = await fetch(new URL('api/jobs', server.url));
  if (!ok) {
    await server.kill();
    throw new Error(`The server does not open its store: ${status}.`);
  }
  return server;
};

export const ownServer = async (): Promise<OwnServer> => {
  let data = await freshData();
  let running = await startOn(data);
  const { origin: url, port } = new URL(running.url);
  const kill = () => running.kill();
  const start = async () => {
    running = await startOn(data, port);
  };
  const remove = async () => {
    await kill();
    await rm(data, { recursive: true, force: true });
  };
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
