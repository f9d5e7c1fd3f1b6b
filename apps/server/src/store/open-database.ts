import { Worker } from 'node:worker_threads';

export type Rows = { readonly rows: unknown[]; readonly affectedRows: number };

/** One connection to the embedded PostgreSQL: statements run one after another. */
export type Database = {
  readonly query: (sql: string, parameters: readonly unknown[]) => Promise<Rows>;
  readonly close: () => Promise<void>;
};

type Answer = {
  readonly id: number;
  readonly error?: { readonly message: string; readonly code?: string };
} & Rows;
type Waiting = { readonly done: (rows: Rows) => void; readonly fail: (error: Error) => void };

/**
 * Opens the database in a folder, which is made when absent; the caller holds the folder's lock.
 * Fails when the folder cannot be written or holds something else.
 */
export const openDatabase = async (folder: string): Promise<Database> => {
  const worker = new Worker(new URL('./database-worker.mjs', import.meta.url), {
    workerData: { folder },
    execArgv: [],
  });
  const waiting = new Map<number, Waiting>();
  let last = 0;
  let ended: Error | undefined;
  const answerTo = (id: number): Promise<Rows> =>
    new Promise((done, fail) => (ended ? fail(ended) : waiting.set(id, { done, fail })));
  const end = (error: Error): void => {
    ended ??= error;
    for (const { fail } of waiting.values()) fail(ended);
    waiting.clear();
  };

  worker.on('message', ({ id, error, rows, affectedRows }: Answer) => {
    const asked = waiting.get(id);
    waiting.delete(id);
    if (error) asked?.fail(Object.assign(new Error(error.message), { code: error.code }));
    else asked?.done({ rows, affectedRows });
  });
  worker.on('error', end);
  worker.on('exit', () => end(new Error('The database has stopped.')));

  const ask = (message: object): Promise<Rows> => {
    const answer = answerTo(++last);
    worker.postMessage({ id: last, ...message });
    return answer;
  };
  try {
    await answerTo(0);
  } catch (error) {
    await worker.terminate();
    throw error;
  }
  return {
    query: (sql, parameters) => ask({ sql, parameters }),
    close: async () => {
      await ask({});
      await worker.terminate();
    },
  };
};
