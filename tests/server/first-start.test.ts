import { mkdir, mkdtemp, readdir, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { addJob, findJob } from '../../apps/server/src/store/jobs.ts';
import { openStore } from '../../apps/server/src/store/open-store.ts';
import { tinyJob } from './jobs-client.ts';

const folder = await mkdtemp(join(tmpdir(), 'airledger-'));
afterAll(() => rm(folder, { recursive: true, force: true }));

test('a first start that was cut off is begun again, and what is kept then stays', async () => {
  await mkdir(join(folder, 'database.new'));
  await writeFile(join(folder, 'database.new/PG_VERSION'), '18\n');
  await writeFile(join(folder, 'lock-999999999-1'), '');
  const id = '00000000-0000-4000-8000-000000000001';
  const first = await openStore(folder);
  await addJob(first.db, id, tinyJob(), { who: 'Ada' });
  await first.close();
  expect(await readdir(folder)).toEqual(['database']);
  const second = await openStore(folder);
  expect((await findJob(second.db, id))?.job).toEqual(tinyJob());
  await second.close();
});

test('a store that cannot be opened says so and lets go of its folder', async () => {
  const broken = join(folder, 'broken');
  await mkdir(join(broken, 'database'), { recursive: true });
  await writeFile(join(broken, 'database/PG_VERSION'), '18\n');
  await expect(openStore(broken)).rejects.toThrow();
  expect(await readdir(broken)).toEqual(['database']);
});
