// Builds the page when it is missing or older than what it is made of.
import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync, statSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = dirname(dirname(fileURLToPath(import.meta.url)));
const sources = [
  'apps/web/src',
  'apps/web/public',
  'apps/web/index.html',
  'apps/web/vite.config.ts',
  'packages/engine/src',
  'packages/engine/data',
  'packages/job/src',
  'packages/job/data',
  'packages/report/src',
  'package-lock.json',
];

const newest = (path) => {
  if (!existsSync(path)) return 0;
  const info = statSync(path);
  if (!info.isDirectory()) return info.mtimeMs;
  return Math.max(info.mtimeMs, ...readdirSync(path).map((name) => newest(join(path, name))));
};

/** What the builder prints goes to stderr: stdout is the caller's. @throws Error when the page cannot be built. */
export function buildPage() {
  const built = newest(join(root, 'apps/web/dist/index.html'));
  if (built > 0 && sources.every((path) => newest(join(root, path)) <= built)) return;
  console.error('Building the page ...');
  const vite = join(root, 'node_modules/vite/bin/vite.js');
  const { status } = spawnSync(process.execPath, [vite, 'build', '--logLevel', 'warn'], {
    cwd: join(root, 'apps/web'),
    // The page is the same whoever builds it: a test would get the larger and slower one for development.
    env: { ...process.env, NODE_ENV: 'production' },
    stdio: ['ignore', 2, 2],
  });
  if (status !== 0) throw new Error('The page could not be built.');
}
