// Lints, checks types, runs unit and browser tests, and ends with one line of counts over every runner.
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, rmSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { findChromium } from './browser.mjs';

const root = dirname(dirname(fileURLToPath(import.meta.url)));
const folder = join(root, '.cache', 'test');
rmSync(folder, { recursive: true, force: true });
mkdirSync(folder, { recursive: true });
const total = { passed: 0, failed: 0, skipped: 0 };

const run = (command, args, env = {}) =>
  spawnSync(command, args, { cwd: root, stdio: 'inherit', env: { ...process.env, ...env } }).status === 0;
const report = (name) => {
  const path = join(folder, name);
  return existsSync(path) ? JSON.parse(readFileSync(path, 'utf8')) : undefined;
};
/** A runner that ends badly without naming a failed test counts as one failure. */
function count(ok, passed, failed, skipped) {
  total.passed += passed;
  total.failed += ok ? failed : Math.max(failed, 1);
  total.skipped += skipped;
}

count(run('npm', ['run', '--silent', 'lint']), 0, 0, 0);
count(run('npm', ['run', '--silent', 'types']), 0, 0, 0);

const unitOk = run('npx', [
  'vitest',
  'run',
  '--reporter=default',
  '--reporter=json',
  '--outputFile.json=.cache/test/unit.json',
]);
const unit = report('unit.json');
count(
  unitOk && unit !== undefined,
  unit?.numPassedTests ?? 0,
  unit?.numFailedTests ?? 0,
  (unit?.numPendingTests ?? 0) + (unit?.numTodoTests ?? 0),
);

if (!process.env.SKIP_BROWSER) {
  const browserOk = run('npx', ['playwright', 'test', '--reporter=list,json'], {
    PLAYWRIGHT_JSON_OUTPUT_FILE: join(folder, 'browser.json'),
    CHROMIUM_PATH: findChromium() ?? '',
  });
  const stats = report('browser.json')?.stats;
  count(
    browserOk && stats !== undefined,
    (stats?.expected ?? 0) + (stats?.flaky ?? 0),
    stats?.unexpected ?? 0,
    stats?.skipped ?? 0,
  );
}

if (total.passed === 0) total.failed = Math.max(total.failed, 1);
console.log(
  `${total.passed} passed, ${total.failed} failed${total.skipped > 0 ? `, ${total.skipped} skipped` : ''}`,
);
process.exit(total.failed === 0 ? 0 : 1);
