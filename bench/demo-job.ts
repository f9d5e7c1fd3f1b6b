import { readFileSync } from 'node:fs';
import { type Job, readJob } from '@airledger/job';

/** A demo house by the name of its file. Throws when it does not read. */
export function demoJob(name: string): Job {
  const read = readJob(readFileSync(new URL(`../demo/${name}.airledger.json`, import.meta.url), 'utf8'));
  if ('errors' in read)
    throw new Error(`${name} does not read: ${read.errors.map(({ message }) => message).join('\n')}`);
  return read.job;
}
