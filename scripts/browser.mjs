// Finds a Chromium-family browser; Node built-ins only, so it runs before anything is installed.
import { accessSync, constants, existsSync, readdirSync } from 'node:fs';
import { homedir } from 'node:os';
import { delimiter, join } from 'node:path';

const runnable = (path) => {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
};

const namesOnPath = [
  'chromium',
  'chromium-browser',
  'google-chrome-stable',
  'google-chrome',
  'microsoft-edge',
];
const macApps = ['Google Chrome', 'Chromium', 'Microsoft Edge'].map(
  (name) => `/Applications/${name}.app/Contents/MacOS/${name}`,
);

function downloadedByPlaywright(env) {
  const cache = env.PLAYWRIGHT_BROWSERS_PATH ?? join(homedir(), '.cache/ms-playwright');
  if (!existsSync(cache)) return [];
  const folders = readdirSync(cache)
    .filter((name) => name.startsWith('chromium'))
    .sort()
    .reverse();
  return folders.flatMap((folder) =>
    readdirSync(join(cache, folder)).flatMap((sub) =>
      ['chrome', 'headless_shell'].map((file) => join(cache, folder, sub, file)),
    ),
  );
}

/** Path of a browser that can be run, or undefined; CHROMIUM_PATH wins when it is set. */
export function findChromium(env = process.env) {
  if (env.CHROMIUM_PATH) return runnable(env.CHROMIUM_PATH) ? env.CHROMIUM_PATH : undefined;
  const onPath = (env.PATH ?? '')
    .split(delimiter)
    .flatMap((folder) => namesOnPath.map((name) => join(folder, name)));
  return [...onPath, ...macApps, ...downloadedByPlaywright(env)].find(runnable);
}
