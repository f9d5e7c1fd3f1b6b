import { existsSync } from 'node:fs';
import { cp, mkdir, mkdtemp, rename, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import server from '../../apps/server/package.json' with { type: 'json' };
import { openStore } from '../../apps/server/src/store/open-store.ts';

const cache = fileURLToPath(new URL('../../.cache/', import.meta.url));
const template = join(cache, `empty-store-${server.dependencies['@electric-sql/pglite']}`);

/** A folder with an empty store: a copy, as making one takes seconds of computing. */
export const freshData = async (): Promise<string> => {
  const folder = await mkdtemp(join(tmpdir(), 'airledger-'));
  if (!existsSync(template)) await makeTemplate();
  await cp(template, folder, { recursive: true });
  return folder;
};

const makeTemplate = async (): Promise<void> => {
  await mkdir(cache, { recursive: true });
  const made = await mkdtemp(join(cache, 'store-'));
  await (await openStore(made)).close();
  // Another test file may have been quicker.
  await rename(made, template).catch(() => rm(made, { recursive: true, force: true }));
};
