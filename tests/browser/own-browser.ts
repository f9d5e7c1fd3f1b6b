import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium, type LaunchOptions, type Page } from '@playwright/test';

/** A browser with a profile of its own, that can be killed and started again on it. */
export type OwnBrowser = {
  readonly start: () => Promise<Page>;
  /** Ends it without a chance to write anything down, as a flat battery would. */
  readonly kill: () => Promise<void>;
  readonly remove: () => Promise<void>;
};

/** Where a browser that was just started says that it can be reached. */
const addressOf = (browser: ChildProcess): Promise<string> =>
  new Promise((resolve, reject) => {
    let said = '';
    browser.once('exit', () => reject(new Error(`The browser does not start: ${said}`)));
    browser.stderr!.on('data', (words) => {
      said += words;
      const address = /DevTools listening on (ws:\S+)/.exec(said)?.[1];
      if (address) resolve(address);
    });
  });

export const ownBrowser = async ({ executablePath, args = [] }: LaunchOptions): Promise<OwnBrowser> => {
  const profile = await mkdtemp(join(tmpdir(), 'airledger-profile-'));
  let running: ChildProcess | undefined;
  const kill = async () => {
    if (!running || running.exitCode !== null || running.signalCode !== null) return;
    const ended = new Promise((resolve) => running?.once('exit', resolve));
    running.kill('SIGKILL');
    await ended;
  };
  return {
    start: async () => {
      running = spawn(
        executablePath!,
        [
          ...args,
          '--headless',
          '--remote-debugging-port=0',
          `--user-data-dir=${profile}`,
          '--window-size=1180,820',
          '--disable-dev-shm-usage',
          'about:blank',
        ],
        { stdio: ['ignore', 'ignore', 'pipe'] },
      );
      const browser = await chromium.connectOverCDP(await addressOf(running));
      const context = browser.contexts()[0]!;
      return context.pages()[0] ?? (await context.newPage());
    },
    kill,
    remove: async () => {
      await kill();
      // Its helpers may still be writing for a moment.
      await rm(profile, { recursive: true, force: true, maxRetries: 20, retryDelay: 100 });
    },
  };
};
