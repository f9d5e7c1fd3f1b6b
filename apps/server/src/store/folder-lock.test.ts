import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { FolderInUse, lockFolder } from './folder-lock.ts';

const folder = await mkdtemp(join(tmpdir(), 'airledger-lock-'));
afterAll(() => rm(folder, { recursive: true, force: true }));
const module = new URL('./folder-lock.ts', import.meta.url).href;

/** Runs a script in a process of its own, with `lockFolder` and `folder` at hand. */
const run = (script: string): ChildProcess =>
  spawn(process.execPath, ['--import', 'tsx', '--input-type=module', '-e', script], {
    env: { ...process.env, FOLDER: folder, MODULE: module },
    stdio: ['ignore', 'pipe', 'inherit'],
  });
const head = 'const { lockFolder } = await import(process.env.MODULE); const folder = process.env.FOLDER;';

test('one holder at a time has a folder', async () => {
  const unlock = await lockFolder(folder);
  await expect(lockFolder(folder)).rejects.toThrow(new FolderInUse(folder, process.pid));
  await unlock();
  await (await lockFolder(folder))();
  expect(await readdir(folder)).toEqual([]);
});

test('a folder is free again once the process that had it was killed', async () => {
  const child = run(`${head} await lockFolder(folder); console.log('held'); setInterval(() => {}, 1000);`);
  await once(child.stdout!, 'data');
  await expect(lockFolder(folder)).rejects.toThrow(`process ${child.pid}`);
  child.kill('SIGKILL');
  await once(child, 'exit');
  await (await lockFolder(folder))();
  expect(await readdir(folder)).toEqual([]);
});

test.runIf(process.platform === 'linux')(
  'a pid that was given to another process since holds nothing',
  async () => {
    await writeFile(join(folder, `lock-${process.pid}-1`), '');
    await (await lockFolder(folder))();
  },
);

test('of processes that keep trying, never two have the folder', async () => {
  const log = join(folder, 'log');
  const script = `${head}
    import { appendFileSync } from 'node:fs';
    const write = (word) => appendFileSync(${JSON.stringify(log)}, word + ' ' + process.pid + '\\n');
    for (let had = 0; had < 40; ) {
      const unlock = await lockFolder(folder).catch(() => undefined);
      await new Promise((done) => setTimeout(done, Math.random() * 4));
      if (unlock === undefined) continue;
      had++;
      write('has');
      await new Promise((done) => setTimeout(done, 1));
      write('gives');
      await unlock();
    }`;
  const children = [run(script), run(script), run(script)];
  await Promise.all(children.map((child) => once(child, 'exit')));
  const lines = (await readFile(log, 'utf8')).trim().split('\n');
  expect(lines).toHaveLength(3 * 40 * 2);
  for (let i = 0; i < lines.length; i += 2)
    expect([lines[i], lines[i + 1]]).toEqual([lines[i], lines[i]!.replace('has', 'gives')]);
  await rm(log);
});
