import { randomUUID } from 'node:crypto';
import { type Job, referredFiles, withFiles, withoutFiles, writeJob } from '@airledger/job';
import type { FastifyInstance, FastifyReply } from 'fastify';
import { findFiles, keepFile, sha256Of } from '../store/files.ts';
import { addJob, archiveJob, findJob, historyOf, listJobs, type StoredJob, saveJob } from '../store/jobs.ts';
import type { Store } from '../store/open-store.ts';
import { authorOf, bodyOf, jobOf, revisionOf, textOf, uuidOf } from './read-request.ts';
import { notFound, Refusal } from './refusal.ts';

type WithId = { Params: { id: string } };
const etag = (rev: number): string => `"${rev}"`;
/** A house with a hundred photos on board, in base64. */
const largestFile = 256 * 2 ** 20;
const largestJob = 16 * 2 ** 20;

/** The jobs: list, open, make, save, archive, their history, and the file of one with its photos. */
export const jobRoutes = (server: FastifyInstance, storeReady: () => Promise<Store>): void => {
  const db = async () => (await storeReady()).db;

  const found = async (id: string): Promise<StoredJob> => {
    const job = await findJob(await db(), uuidOf(id, 'id'));
    if (job === undefined) throw notFound(`job ${id}`);
    return job;
  };

  /** The job as it is kept; bytes that came with it go to the files, if they are what their SHA-256 says. */
  const unpacked = async (value: unknown): Promise<Job> => {
    const whole = jobOf(value);
    const { job, files } = withoutFiles(whole);
    for (const { sha256 } of whole.files ?? []) {
      const file = files.get(sha256);
      if (file === undefined || sha256Of(file.bytes) !== sha256)
        throw new Refusal(400, {
          error: 'A photo of the file is damaged.',
          path: `files/${sha256}`,
          expected: 'bytes in base64 that have this SHA-256',
          remedy: 'Export the job again where it came from.',
        });
    }
    for (const [sha256, file] of files) await keepFile(await db(), sha256, file);
    return job;
  };

  const answer = (reply: FastifyReply, stored: { readonly rev: number }): FastifyReply =>
    reply.header('etag', etag(stored.rev)).header('cache-control', 'no-cache').send(stored);

  server.get<{ Querystring: { search?: string; archived?: string } }>('/api/jobs', async ({ query }) => ({
    jobs: await listJobs(await db(), { search: query.search, archived: query.archived === 'true' }),
  }));

  // Makes a job from { job } or from { duplicateOf, name }. An `id` made where there was no network is kept.
  server.post('/api/jobs', { bodyLimit: largestFile }, async (request, reply) => {
    const body = bodyOf(request.body);
    const author = authorOf(body);
    const id = body.id === undefined ? randomUUID() : uuidOf(body.id, 'id');
    const original = body.duplicateOf === undefined ? undefined : await found(String(body.duplicateOf));
    const job =
      original === undefined
        ? await unpacked(body.job)
        : { ...original.job, name: textOf(body, 'name') ?? `${original.name} (copy)` };
    const what = author.what ?? (original === undefined ? 'Made' : `Copied from ${original.name}`);
    const added = await addJob(await db(), id, job, { ...author, what });
    if (added !== undefined) return answer(reply.code(201), added);
    const there = await found(id);
    throw new Refusal(409, {
      error: 'A job of this id is there already.',
      path: 'id',
      remedy: 'Merge with it, or choose another id.',
      current: there,
    });
  });

  server.get<WithId>('/api/jobs/:id', async ({ params, headers }, reply) => {
    const stored = await found(params.id);
    if (headers['if-none-match'] === etag(stored.rev)) return reply.code(304).send();
    return answer(reply, stored);
  });

  server.put<WithId>('/api/jobs/:id', { bodyLimit: largestJob }, async ({ params, headers, body }, reply) => {
    const rev = revisionOf(headers['if-match']);
    const content = bodyOf(body);
    const job = await unpacked(content.job);
    const before = await found(params.id);
    const saved = before.rev === rev ? await saveJob(await db(), before, job, authorOf(content)) : undefined;
    if (saved !== undefined) return answer(reply, { ...saved });
    const current = await found(params.id);
    throw new Refusal(412, {
      error: 'The job has been changed elsewhere since it was read.',
      path: 'if-match',
      expected: etag(current.rev),
      remedy: 'Merge with the job in `current`, then save on its revision.',
      current,
    });
  });

  server.post<WithId>('/api/jobs/:id/archive', async ({ params, body }) => {
    const archived = bodyOf(body).archived !== false;
    const head = await archiveJob(await db(), uuidOf(params.id, 'id'), archived);
    if (head === undefined) throw notFound(`job ${params.id}`);
    return head;
  });

  server.get<WithId & { Querystring: { before?: string; most?: string } }>(
    '/api/jobs/:id/history',
    async ({ params, query }) => {
      const { id } = await found(params.id);
      const most = Math.min(Math.max(Number.parseInt(query.most ?? '200', 10) || 200, 1), 1000);
      const before = Number.parseInt(query.before ?? '', 10);
      const page = { most, ...(before > 0 && { before }) };
      return { revisions: await historyOf(await db(), id, page) };
    },
  );

  // The job as one file that travels, photos on board.
  server.get<WithId>('/api/jobs/:id/file', async ({ params }, reply) => {
    const { job } = await found(params.id);
    const files = await findFiles(await db(), [...referredFiles(job)]);
    const name =
      job.name
        .toLowerCase()
        .replace(/[^a-z0-9]+/g, '-')
        .replace(/^-+|-+$/g, '') || 'house';
    return reply
      .type('application/json')
      .header('content-disposition', `attachment; filename="${name}.airledger.json"`)
      .send(writeJob(withFiles(job, files)));
  });
};
