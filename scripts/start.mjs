// Builds the page where it must, then serves it.
import { spawn } from 'node:child_process';
import { dirname } from 'node:path';
import { fileURLToPath } from 'node:url';
import { buildPage } from './build-page.mjs';

const root = dirname(dirname(fileURLToPath(import.meta.url)));
try {
  buildPage();
} catch (error) {
  console.error(error.message);
  process.exit(1);
}

const server = spawn(
  process.execPath,
  ['--import', 'tsx', 'apps/server/src/main.ts', ...process.argv.slice(2)],
  { cwd: root, stdio: 'inherit' },
);
for (const signal of ['SIGINT', 'SIGTERM']) process.on(signal, () => server.kill(signal));
server.on('exit', (code) => process.exit(code ?? 0));
