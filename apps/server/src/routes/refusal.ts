import type { JobError } from '@airledger/job';

/** What every failed request answers. */
export type RefusalBody = {
  readonly error: string;
  /** Where in what was sent. */
  readonly path?: string;
  readonly expected?: string;
  readonly remedy?: string;
  /** Everything wrong with a job, the first of which is above. */
  readonly faults?: readonly JobError[];
};

/** A request that cannot be met, with its HTTP status; `more` is added to the answer. */
export class Refusal extends Error {
  readonly statusCode: number;
  readonly body: RefusalBody;
  constructor(statusCode: number, body: RefusalBody & Record<string, unknown>) {
    super(body.error);
    this.statusCode = statusCode;
    this.body = body;
  }
}

export const notFound = (what: string): Refusal =>
  new Refusal(404, { error: `There is no ${what}.`, remedy: 'Look it up in the list again.' });
