import { gzipSync } from 'node:zlib';
import { type APIRequestContext, expect, test } from '@playwright/test';
import { openHouse } from './open-house.ts';

/** The first script with what it imports at once, kB after gzip; the engine's worker and the panels load beside it. */
const first_kB = 350;
/** Every script that has come when the first house stands, workers included, each counted once, kB after gzip. */
const all_kB = 350;

const size_kB = async (request: APIRequestContext, urls: Iterable<string>): Promise<number> => {
  const sizes = await Promise.all(
    [...urls].map(async (url) => gzipSync(await (await request.get(url)).body()).length / 1000),
  );
  return sizes.reduce((sum, size) => sum + size, 0);
};

test('the page stays small', async ({ page, request }) => {
  const html = await (await request.get('/')).text();
  const first = [...html.matchAll(/(?:src|href)="([^"]+\.js)"/g)].map((match) => match[1]!);
  expect(first.length).toBeGreaterThan(0);
  expect(await size_kB(request, first)).toBeLessThan(first_kB);
  // Looked at the moment the house stands: ranges and reasons are fetched next, which a slow machine must not count.
  await page.addInitScript(() => {
    new MutationObserver((_, observer) => {
      if (!document.querySelector('[data-took-ms]')) return;
      observer.disconnect();
      const come = performance.getEntriesByType('resource').map(({ name }) => new URL(name).pathname);
      document.documentElement.dataset.come = JSON.stringify(come.filter((path) => /\.m?js$/.test(path)));
    }).observe(document, { subtree: true, childList: true, attributes: true });
  });
  await openHouse(page);
  const come: string[] = JSON.parse((await page.locator('html').getAttribute('data-come')) ?? '[]');
  const loaded = new Set([...first, ...come]);
  // The engine's worker is among them, or nothing was counted.
  expect([...loaded].filter((path) => path.includes('worker-')).length).toBeGreaterThan(0);
  expect(await size_kB(request, loaded)).toBeLessThan(all_kB);
});

test.describe('on a tablet', () => {
  test.use({ viewport: { width: 1180, height: 820 }, hasTouch: true });

  test('plan and room stand beside each other and the account slides up', async ({ page }) => {
    await openHouse(page);
    const account = page.getByRole('button', { name: 'Account', exact: true });
    await expect(account).toHaveAttribute('aria-expanded', 'false');
    await account.tap();
    await expect(page.getByRole('img', { name: /To rooms/ })).toBeVisible();
    const overflow = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
    expect(overflow).toBeLessThanOrEqual(0);
  });

  test('controls are at least 44 px high', async ({ page }) => {
    await openHouse(page);
    const small = await page.evaluate(() =>
      [
        ...document.querySelectorAll(
          '.segmented label, .rail button, .zoom-buttons button, input[type="range"], .round, .header .plain-button',
        ),
      ]
        .map((element) => ({
          name: element.textContent || element.className.toString(),
          height: element.getBoundingClientRect().height,
        }))
        .filter(({ height }) => height > 0 && height < 44),
    );
    expect(small).toEqual([]);
  });
});
