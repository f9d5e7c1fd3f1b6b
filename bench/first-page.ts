import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium, type Page } from '@playwright/test';
import { type Line, limited, plain } from './line.ts';
import { browserOptions, served } from './served.ts';

const MOST_MS = 1500;
const RUNS = 9;

/**
 * Runs in the page from its first moment: clicks another room as soon as the house is solved and drawn, and notes the
 * time since navigation at which the card of that room is painted. As text: a function would carry names of the
 * loader that the page does not have.
 */
const watch = `{
  let clicked;
  const look = () => {
    const solved = document.querySelector('[data-took-ms]');
    const [, room] = document.querySelectorAll('.plan [data-spot^="room/"]');
    if (solved && room && clicked === undefined) {
      window.solved_ms = performance.now();
      clicked = room.getAttribute('aria-label').split(/[:,]/)[0];
      room.dispatchEvent(new MouseEvent('click', { bubbles: true }));
    }
    const card = document.querySelector('.room-card h2');
    if (clicked !== undefined && card && card.textContent === clicked) window.usable_ms = performance.now();
    else requestAnimationFrame(look);
  };
  requestAnimationFrame(look);
}`;

/** A browser that was started just now is busy with itself for about this long, ms. */
const SETTLES_MS = 2000;

/**
 * Time from navigation to a house that is solved, drawn and answers a click, in a browser that has never been there, ms.
 * @param rest time that the browser has stood open before, ms
 */
const firstVisit = async (
  url: string,
  rest: number,
): Promise<{ readonly solved: number; readonly usable: number }> => {
  const profile = mkdtempSync(join(tmpdir(), 'airledger-profile-'));
  const browser = await chromium.launchPersistentContext(profile, {
    ...browserOptions,
    viewport: { width: 1440, height: 900 },
  });
  try {
    const page: Page = browser.pages()[0] ?? (await browser.newPage());
    await page.addInitScript(watch);
    await page.waitForTimeout(rest);
    await page.goto(url);
    await page.waitForFunction('window.usable_ms !== undefined');
    return {
      solved: await page.evaluate<number>('window.solved_ms'),
      usable: await page.evaluate<number>('window.usable_ms'),
    };
  } finally {
    await browser.close();
    rmSync(profile, { recursive: true, force: true, maxRetries: 20, retryDelay: 100 });
  }
};

const share = (of: readonly number[], part: number): number => {
  const sorted = of.toSorted((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(part * sorted.length))]!;
};

/**
 * How long the first visit takes until the demo house is solved and answers; each run with a fresh profile. The limit
 * is for a browser that stands open, as a person's does; one that is still starting is told beside it.
 */
export async function firstPage(): Promise<Line[]> {
  const { url, end } = await served();
  try {
    // The server, not the browser, may be warm.
    await firstVisit(url, 0);
    const open: { readonly solved: number; readonly usable: number }[] = [];
    const starting: number[] = [];
    for (let run = 0; run < RUNS; run++) {
      open.push(await firstVisit(url, SETTLES_MS));
      starting.push((await firstVisit(url, 0)).usable);
    }
    const usable = open.map((visit) => visit.usable);
    const solved = open.map((visit) => visit.solved);
    return [
      plain('first page solved median', share(solved, 0.5), 'ms'),
      plain('first page usable median', share(usable, 0.5), 'ms'),
      limited('first page usable p95', share(usable, 0.95), 'ms', 'most', MOST_MS),
      plain('first page usable median, browser still starting', share(starting, 0.5), 'ms'),
      plain('first page usable p95, browser still starting', share(starting, 0.95), 'ms'),
    ];
  } finally {
    await end();
  }
}
