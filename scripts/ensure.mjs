// Installs what is missing before `npm start` and `npm test`: packages, and a browser for the browser tests.
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { findChromium } from './browser.mjs';

const root = dirname(dirname(fileURLToPath(import.meta.url)));
const fail = (message) => {
  console.error(`\n${message}\n`);
  process.exit(1);
};
const run = (command, args, timeout = 600_000) =>
  spawnSync(command, args, { cwd: root, stdio: 'inherit', timeout, shell: process.platform === 'win32' })
    .status === 0;

const [major, minor] = process.versions.node.split('.').map(Number);
if (major < 20 || (major === 20 && minor < 19))
  fail(`Node.js 20.19 or newer is needed; this is ${process.version}.`);

// The stamp holds what was installed, so that a second start does no work.
const stamp = join(root, 'node_modules', '.install-hash');
const wanted = createHash('sha256')
  .update(readFileSync(join(root, 'package-lock.json')))
  .update(`${major}${process.platform}${process.arch}`)
  .digest('hex');
if (!existsSync(stamp) || readFileSync(stamp, 'utf8') !== wanted) {
  console.log('Installing packages (npm ci), once …');
  if (!run('npm', ['ci', '--include=dev', '--no-audit', '--no-fund']))
    fail('npm ci failed (see above). Check the network or the npm settings, then run the command again.');
  mkdirSync(dirname(stamp), { recursive: true });
  writeFileSync(stamp, wanted);
}

if (process.argv.includes('--browser') && !process.env.SKIP_BROWSER) {
  let browser = findChromium();
  if (!browser && process.env.CHROMIUM_PATH)
    fail(`CHROMIUM_PATH=${process.env.CHROMIUM_PATH} is not an executable file.`);
  const installFromDebian = () =>
    run('apt-get', ['install', '-y', '-qq', '--no-install-recommends', 'chromium'], 300_000);
  if (!browser && process.platform === 'linux' && process.getuid?.() === 0) {
    console.log("Installing Debian's chromium for the browser tests, once …");
    if (!installFromDebian() && run('apt-get', ['update', '-qq'], 120_000)) installFromDebian();
    browser = findChromium();
  }
  if (!browser)
    fail(
      'No Chromium-family browser was found for the browser tests.\nInstall one (Debian or Ubuntu: apt-get install chromium), or set CHROMIUM_PATH to one,\nor set SKIP_BROWSER=1 to run the other tests only.',
    );
}
