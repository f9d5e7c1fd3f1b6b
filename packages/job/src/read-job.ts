import { houseErrors } from './checks/house-errors.ts';
import { schemaErrors } from './checks/schema-errors.ts';
import { stateErrors } from './checks/state-errors.ts';
import { type JobError, jobError, shown } from './job-error.ts';
import { migrate } from './migrate.ts';
import { parseJson } from './parse-json.ts';
import { readingErrors } from './readings/reading-errors.ts';
import { currentVersion, type Job } from './schema/job-schema.ts';

/** A sound job, or every error found in it. */
export type ReadJob = { readonly job: Job } | { readonly errors: readonly JobError[] };

const versionError = (job: unknown): JobError | undefined => {
  const version =
    typeof job === 'object' && job !== null ? (job as { schemaVersion?: unknown }).schemaVersion : undefined;
  if (typeof version === 'number' && version > currentVersion)
    return jobError(
      'schemaVersion',
      String(version),
      `${currentVersion} or less`,
      'The file was written by a newer version of this program; update the program to read it.',
    );
  if (version === undefined || (typeof version === 'number' && Number.isInteger(version) && version >= 0))
    return undefined;
  return jobError(
    'schemaVersion',
    shown(version),
    `${currentVersion}`,
    `Write "schemaVersion": ${currentVersion}.`,
  );
};

/**
 * A job from its text, or from a value already parsed: migrated when older, then checked in every one of its
 * states. Gives the job as typed, or every error at once; never throws.
 */
export const readJob = (input: string | object): ReadJob => {
  let value: unknown = input;
  if (typeof input === 'string') {
    const parsed = parseJson(input);
    if ('error' in parsed) {
      const { line, column, found, expected } = parsed.error;
      return {
        errors: [
          jobError(
            '',
            `${found} at line ${line}, column ${column}`,
            expected,
            'The text has to be JSON before it can be read.',
          ),
        ],
      };
    }
    value = parsed.value;
  }
  if (typeof value !== 'object' || value === null || Array.isArray(value))
    return {
      errors: [jobError('', shown(value), 'a record', 'A job file is one record that starts with {.')],
    };
  const version = versionError(value);
  if (version) return { errors: [version] };
  const job = migrate(value);
  const errors = [...schemaErrors(job), ...houseErrors(job), ...stateErrors(job), ...readingErrors(job)];
  return errors.length === 0 ? { job: job as Job } : { errors };
};
