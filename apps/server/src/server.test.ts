import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, expect, test } from 'vitest';
import { type JobList, startServer } from './index.ts';

const given = fileURLToPath(new URL('../package.json', import.meta.url));
const server = await startServer({ port: 0, jobFile: given, data: join(tmpdir(), 'airledger-unused') });
afterAll(() => server.close());

test('lists the job it was given first', async () => {
  const list = (await (await fetch(`${server.url}api/demos`)).json()) as JobList;
  expect(list.first).toEqual({ name: 'package.json', url: '/api/job' });
  for (const demo of list.demos) expect((await fetch(new URL(demo.url, server.url))).status).toBe(200);
});

test('serves that job as it stands on disk', async () => {
  expect(await (await fetch(`${server.url}api/job`)).json()).toMatchObject({ name: '@airledger/server' });
});

test('reads nothing outside the demo folder', async () => {
  for (const name of ['..%2Fpackage.json', '..%2F..%2Fetc%2Fpasswd', 'none.airledger.json'])
    expect((await fetch(`${server.url}api/demos/${name}`)).status).toBe(404);
});

test('refuses a job file that does not exist', async () => {
  await expect(startServer({ port: 0, jobFile: '/nowhere/none.json' })).rejects.toThrow('ENOENT');
});
