import { mkdir, readFile, rename, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';

/** The folder is in use by another process of this machine. */
export class FolderInUse extends Error {
  readonly pid: number;
  constructor(folder: string, pid: number) {
    super(`The jobs in ${folder} are in use by another Airledger, process ${pid}.`);
    this.pid = pid;
  }
}

/** When a process began, as Linux counts it: a pid alone may have been given to another process since. */
const startOf = async (pid: number): Promise<string | undefined> => {
  const text = await readFile(`/proc/${pid}/stat`, 'utf8').catch(() => '');
  const fields = text.slice(text.lastIndexOf(')') + 2).split(' ');
  // A killed process whose parent has not looked yet is still listed, as Z.
  return fields[0] === 'Z' ? undefined : fields[19];
};

const isAlive = (pid: number): boolean => {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
};

const isHeld = async (mark: string): Promise<boolean> => {
  const [pid, start] = mark.split(' ');
  if (!isAlive(Number(pid))) return false;
  return start === '' || start === undefined || start === (await startOf(Number(pid)));
};

/**
 * Takes a folder for this process; the embedded database itself would let two processes write over each other.
 * The lock of a process that died is taken over. Throws FolderInUse; returns what gives the folder back.
 */
export const lockFolder = async (folder: string): Promise<() => Promise<void>> => {
  await mkdir(folder, { recursive: true });
  const path = join(folder, 'lock');
  const mine = `${process.pid} ${(await startOf(process.pid)) ?? ''}`;
  for (;;) {
    try {
      await writeFile(path, mine, { flag: 'wx' });
      return () => rm(path, { force: true });
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error;
    }
    const theirs = await readFile(path, 'utf8').catch(() => undefined);
    if (theirs === undefined) continue;
    if (await isHeld(theirs)) throw new FolderInUse(folder, Number.parseInt(theirs, 10));
    await moveAway(path, theirs);
  }
};

/** Takes a dead lock away; when another process has put its own there in the meantime, that one is put back. */
const moveAway = async (path: string, dead: string): Promise<void> => {
  const aside = `${path}.${process.pid}`;
  try {
    await rename(path, aside);
  } catch {
    return;
  }
  const moved = await readFile(aside, 'utf8');
  if (moved !== dead) await writeFile(path, moved, { flag: 'wx' });
  await rm(aside, { force: true });
};
