import { type Browser, expect, type Page } from '@playwright/test';
import { axeClean } from './axe-clean.ts';
import { kept, open, panel, putBy, rename, solved, test } from './kept-house.ts';

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

/** A page on which one field waits for a decision, as another device had changed it, too. */
const clashing = async (page: Page, browser: Browser, url: string) => {
  await open(page, url);
  await rename(page, 'As found', 'First look');
  await kept(page, 'Saved');
  await putBy(page);
  const other = await (await browser.newContext()).newPage();
  await open(other, url);
  await panel(other, 'Jobs');
  await list(other).getByRole('button', { name: '14 Quail Run Lane', exact: true }).click();
  await expect(other.getByRole('radio', { name: 'First look' })).toBeVisible();
  await page.context().setOffline(true);
  await rename(page, 'First look', 'Mine');
  await kept(page, 'Saved in this browser');
  await rename(other, 'First look', 'Theirs');
  await kept(other, 'Saved');
  await other.context().close();
  await page.context().setOffline(false);
  await expect(page.getByRole('button', { name: /changed in two places: choose$/ })).toBeVisible({
    timeout: 20_000,
  });
};

test('panels of jobs, history, states and clashes are free of faults that axe finds, and are worked by keys', async ({
  page,
  server,
  browser,
}) => {
  /** Tab, until a button of this name has the focus. */
  const tabTo = async (name: RegExp) => {
    for (let i = 0; i < 40; i++) {
      const words = await page.evaluate(
        () => document.activeElement?.getAttribute('aria-label') ?? document.activeElement?.textContent ?? '',
      );
      if (name.test(words)) return;
      await page.keyboard.press('Tab');
    }
    throw new Error(`Tab does not lead to ${name}.`);
  };
  const openByKeys = async (name: string) => {
    const file = page.getByRole('button', { name: 'File', exact: true });
    await file.focus();
    await page.keyboard.press('Enter');
    await tabTo(new RegExp(`^${name} …`));
    await page.keyboard.press('Enter');
    await expect(page.getByRole('dialog')).toBeVisible();
    // The focus goes into the dialog and stays there.
    for (let i = 0; i < 15; i++) {
      expect(
        await page.evaluate(() => {
          const at = document.activeElement;
          // After the last of the dialog the keys lead to the browser's own buttons, and back into it.
          return at === document.body || at?.closest('dialog, [role="dialog"]') !== null;
        }),
      ).toBe(true);
      await page.keyboard.press('Tab');
    }
  };
  const close = async () => {
    await page.keyboard.press('Escape');
    await expect(page.getByRole('dialog')).toHaveCount(0);
  };

  await clashing(page, browser, server.url);
  await openByKeys('Jobs');
  await expect.poll(() => names(page)).toHaveLength(1);
  await axeClean(page, 'dialog');
  await close();
  await openByKeys('Change history');
  await axeClean(page, 'dialog');
  await close();
  await openByKeys('States and their changes');
  await axeClean(page, 'dialog');
  await close();

  await page.getByRole('button', { name: /changed in two places: choose$/ }).focus();
  await page.keyboard.press('Enter');
  await expect(page.getByRole('dialog', { name: 'Changed in two places' })).toBeVisible();
  await axeClean(page, 'dialog');
  await tabTo(/^Theirs/);
  await page.keyboard.press('Enter');
  await expect(page.getByRole('dialog')).toContainText('All is settled');
  await close();
  await expect(page.getByRole('radio', { name: 'Theirs' })).toBeVisible();
  await kept(page, 'Saved');
});
