import { mkdir, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';

/** The folder is in use by another process of this machine. */
export class FolderInUse extends Error {
  constructor(folder: string, pid: number) {
    super(`The jobs in ${folder} are in use by another Airledger, process ${pid}.`);
  }
}

/** When a process began, as Linux counts it, for a pid alone may have been given to another process since; else '0'. */
const startOf = async (pid: number): Promise<string> => {
  const text = await readFile(`/proc/${pid}/stat`, 'utf8').catch(() => '');
  const fields = text.slice(text.lastIndexOf(')') + 2).split(' ');
  // A killed process whose parent has not looked yet is still listed, as Z.
  return fields[0] === 'Z' ? '0' : (fields[19] ?? '0');
};

const isListed = (pid: number): boolean => {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
};

/** A lock is a file that names its process: lock-<pid>-<start>. */
const lockName = /^lock-(\d+)-(\d+)$/;

/** Process that holds a lock; undefined when it is dead, or when the file is no lock. */
const holderOf = async (name: string): Promise<number | undefined> => {
  const [, digits, start] = lockName.exec(name) ?? [];
  const pid = Number(digits);
  return digits !== undefined && isListed(pid) && start === (await startOf(pid)) ? pid : undefined;
};

/** Locks of this process. */
const held = new Set<string>();

/**
 * Takes a folder for this process; the embedded database itself would let two processes write over each other.
 * Every process puts up a lock of its own name first and looks for others then: of two, the later sees the earlier,
 * and nobody ever has to take another's file over. At worst both step back. The lock of a process that died is
 * cleared away. Throws FolderInUse; returns what gives the folder back.
 */
export const lockFolder = async (folder: string): Promise<() => Promise<void>> => {
  await mkdir(folder, { recursive: true });
  const mine = `lock-${process.pid}-${await startOf(process.pid)}`;
  const path = join(folder, mine);
  if (held.has(path)) throw new FolderInUse(folder, process.pid);
  held.add(path);
  const unlock = async (): Promise<void> => {
    await rm(path, { force: true });
    held.delete(path);
  };
  // A file of this name that is there already was left by a dead process of the same pid.
  try {
    await writeFile(path, '');
  } catch (error) {
    held.delete(path);
    throw error;
  }
  for (const name of await readdir(folder)) {
    if (name === mine || !lockName.test(name)) continue;
    const holder = await holderOf(name);
    if (holder !== undefined) {
      await unlock();
      throw new FolderInUse(folder, holder);
    }
    await rm(join(folder, name), { force: true });
  }
  return unlock;
};
