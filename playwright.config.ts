import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { defineConfig } from '@playwright/test';

// The workers of the runner read this file too and must agree on the port, so the environment carries it.
process.env.AIRLEDGER_TEST_PORT ??= String(20_000 + (process.pid % 20_000));
const port = Number(process.env.AIRLEDGER_TEST_PORT);
const isRoot = process.getuid?.() === 0;

export default defineConfig({
  testDir: 'tests/browser',
  globalSetup: './tests/browser/build-server.ts',
  outputDir: '.cache/browser',
  timeout: 60_000,
  expect: { timeout: 15_000 },
  fullyParallel: true,
  workers: 2,
  // A browser that starves on a shared machine gets one more try there; the report still names it as flaky.
  retries: process.env.CI ? 1 : 0,
  use: {
    baseURL: `http://127.0.0.1:${port}`,
    viewport: { width: 1440, height: 900 },
    launchOptions: {
      executablePath: process.env.CHROMIUM_PATH || '/usr/bin/chromium',
      // Without the last four the browser keeps trying to reach the network.
      args: [
        ...(isRoot || process.env.CI ? ['--no-sandbox'] : []),
        '--disable-gpu',
        '--no-first-run',
        '--disable-quic',
        '--disable-background-networking',
        '--disable-component-update',
        '--disable-sync',
      ],
    },
  },
  webServer: {
    command: 'node scripts/start.mjs',
    url: `http://127.0.0.1:${port}/api/demos`,
    env: { PORT: String(port), CI: '1', AIRLEDGER_DATA: join(tmpdir(), `airledger-test-${port}`) },
    timeout: 120_000,
  },
});
