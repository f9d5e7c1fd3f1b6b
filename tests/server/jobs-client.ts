import { readFileSync } from 'node:fs';
import type { Job } from '@airledger/job';
import { readJob } from '@airledger/job';
import type { StoredJob } from '@airledger/server';

export const tinyJob = (): Job => {
  const read = readJob(readFileSync(new URL('../fixtures/tiny.airledger.json', import.meta.url), 'utf8'));
  if ('errors' in read) throw new Error(read.errors.map((error) => error.message).join('\n'));
  return read.job;
};

export type Answer<T> = { readonly status: number; readonly headers: Headers; readonly body: T };

/** Requests to a server as a page makes them. */
export const jobsClient = (url: string) => {
  const ask = async <T>(
    method: string,
    path: string,
    body?: unknown,
    headers: Record<string, string> = {},
  ): Promise<Answer<T>> => {
    const answer = await fetch(new URL(path, url), {
      method,
      headers: { ...(body !== undefined && { 'content-type': 'application/json' }), ...headers },
      ...(body !== undefined && { body: JSON.stringify(body) }),
    });
    const text = await answer.text();
    return {
      status: answer.status,
      headers: answer.headers,
      body: (text === '' ? undefined : JSON.parse(text)) as T,
    };
  };
  return {
    ask,
    make: (body: object) => ask<StoredJob>('POST', 'api/jobs', body),
    open: (id: string) => ask<StoredJob>('GET', `api/jobs/${id}`),
    save: (id: string, rev: number, job: Job, more: object = {}) =>
      ask<StoredJob & { current: StoredJob; error: string }>(
        'PUT',
        `api/jobs/${id}`,
        { job, ...more },
        { 'if-match': `"${rev}"` },
      ),
  };
};
