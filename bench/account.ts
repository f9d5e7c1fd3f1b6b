import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromium, type Page } from '@playwright/test';
import { findChromium } from '../scripts/browser.mjs';
import { type Line, limited, plain } from './line.ts';

const edits = 240;
/** Edits before the engine of the browser has compiled what is hot. */
const warmUp = 60;

/**
 * The whole account after one edit, as the page's own worker takes it: loads, air, heat, ledger, rooms of both design
 * days, and the checks. A handle of the first demo house is moved step by step in Chromium; the worker times itself.
 */
export async function account(): Promise<Line[]> {
  return withPage(async (page) => {
    const slider = page.getByRole('slider', { name: 'Slack' });
    await slider.waitFor();
    await slider.focus();
    const times: number[] = [];
    for (let i = 0; i < edits; i++) {
      const before = await took(page);
      // Ten steps down, ten up: every press changes the value.
      await page.keyboard.press(Math.floor(i / 10) % 2 === 0 ? 'ArrowLeft' : 'ArrowRight');
      await page.waitForFunction(
        (last) => document.querySelector('[data-took-ms]')?.getAttribute('data-took-ms') !== last,
        before,
        { timeout: 5000 },
      );
      times.push(Number(await took(page)));
    }
    const counted = times.slice(warmUp).sort((a, b) => a - b);
    return [
      plain('account, both design days and checks, median', counted[Math.floor(counted.length / 2)]!, 'ms'),
      limited(
        'account, both design days and checks, p95',
        counted[Math.floor(0.95 * counted.length)]!,
        'ms',
        'most',
        16,
      ),
    ];
  });
}

const took = (page: Page) => page.locator('[data-took-ms]').getAttribute('data-took-ms');

/** Runs a task on the page of the built program, served from a store of its own. */
async function withPage<T>(task: (page: Page) => Promise<T>): Promise<T> {
  const data = mkdtempSync(join(tmpdir(), 'airledger-bench-'));
  const port = String(21_000 + (process.pid % 20_000));
  const root = fileURLToPath(new URL('..', import.meta.url));
  const server = spawn('node', ['scripts/start.mjs'], {
    cwd: root,
    env: { ...process.env, PORT: port, CI: '1', AIRLEDGER_DATA: data },
    stdio: 'ignore',
    detached: true,
  });
  const browser = await chromium.launch({
    executablePath: findChromium() ?? '',
    args: [
      ...(process.getuid?.() === 0 ? ['--no-sandbox'] : []),
      '--disable-gpu',
      '--disable-background-networking',
    ],
  });
  try {
    const address = `http://127.0.0.1:${port}/`;
    for (let tries = 0; ; tries++) {
      const up = await fetch(`${address}api/demos`).then(
        (answer) => answer.ok,
        () => false,
      );
      if (up) break;
      if (tries > 300) throw new Error('the server did not answer within a minute');
      await new Promise((resume) => setTimeout(resume, 200));
    }
    const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
    await page.goto(address);
    return await task(page);
  } finally {
    await browser.close();
    process.kill(-server.pid!);
    rmSync(data, { recursive: true, force: true });
  }
}
