import { fileTypes, type Job, readJob } from '@airledger/job';
import type { Author } from '../store/jobs.ts';
import { Refusal } from './refusal.ts';

const uuid = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/i;

export type Body = Readonly<Record<string, unknown>>;

export const bodyOf = (body: unknown): Body => {
  if (typeof body === 'object' && body !== null && !Array.isArray(body)) return body as Body;
  throw new Refusal(400, {
    error: 'The request has no record in its body.',
    expected: 'a JSON record',
    remedy: 'Send { "job": … } with content-type application/json.',
  });
};

/** A text of a record that may be absent, cut to a length that a list can show. */
export const textOf = (body: Body, key: string): string | undefined => {
  const value = body[key];
  if (value === undefined || value === '') return undefined;
  if (typeof value === 'string') return value.slice(0, 500);
  throw new Refusal(400, { error: `"${key}" is not a text.`, path: key, expected: 'a text' });
};

export const authorOf = (body: Body): Author => ({
  who: textOf(body, 'who') ?? 'unnamed',
  what: textOf(body, 'what'),
});

export const uuidOf = (value: unknown, path: string): string => {
  if (typeof value === 'string' && uuid.test(value)) return value.toLowerCase();
  throw new Refusal(400, { error: `"${String(value)}" is not an id of a job.`, path, expected: 'a UUID' });
};

export const sha256Named = (value: string): string => {
  if (/^[0-9a-f]{64}$/.test(value)) return value;
  throw new Refusal(400, {
    error: `"${value}" does not name a file.`,
    expected: 'a SHA-256 of 64 lower-case hexadecimal digits',
  });
};

export const fileTypeOf = (contentType: string | undefined): (typeof fileTypes)[number] => {
  const type = fileTypes.find((each) => each === contentType?.split(';')[0]?.trim().toLowerCase());
  if (type !== undefined) return type;
  throw new Refusal(415, {
    error: `Files of type ${contentType ?? 'unknown'} are not kept.`,
    path: 'content-type',
    expected: `one of ${fileTypes.join(', ')}`,
    remedy: 'Turn the picture into a JPEG or PNG first.',
  });
};

/** The job of a request, migrated and checked in all its states. */
export const jobOf = (value: unknown): Job => {
  const read = readJob(typeof value === 'object' && value !== null ? value : {});
  if ('job' in read) return read.job;
  const [first] = read.errors;
  const others = read.errors.length - 1;
  throw new Refusal(400, {
    error: `${first!.message}${others > 0 ? ` (and ${others} more)` : ''}`,
    path: first!.path,
    expected: first!.expected,
    remedy: first!.remedy,
    faults: read.errors,
  });
};

/** Revision that an edit was made on, from If-Match: "5". */
export const revisionOf = (ifMatch: string | undefined): number => {
  const rev = /^(?:W\/)?"(\d+)"$/.exec(ifMatch ?? '')?.[1];
  if (rev !== undefined) return Number(rev);
  throw new Refusal(428, {
    error: 'It is not said on which revision the job was edited.',
    path: 'if-match',
    expected: 'the ETag of the job as it was read, as "5"',
    remedy: 'Read the job first and send its ETag as If-Match.',
  });
};
