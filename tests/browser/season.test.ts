import { expect, type Page, test } from '@playwright/test';
import { axeClean } from './axe-clean.ts';
import { openHouse, showArea } from './open-house.ts';

const showSeason = async (page: Page) => {
  await openHouse(page);
  await showArea(page, 'Season');
  return page.getByRole('region', { name: 'Season' });
};

test('a year says what the house costs, by month and by room, and follows the state in view', async ({
  page,
}) => {
  const area = await showSeason(page);
  await expect(area.getByText('A year costs')).toBeVisible({ timeout: 30_000 });
  const cost = area.locator('dl div').filter({ hasText: 'A year costs' }).locator('dd');
  const asFound = await cost.textContent();
  expect(asFound).toMatch(/^\$[\d,]+$/);
  await expect(area.getByRole('img', { name: /Cost by month/ })).toBeVisible();
  await expect(area.getByRole('table', { name: /Months/ }).getByRole('row')).toHaveCount(13);
  await expect(area.getByRole('table', { name: /Hours further/ })).toContainText('Bedroom 3');
  await test.step('axe finds no fault', () => axeClean(page, '.season-area'));
  await page.getByRole('radio', { name: 'As specified' }).first().check();
  await expect(cost).not.toHaveText(asFound!, { timeout: 30_000 });
});

test('a file that is no weather file is refused in words', async ({ page }) => {
  await showSeason(page);
  await page
    .getByLabel('Weather of a TMY3 file')
    .setInputFiles({ name: 'notes.csv', mimeType: 'text/csv', buffer: Buffer.from('hello\nthere') });
  await expect(page.getByRole('alert')).toContainText('The year can not be run');
});
