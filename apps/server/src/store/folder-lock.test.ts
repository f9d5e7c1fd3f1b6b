import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { FolderInUse, lockFolder } from './folder-lock.ts';

const folder = await mkdtemp(join(tmpdir(), 'airledger-lock-'));
afterAll(() => rm(folder, { recursive: true, force: true }));

test('one process at a time has a folder', async () => {
  const unlock = await lockFolder(folder);
  await expect(lockFolder(folder)).rejects.toThrow(new FolderInUse(folder, process.pid));
  await unlock();
  const again = await lockFolder(folder);
  await again();
});

test('the lock of a killed process is taken over, also while the process is still listed', async () => {
  const child = spawn(process.execPath, ['-e', 'setInterval(() => {}, 1000)']);
  await writeFile(join(folder, 'lock'), `${child.pid} `);
  await expect(lockFolder(folder)).rejects.toThrow(`process ${child.pid}`);
  child.kill('SIGKILL');
  await once(child, 'exit');
  const unlock = await lockFolder(folder);
  expect(await readFile(join(folder, 'lock'), 'utf8')).toMatch(new RegExp(`^${process.pid} `));
  await unlock();
});

test.runIf(process.platform === 'linux')(
  'a pid that was given to another process since holds nothing',
  async () => {
    await writeFile(join(folder, 'lock'), `${process.pid} 1`);
    const unlock = await lockFolder(folder);
    await unlock();
  },
);

test('of many that find a dead lock, one gets the folder', async () => {
  for (let round = 0; round < 20; round++) {
    await writeFile(join(folder, 'lock'), '999999999 1');
    const tries = await Promise.allSettled([1, 2, 3, 4].map(() => lockFolder(folder)));
    const got = tries.flatMap((each) => (each.status === 'fulfilled' ? [each.value] : []));
    expect(got).toHaveLength(1);
    await got[0]!();
  }
});
