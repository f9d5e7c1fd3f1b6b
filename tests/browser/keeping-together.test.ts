import { type Browser, expect, type Page } from '@playwright/test';
import {
  choose,
  gets,
  kept,
  open,
  panel,
  putBy,
  rename,
  serverJob,
  solved,
  test,
  tighten,
} from './kept-house.ts';

/** Another device on the same job, found in the list. */
const join = async (browser: Browser, url: string): Promise<Page> => {
  const page = await (await browser.newContext()).newPage();
  await open(page, url);
  await panel(page, 'Jobs');
  await page
    .getByRole('list', { name: 'Jobs' })
    .getByRole('button', { name: /^14 Quail Run Lane$/ })
    .click();
  await expect(page.getByRole('dialog')).toHaveCount(0);
  await solved(page);
  return page;
};

const stateName = (page: Page, name: string) => page.getByRole('radio', { name, exact: true });

test('two devices that edit different fields both keep their work', async ({ page, server, browser }) => {
  await open(page, server.url);
  const before = await gets(page);
  await rename(page, 'As found', 'First look');
  await kept(page, 'Saved');
  const other = await join(browser, server.url);
  await putBy(page);
  await page.context().setOffline(true);
  await tighten(page);
  await kept(page, 'Saved in this browser');
  await rename(other, 'As specified', 'Planned');
  await kept(other, 'Saved');
  await page.context().setOffline(false);
  await kept(page, 'Saved');
  await expect(stateName(page, 'Planned')).toBeVisible();
  await choose(other, 'Bedroom 3');
  await expect.poll(() => gets(other), { timeout: 20_000 }).toBeGreaterThan(before + 5);
  expect(await gets(page)).toBe(await gets(other));
  await panel(page, 'Change history');
  await expect(page.getByRole('dialog')).toContainText('State renamed: Planned');
  await other.context().close();
});

test('where both changed one field, each value is shown, one is chosen and both stay in the history', async ({
  page,
  server,
  browser,
}) => {
  await open(page, server.url);
  await rename(page, 'As found', 'First look');
  await kept(page, 'Saved');
  const other = await join(browser, server.url);
  await putBy(other);
  await other.context().setOffline(true);
  await rename(other, 'First look', 'As measured');
  await kept(other, 'Saved in this browser');
  await rename(page, 'First look', 'As it was');
  await kept(page, 'Saved');
  await other.context().setOffline(false);
  await other.getByRole('button', { name: 'One field changed in two places: choose' }).click();
  // Nothing overwrites the other's value before someone has decided.
  expect((await serverJob(server.url)).states[0].name).toBe('As it was');
  const clash = other.getByRole('dialog', { name: 'Changed in two places' });
  await expect(clash.getByRole('button', { name: /^Mine .*As measured$/ })).toBeVisible();
  await clash.getByRole('button', { name: /^Theirs .*As it was$/ }).click();
  await expect(clash).toContainText('All is settled');
  await other.keyboard.press('Escape');
  await expect(stateName(other, 'As it was')).toBeVisible();
  await kept(other, 'Saved');
  await panel(other, 'Change history');
  await expect(other.getByRole('dialog')).toContainText('State renamed: As measured');
  await expect(other.getByRole('dialog')).toContainText('State renamed: As it was');
  expect((await serverJob(server.url)).states[0].name).toBe('As it was');
  await other.context().close();
});

test('two tabs of one browser show each other what they change', async ({ page, server, context }) => {
  await open(page, server.url);
  await rename(page, 'As found', 'First look');
  await kept(page, 'Saved');
  const tab = await context.newPage();
  await open(tab, server.url);
  await expect(stateName(tab, 'First look')).toBeVisible();
  await rename(tab, 'As specified', 'Planned');
  await expect(stateName(page, 'Planned')).toBeVisible();
  const before = await gets(page);
  await tighten(page);
  await choose(tab, 'Bedroom 3');
  await expect.poll(() => gets(tab)).toBeGreaterThan(before + 5);
  await kept(page, 'Saved');
  await kept(tab, 'Saved');
  const job = await serverJob(server.url);
  expect(job.states.map(({ name }: { name: string }) => name)).toEqual(['First look', 'Planned']);
});
