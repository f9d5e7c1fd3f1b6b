import { readFile } from 'node:fs/promises';
import type { AddressInfo } from 'node:net';
import { basename, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import staticFiles from '@fastify/static';
import Fastify, { type FastifyInstance } from 'fastify';
import { demoFiles } from './demo-files.ts';
import { openBrowser } from './open-browser.ts';

const root = fileURLToPath(new URL('../../..', import.meta.url));

export type ServerOptions = {
  /** Port on 127.0.0.1; 0 takes any free one. */
  readonly port: number;
  /** Open the page in the desktop's browser, when there is a desktop. */
  readonly open?: boolean;
  /** Job file that the page shows first; the first demo house when absent. */
  readonly jobFile?: string;
};

/** Job files that the page may open: what it opens first, and the demo houses. */
export type JobList = {
  readonly first?: { readonly name: string; readonly url: string };
  readonly demos: readonly { readonly name: string; readonly url: string }[];
};

/**
 * Serves the workbench and the job files it may open, on this machine only.
 * Fails when the port is taken or the job file cannot be read.
 */
export const startServer = async ({
  port,
  open,
  jobFile,
}: ServerOptions): Promise<{ url: string; close: () => Promise<void> }> => {
  if (jobFile !== undefined) await readFile(jobFile);
  const server = Fastify();
  await server.register(staticFiles, { root: join(root, 'apps/web/dist') });
  serveJobs(server, join(root, 'demo'), jobFile);
  await server.listen({ port, host: '127.0.0.1' });
  const url = `http://127.0.0.1:${(server.server.address() as AddressInfo).port}/`;
  if (open) openBrowser(url);
  return { url, close: () => server.close() };
};

const serveJobs = (server: FastifyInstance, folder: string, jobFile: string | undefined): void => {
  server.get('/api/demos', async (): Promise<JobList> => {
    const demos = (await demoFiles(folder)).map((name) => ({
      name,
      url: `/api/demos/${encodeURIComponent(name)}`,
    }));
    return { first: jobFile ? { name: basename(jobFile), url: '/api/job' } : demos[0], demos };
  });
  server.get<{ Params: { name: string } }>('/api/demos/:name', async (request, reply) => {
    const { name } = request.params;
    // Only listed names are read, so no path can lead out of the folder.
    if (!(await demoFiles(folder)).includes(name))
      return reply.code(404).send({ error: `no demo named ${name}` });
    return reply.type('application/json').send(await readFile(join(folder, name), 'utf8'));
  });
  server.get('/api/job', async (_request, reply) => {
    if (jobFile === undefined) return reply.code(404).send({ error: 'no job file was given' });
    return reply.type('application/json').send(await readFile(jobFile, 'utf8'));
  });
};
