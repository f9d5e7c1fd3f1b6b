// The embedded PostgreSQL in a thread of its own: it computes on the thread that calls it, so here neither its
// opening (seconds, the first time) nor a slow statement keeps a page waiting. Plain JavaScript, so that the thread
// starts without a compiler.
import { setFlagsFromString } from 'node:v8';
import { parentPort, workerData } from 'node:worker_threads';

// Compiling is most of what opening costs. Optimised code would pay off after hundreds of saves only, a quarter
// faster each; the plain code opens in half the computing and saves the first hundred sooner.
setFlagsFromString('--liftoff-only');
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
