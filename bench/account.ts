import { chromium, type Page } from '@playwright/test';
import { type Line, limited, plain } from './line.ts';
import { browserOptions, served } from './served.ts';

const edits = 240;
/** Edits before the engine of the browser has compiled what is hot. */
const warmUp = 60;

/**
 * The whole account after one edit, as the page's own worker takes it: loads, air, heat, ledger, rooms and checks of
 * the design day in view, and then the same of both days. A handle of the first demo house is moved step by step in
 * Chromium; the worker times itself.
 */
export async function account(): Promise<Line[]> {
  return withPage(async (page) => {
    const slider = page.getByRole('slider', { name: 'Slack' });
    await slider.waitFor();
    await slider.focus();
    const inView: number[] = [];
    const whole: number[] = [];
    for (let i = 0; i < edits; i++) {
      const { edit } = await solved(page);
      // Ten steps down, ten up: every press changes the value.
      await page.keyboard.press(Math.floor(i / 10) % 2 === 0 ? 'ArrowLeft' : 'ArrowRight');
      await page.waitForSelector(`[data-edit="${Number(edit) + 1}"][data-whole-ms]`, {
        state: 'attached',
        timeout: 5000,
      });
      const { tookMs, wholeMs } = await solved(page);
      inView.push(Number(tookMs));
      whole.push(Number(wholeMs));
    }
    const share = (times: readonly number[], part: number) => {
      const counted = times.slice(warmUp).sort((a, b) => a - b);
      return counted[Math.floor(part * counted.length)]!;
    };
    return [
      plain('account of the day in view and its checks, median', share(inView, 0.5), 'ms'),
      limited('account of the day in view and its checks, p95', share(inView, 0.95), 'ms', 'most', 16),
      plain('account of both days and all checks, median', share(whole, 0.5), 'ms'),
      plain('account of both days and all checks, p95', share(whole, 0.95), 'ms'),
    ];
  });
}

/** Which edit the page shows, and what the worker took for it. */
const solved = (page: Page) =>
  page.locator('[data-edit]').evaluate((element) => ({ ...(element as HTMLElement).dataset }));

/** Runs a task on the page of the built program, served from a store of its own. */
async function withPage<T>(task: (page: Page) => Promise<T>): Promise<T> {
  const { url, end } = await served();
  const browser = await chromium.launch(browserOptions);
  try {
    const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
    await page.goto(url);
    return await task(page);
  } finally {
    await browser.close();
    await end();
  }
}
