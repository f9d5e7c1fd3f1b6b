import AxeBuilder from '@axe-core/playwright';
import { expect, type Page, test } from '@playwright/test';
import { openHouse } from './open-house.ts';

const openTests = async (page: Page): Promise<void> => {
  await openHouse(page);
  await page.getByRole('navigation', { name: 'Work areas' }).getByRole('button', { name: 'Tests' }).click();
  await expect(page.getByRole('region', { name: 'Tests' })).toBeVisible();
};

const sheet = async (page: Page, name: RegExp): Promise<void> => {
  await page.getByRole('navigation', { name: 'Reading sheets' }).getByRole('button', { name }).click();
};

test('shot', async ({ page }) => {
  await openTests(page);
  await page.screenshot({ path: '/tmp/shot1.png' });
  await sheet(page, /Pressure pan/);
  await page.getByRole('textbox', { name: 'Register kitchen' }).fill('80');
  await page.getByRole('textbox', { name: 'Register kitchen' }).press('Enter');
  await page.screenshot({ path: '/tmp/shot2.png' });
  await page.getByRole('radio', { name: 'Leakage results' }).check();
  await page.screenshot({ path: '/tmp/shot3.png' });
  await page.getByRole('radio', { name: 'Where the air goes' }).check();
  await expect(page.getByText(/ranges hold 90/)).toBeVisible({ timeout: 60_000 });
  await page.screenshot({ path: '/tmp/shot4.png' });
});
