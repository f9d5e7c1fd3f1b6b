import { createHash } from 'node:crypto';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { tinyJob } from '../history/random-edits.ts';
import { readJob } from '../read-job.ts';
import type { Job } from '../schema/job-schema.ts';
import { writeJob } from '../write-job.ts';
import {
  fromBase64,
  referredFiles,
  type StoredFile,
  toBase64,
  withFiles,
  withoutFiles,
} from './job-files.ts';

const bytes = new Uint8Array(100_000).map((_, i) => (i * 7) % 251);
const sha256 = createHash('sha256').update(bytes).digest('hex');
const job: Job = {
  ...tinyJob(),
  photos: [
    { id: 'boot', sha256, of: 'systems/main/parts/run-bedroom', spot: '3 ft, 4 ft', caption: 'open boot' },
    { id: 'boot-near', sha256 },
  ],
};
const stored = new Map<string, StoredFile>([[sha256, { type: 'image/jpeg', bytes }]]);

test('base64 is what the standard says, both ways', () => {
  fc.assert(
    fc.property(fc.uint8Array({ maxLength: 300 }), (some) => {
      expect(toBase64(some)).toBe(Buffer.from(some).toString('base64'));
      expect(fromBase64(toBase64(some))).toEqual(some);
    }),
  );
  expect(fromBase64('not base64!')).toBeUndefined();
});

test('a file with photos is read as a job and gives the same job and bytes', () => {
  const read = readJob(writeJob(withFiles(job, stored)));
  if ('errors' in read) throw new Error(read.errors.map((error) => error.message).join('\n'));
  expect(read.job.files).toHaveLength(1);
  expect(withoutFiles(read.job)).toEqual({ job, files: stored });
});

test('a photo whose bytes are not at hand stays a reference', () => {
  expect(withFiles(job, new Map())).toEqual(job);
  expect([...referredFiles(job)]).toEqual([sha256]);
});

test('a photo without a true SHA-256 or with a second id is refused', () => {
  const wrong = {
    ...job,
    photos: [
      { id: 'a', sha256: 'ABC' },
      { id: 'a', sha256 },
    ],
  };
  const read = readJob(wrong);
  expect('errors' in read && read.errors.map((error) => error.path)).toEqual(['photos/a/sha256', 'photos/1']);
});
