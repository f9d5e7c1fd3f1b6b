import { expect, type Page, test } from '@playwright/test';
import { axeClean } from './axe-clean.ts';
import { openHouse, showArea } from './open-house.ts';

const openBalance = async (page: Page) => {
  await openHouse(page);
  await page.getByRole('radio', { name: 'As specified' }).check();
  await showArea(page, 'Balance');
  const area = page.getByRole('region', { name: 'Balance' });
  await expect(area.getByRole('table', { name: /Dampers/ })).toBeVisible({ timeout: 20_000 });
  return area;
};

test('dampers for one season bring every room the same share, and are set in the state with one click', async ({
  page,
}) => {
  const area = await openBalance(page);
  await expect(area.getByRole('region', { name: /Field sheet/ })).toBeVisible({ timeout: 20_000 });
  await test.step('axe finds no fault', () => axeClean(page));
  await area.getByRole('radio', { name: 'Cooling' }).check();
  await area.getByRole('checkbox', { name: 'As if every run had a damper' }).check();
  // Least and greatest share are written to whole per cent: as good as the same.
  await expect
    .poll(
      async () => {
        const said = await area.getByText(/of their air as set/).textContent();
        const [, least, most] = /get (\d+) % to (\d+) % of their air as set/.exec(said ?? '') ?? [];
        return Number(most) - Number(least);
      },
      { timeout: 20_000 },
    )
    .toBeLessThanOrEqual(2);
  await expect(area.getByRole('region', { name: /Field sheet/ })).toBeVisible({ timeout: 20_000 });
  await area.getByRole('button', { name: /Set these dampers/ }).click();
  await expect(area.getByText(/dampers set in “As specified”/)).toBeVisible();
  await expect(area.getByText('They stand as they should.')).toBeVisible({ timeout: 20_000 });
  await page.keyboard.press('Control+z');
  await expect(area.getByRole('button', { name: /Set these dampers/ })).toBeEnabled({ timeout: 20_000 });
});
