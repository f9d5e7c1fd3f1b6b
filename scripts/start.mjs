// Builds the page when it is missing or older than what it is made of, then serves it.
import { spawn, spawnSync } from 'node:child_process';
import { existsSync, readdirSync, statSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = dirname(dirname(fileURLToPath(import.meta.url)));
const sources = [
  'apps/web/src',
  'apps/web/index.html',
  'apps/web/vite.config.ts',
  'packages/engine/src',
  'packages/engine/data',
  'packages/job/src',
  'packages/report/src',
  'package-lock.json',
];

const newest = (path) => {
  if (!existsSync(path)) return 0;
  const info = statSync(path);
  if (!info.isDirectory()) return info.mtimeMs;
  return Math.max(info.mtimeMs, ...readdirSync(path).map((name) => newest(join(path, name))));
};

const built = newest(join(root, 'apps/web/dist/index.html'));
if (built === 0 || sources.some((path) => newest(join(root, path)) > built)) {
  console.log('Building the page ...');
  const vite = join(root, 'node_modules/vite/bin/vite.js');
  const { status } = spawnSync(process.execPath, [vite, 'build', '--logLevel', 'warn'], {
    cwd: join(root, 'apps/web'),
    stdio: 'inherit',
  });
  if (status !== 0) process.exit(status ?? 1);
}

const server = spawn(
  process.execPath,
  ['--import', 'tsx', 'apps/server/src/main.ts', ...process.argv.slice(2)],
  { cwd: root, stdio: 'inherit' },
);
for (const signal of ['SIGINT', 'SIGTERM']) process.on(signal, () => server.kill(signal));
server.on('exit', (code) => process.exit(code ?? 0));
