import { readdirSync, readFileSync } from 'node:fs';
import { readJob } from '@airledger/job';
import { describe, expect, test } from 'vitest';
import expected from './bad-jobs/expected.json' with { type: 'json' };

const folder = new URL('./bad-jobs/', import.meta.url);
const files = readdirSync(folder).filter((file) => file !== 'expected.json');
const messages: Readonly<Record<string, readonly string[]>> = expected;

describe('bad jobs', () => {
  test('every file has its messages', () => expect([...files].sort()).toEqual(Object.keys(messages).sort()));

  test.each(files)('%s', (file) => {
    const read = readJob(readFileSync(new URL(file, folder), 'utf8'));
    expect('errors' in read ? read.errors.map((error) => error.message) : []).toEqual(messages[file]);
  });
});
