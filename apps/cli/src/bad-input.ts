import type { JobError } from '@airledger/job';

/** What the user gave cannot be used: shown on stderr as it stands, exit code 2. */
export class BadInput extends Error {
  override readonly name = 'BadInput';
  /** Every fault of a job file, when that is what is wrong. */
  readonly errors: readonly JobError[];

  constructor(message: string, errors: readonly JobError[] = []) {
    super(message);
    this.errors = errors;
  }
}
