import { expect, type Page } from '@playwright/test';
import { kept, open, panel, rename, solved, test } from './kept-house.ts';

test.describe.configure({ timeout: 120_000 });

const list = (page: Page, name = 'Jobs') => page.getByRole('list', { name, exact: true });
const names = (page: Page, of?: string) => list(page, of).locator('li .link-button').allTextContents();

test('jobs are copied, found by their words, put out of the way and brought back', async ({
  page,
  server,
}) => {
  await open(page, server.url);
  await rename(page, 'As found', 'First look');
  await kept(page, 'Saved');
  await panel(page, 'Jobs');
  await page.getByRole('button', { name: 'Duplicate 14 Quail Run Lane' }).click();
  await expect(page.getByRole('dialog')).toHaveCount(0);
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('14 Quail Run Lane (copy)');
  await solved(page);
  await expect(page.getByRole('radio', { name: 'First look' })).toBeVisible();
  // The copy is a house of its own.
  await rename(page, 'First look', 'Second look');
  await kept(page, 'Saved');

  await panel(page, 'Jobs');
  await expect.poll(() => names(page)).toEqual(['14 Quail Run Lane (copy)', '14 Quail Run Lane']);
  const search = page.getByRole('searchbox', { name: 'Search jobs' });
  await search.fill('farrow copy');
  await expect.poll(() => names(page)).toEqual(['14 Quail Run Lane (copy)']);
  await search.fill('no such house');
  await expect(page.getByRole('dialog')).toContainText('No job holds these words.');
  await search.fill('');
  await page.getByRole('button', { name: 'Archive 14 Quail Run Lane (copy)' }).click();
  await expect.poll(() => names(page)).toEqual(['14 Quail Run Lane']);
  await page.getByRole('checkbox', { name: 'Archived' }).check();
  await expect.poll(() => names(page, 'Archived jobs')).toEqual(['14 Quail Run Lane (copy)']);
  // The server knows it, too: another device does not list it.
  await expect
    .poll(async () =>
      (await (await fetch(`${server.url}/api/jobs`)).json()).jobs.map(({ name }: { name: string }) => name),
    )
    .toEqual(['14 Quail Run Lane']);
  await page.getByRole('button', { name: 'Bring back 14 Quail Run Lane (copy)' }).click();
  await expect.poll(() => names(page, 'Archived jobs')).toEqual([]);
  await page.getByRole('checkbox', { name: 'Archived' }).uncheck();
  await list(page).getByRole('button', { name: '14 Quail Run Lane', exact: true }).click();
  await expect(page.getByRole('dialog')).toHaveCount(0);
  await expect(page.getByRole('radio', { name: 'First look' })).toBeVisible();
});
