import type { HistoryEntry, Job } from '@airledger/job';

/** A job as the server lists it, and as it keeps it. */
export type ServerHead = {
  readonly id: string;
  readonly rev: number;
  readonly name: string;
  readonly archived: boolean;
  readonly updatedAt: string;
};
export type ServerJob = ServerHead & { readonly job: Job };
export type ServerRevision = HistoryEntry & { readonly rev: number };

/** The server cannot be reached, or its store does not open: what is kept here is sent later. */
export class OutOfReach extends Error {
  override readonly name = 'OutOfReach';
}

/** The server does not take what was sent, and says why. */
export class NotTaken extends Error {
  override readonly name = 'NotTaken';
  readonly status: number;
  readonly current: ServerJob | undefined;
  constructor(status: number, { error, current }: { readonly error?: string; readonly current?: ServerJob }) {
    super(error ?? `The server answers with status ${status}.`);
    this.status = status;
    this.current = current;
  }
}

const ask = async (path: string, init: RequestInit = {}): Promise<Response> => {
  const answer = await fetch(path, init).catch((error: unknown) => {
    throw new OutOfReach(String(error));
  });
  if (answer.ok || answer.status === 304) return answer;
  // A proxy in between, or a store that is not open, is as good as no server.
  if (answer.status >= 500) throw new OutOfReach(`status ${answer.status}`);
  throw new NotTaken(answer.status, await answer.json().catch(() => ({})));
};

const asJson = (method: string, body: unknown, headers: Record<string, string> = {}): RequestInit => ({
  method,
  headers: { 'content-type': 'application/json', ...headers },
  body: JSON.stringify(body),
});

/** Calls of the server's store; each throws `OutOfReach` or `NotTaken`. */
export const server = {
  list: async (search: string, archived: boolean): Promise<readonly ServerHead[]> => {
    const query = new URLSearchParams({ search, archived: String(archived) });
    return (await (await ask(`/api/jobs?${query}`)).json()).jobs;
  },

  /** The job, or undefined when it is still of the revision that is known. */
  get: async (id: string, known?: number): Promise<ServerJob | undefined> => {
    const headers = known === undefined ? undefined : { 'if-none-match': `"${known}"` };
    const answer = await ask(`/api/jobs/${id}`, { headers, cache: 'no-store' });
    return answer.status === 304 ? undefined : answer.json();
  },

  add: async (id: string, job: Job, who: string, what?: string): Promise<ServerHead> =>
    (await ask('/api/jobs', asJson('POST', { id, job, who, what }))).json(),

  save: async (id: string, rev: number, job: Job, who: string, what?: string): Promise<ServerHead> =>
    (await ask(`/api/jobs/${id}`, asJson('PUT', { job, who, what }, { 'if-match': `"${rev}"` }))).json(),

  archive: async (id: string, archived: boolean): Promise<void> => {
    await ask(`/api/jobs/${id}/archive`, asJson('POST', { archived }));
  },

  history: async (id: string, most: number): Promise<readonly ServerRevision[]> =>
    (await (await ask(`/api/jobs/${id}/history?most=${most}`)).json()).revisions,

  putFile: async (sha256: string, blob: Blob): Promise<void> => {
    await ask(`/api/blobs/${sha256}`, { method: 'PUT', headers: { 'content-type': blob.type }, body: blob });
  },

  getFile: async (sha256: string): Promise<Blob> => (await ask(`/api/blobs/${sha256}`)).blob(),
};
