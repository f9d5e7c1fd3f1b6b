import { type Remote, wrap } from 'comlink';
import type { Engine } from './worker.ts';

const start = (): Remote<Engine> =>
  wrap<Engine>(new Worker(new URL('./worker.ts', import.meta.url), { type: 'module' }));

/** Answers edits; never busy with anything longer than one solve. */
export const engine = start();

/** Answers what may take a second, ranges and reasons, so that edits never wait for it. */
export const patientEngine = start();
