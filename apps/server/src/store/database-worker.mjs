// The embedded PostgreSQL in a thread of its own: it computes on the thread that calls it, so here neither its
// opening (seconds, the first time) nor a slow statement keeps a page waiting. Plain JavaScript, so that the thread
// starts without a compiler.
import { setFlagsFromString } from 'node:v8';
import { parentPort, workerData } from 'node:worker_threads';

// Most of PostgreSQL's functions are never called: compiling them when they are halves the time to open.
setFlagsFromString('--wasm-lazy-compilation');
const { PGlite } = await import('@electric-sql/pglite');

/** Answers one message; an error keeps its SQLSTATE. */
const answer = async (id, work) => {
  try {
    const { rows = [], affectedRows = 0 } = (await work()) ?? {};
    parentPort.postMessage({ id, rows, affectedRows });
  } catch (error) {
    parentPort.postMessage({ id, error: { message: error.message, code: error.code } });
  }
};

let database;
await answer(0, async () => {
  // Jobs are small: the usual 128 MB of buffers would only double the memory that the program takes.
  const startParams = [...PGlite.defaultStartParams, '-c', 'shared_buffers=8MB'];
  database = await PGlite.create(workerData.folder, { startParams });
});
parentPort.on('message', ({ id, sql, parameters }) =>
  answer(id, () => (sql === undefined ? database.close() : database.query(sql, parameters))),
);
