import { expect } from '@playwright/test';
import { board, drag } from './drawing-board.ts';
import { choose, gets, kept, open, putBy, rename, solved, test } from './kept-house.ts';
import { card, openHouse, showArea } from './open-house.ts';
import { tinyPdf } from './tiny-pdf.ts';

test.describe.configure({ timeout: 120_000 });
test.use({ actionTimeout: 15_000 });

test('the page can be installed', async ({ page, baseURL }) => {
  await openHouse(page);
  await putBy(page);
  const address = await page.locator('link[rel="manifest"]').getAttribute('href');
  const manifest = await (await fetch(new URL(address!, baseURL))).json();
  expect(manifest).toMatchObject({ name: 'Airledger', display: 'standalone', start_url: '/' });
  for (const { src, sizes, type } of manifest.icons) {
    const icon = await fetch(new URL(src, baseURL));
    expect(icon.headers.get('content-type')).toBe(type);
    const bytes = Buffer.from(await icon.arrayBuffer());
    // Width and height stand in the head of a PNG.
    expect(`${bytes.readUInt32BE(16)}x${bytes.readUInt32BE(20)}`).toBe(sizes);
  }
  const session = await page.context().newCDPSession(page);
  const { installabilityErrors } = await session.send('Page.getInstallabilityErrors');
  expect(installabilityErrors.filter(({ errorId }) => errorId !== 'in-incognito')).toEqual([]);
});

test('without a network the page opens, draws, lays a plan, solves, makes a new house and keeps all of it', async ({
  page,
  server,
}) => {
  await open(page, server.url);
  await putBy(page);
  await rename(page, 'As found', 'First look');
  await kept(page, 'Saved');
  await server.kill();
  await page.context().setOffline(true);
  await page.reload();
  await solved(page);
  await choose(page, 'Main bedroom');
  const before = await gets(page);

  await showArea(page, 'Draw');
  await expect(board(page)).toBeVisible();
  const rooms = await board(page).locator('[data-room]').count();
  await board(page).focus();
  for (let i = 0; i < 2; i++) await page.keyboard.press('-');
  await page.keyboard.press('r');
  await drag(page, [55, 0], [66, 12]);
  await expect(board(page).locator('[data-room]')).toHaveCount(rooms + 1);
  await page.getByRole('button', { name: /^Measure/ }).click();
  await page.getByLabel('Picture or PDF of the plan').setInputFiles(tinyPdf());
  await expect(board(page).locator('image')).toHaveCount(1, { timeout: 30_000 });
  await kept(page, 'Saved in this browser');
  await page.reload();
  await solved(page);
  await showArea(page, 'Draw');
  await expect(board(page).locator('[data-room]')).toHaveCount(rooms + 1);
  await expect(board(page).locator('image')).toHaveCount(1);
  await showArea(page, 'Air');
  await choose(page, 'Main bedroom');
  expect(Math.abs((await gets(page)) - before)).toBeLessThan(10);

  await page.getByRole('button', { name: 'File', exact: true }).click();
  await page.getByRole('button', { name: 'New house …' }).click();
  await page.getByRole('dialog', { name: 'New house' }).getByLabel('Name').fill('Made without a network');
  await page.getByRole('button', { name: 'Build the house' }).click();
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Made without a network');
  await expect(card(page)).toBeVisible();
  await solved(page);
  await kept(page, 'Saved in this browser');

  await server.start();
  await page.context().setOffline(false);
  await kept(page, 'Saved');
  await expect
    .poll(
      async () =>
        (await (await fetch(`${server.url}/api/jobs`)).json()).jobs
          .map(({ name }: { name: string }) => name)
          .sort(),
      { timeout: 20_000 },
    )
    .toEqual(['14 Quail Run Lane', 'Made without a network']);
});
