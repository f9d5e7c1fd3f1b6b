import { existsSync } from 'node:fs';
import { rename, rm } from 'node:fs/promises';
import { homedir } from 'node:os';
import { join } from 'node:path';
import { Kysely } from 'kysely';
import { databaseDialect } from './database-dialect.ts';
import { lockFolder } from './folder-lock.ts';
import { migrateTables } from './migrations.ts';
import { openDatabase } from './open-database.ts';
import type { Tables } from './tables.ts';

export type Store = { readonly db: Kysely<Tables>; readonly close: () => Promise<void> };

/** Where jobs are kept: AIRLEDGER_DATA, or .airledger in the home folder. */
export const dataFolder = (env: NodeJS.ProcessEnv = process.env): string =>
  env.AIRLEDGER_DATA || join(homedir(), '.airledger');

/** Opens the jobs kept in a folder, made when absent. Throws FolderInUse while another process has it open. */
export const openStore = async (folder: string): Promise<Store> => {
  const unlock = await lockFolder(folder);
  try {
    const path = join(folder, 'database');
    if (!existsSync(path)) await makeDatabase(path);
    const db = new Kysely<Tables>({ dialect: databaseDialect(await openDatabase(path)) });
    await migrateTables(db);
    return {
      db,
      close: async () => {
        await db.destroy();
        await unlock();
      },
    };
  } catch (error) {
    await unlock();
    throw error;
  }
};

/** Makes an empty database aside and moves it into place whole: half of one could never be opened. */
const makeDatabase = async (path: string): Promise<void> => {
  const aside = `${path}.new`;
  await rm(aside, { recursive: true, force: true });
  await (await openDatabase(aside)).close();
  await rename(aside, path);
};
