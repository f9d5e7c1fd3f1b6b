import { readFileSync } from 'node:fs';
import { readJob } from '@airledger/job';
import { expect, test } from 'vitest';

test('the house in docs/job-file.md can be read', () => {
  const text = readFileSync(new URL('../docs/job-file.md', import.meta.url), 'utf8');
  const example = /```json\n([\s\S]+?)```/.exec(text)?.[1] ?? '';
  expect(readJob(example)).toEqual({ job: JSON.parse(example) });
});
