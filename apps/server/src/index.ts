import { readFile } from 'node:fs/promises';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import staticFiles from '@fastify/static';
import Fastify, { type FastifyInstance } from 'fastify';
import { backgroundStore } from './background-store.ts';
import { openBrowser } from './open-browser.ts';
import { demoRoutes } from './routes/demo-routes.ts';
import { fileRoutes } from './routes/file-routes.ts';
import { jobRoutes } from './routes/job-routes.ts';
import { Refusal, type RefusalBody } from './routes/refusal.ts';
import { dataFolder } from './store/open-store.ts';

export type { JobList } from './routes/demo-routes.ts';
export type { RefusalBody } from './routes/refusal.ts';
export type { JobHead, Revision, StoredJob } from './store/jobs.ts';

const root = fileURLToPath(new URL('../../..', import.meta.url));

export type ServerOptions = {
  /** Port on 127.0.0.1; 0 takes any free one. */
  readonly port: number;
  /** Open the page in the desktop's browser, when there is a desktop. */
  readonly open?: boolean;
  /** Job file that the page shows first; the first demo house when absent. */
  readonly jobFile?: string;
  /** Folder where jobs are kept; AIRLEDGER_DATA or ~/.airledger when absent. */
  readonly data?: string;
};

/**
 * Serves the workbench, the job files it may open and the jobs it keeps, on this machine only.
 * Fails when the port is taken or the job file cannot be read. A store that cannot be opened fails nothing here:
 * the page works without, and requests for jobs say why.
 */
export const startServer = async ({
  port,
  open,
  jobFile,
  data = dataFolder(),
}: ServerOptions): Promise<{ url: string; close: () => Promise<void> }> => {
  if (jobFile !== undefined) await readFile(jobFile);
  const server = Fastify();
  answerRefusals(server);
  refuseOtherNames(server);
  await server.register(staticFiles, { root: join(root, 'apps/web/dist') });
  const store = backgroundStore(data);
  demoRoutes(server, join(root, 'demo'), jobFile);
  jobRoutes(server, store.ready);
  await fileRoutes(server, store.ready);
  server.get('/api/store', async () => store.state());
  const close = async (): Promise<void> => {
    await server.close();
    await store.close();
  };
  try {
    await server.listen({ port, host: '127.0.0.1' });
  } catch (error) {
    await close();
    throw error;
  }
  const url = `http://127.0.0.1:${(server.server.address() as AddressInfo).port}/`;
  if (open) openBrowser(url);
  return { url, close };
};

const answerRefusals = (server: FastifyInstance): void => {
  server.setErrorHandler<Error & { statusCode?: number }>((error, _request, reply) => {
    const status = error.statusCode ?? 500;
    if (status >= 500 && !(error instanceof Refusal)) console.error(error);
    const body: RefusalBody = error instanceof Refusal ? error.body : { error: error.message };
    return reply.code(status).send(body);
  });
};

/** A page of another site whose name was pointed at this machine must not read jobs: it asks under that name. */
const refuseOtherNames = (server: FastifyInstance): void => {
  server.addHook('onRequest', async ({ hostname }) => {
    if (!['127.0.0.1', 'localhost', '[::1]'].includes(hostname.replace(/:\d+$/, '')))
      throw new Refusal(403, { error: `This server does not answer for ${hostname}.` });
  });
};
