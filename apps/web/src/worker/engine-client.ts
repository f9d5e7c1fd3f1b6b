import { type Remote, wrap } from 'comlink';
import type { Engine } from './worker.ts';

const start = (): Remote<Engine> =>
  wrap<Engine>(new Worker(new URL('./worker.ts', import.meta.url), { type: 'module' }));

/** Answers edits; never busy with anything longer than one solve. */
export const engine = start();

let patient: Remote<Engine> | undefined;

/**
 * Answers what may take a second, ranges and reasons, so that edits never wait for it. It starts when it is first
 * asked: started beside the other it would take half the machine from the first house.
 */
export const patientEngine: Remote<Engine> = new Proxy({} as Remote<Engine>, {
  get: (_, key) => {
    patient ??= start();
    return patient[key as keyof Remote<Engine>];
  },
});
