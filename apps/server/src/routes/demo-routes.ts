import { readFile } from 'node:fs/promises';
import { basename, join } from 'node:path';
import type { FastifyInstance } from 'fastify';
import { demoFiles } from '../demo-files.ts';
import { notFound } from './refusal.ts';

/** Job files that the page may open: what it opens first, and the demo houses. */
export type JobList = {
  readonly first?: { readonly name: string; readonly url: string };
  readonly demos: readonly { readonly name: string; readonly url: string }[];
};

/** The job file that the server was started with, and the demo houses in a folder. */
export const demoRoutes = (server: FastifyInstance, folder: string, jobFile: string | undefined): void => {
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
    if (!(await demoFiles(folder)).includes(name)) throw notFound(`demo named ${name}`);
    return reply.type('application/json').send(await readFile(join(folder, name), 'utf8'));
  });
  server.get('/api/job', async (_request, reply) => {
    if (jobFile === undefined) throw notFound('job file, as none was given');
    return reply.type('application/json').send(await readFile(jobFile, 'utf8'));
  });
};
