import { expect, type Page, test } from '@playwright/test';
import { openTable, pasteInto } from './grid.ts';
import { openHouse, showArea } from './open-house.ts';

const openHouseAtTable = async (page: Page, name: string): Promise<void> => {
  await openHouse(page);
  await showArea(page, 'Survey');
  await openTable(page, name);
};

const cell = (page: Page, row: RegExp, column: number) =>
  page.getByRole('row', { name: row }).getByRole('gridcell').nth(column);

test('cells are reached, typed and left by keyboard alone', async ({ page }) => {
  await openHouseAtTable(page, 'Rooms');
  await cell(page, /Bedroom 3/, 0).focus();
  await cell(page, /Bedroom 3/, 0).click();
  for (let i = 0; i < 5; i++) await page.keyboard.press('ArrowRight');
  await page.keyboard.type('9');
  await page.keyboard.press('Enter');
  await expect(cell(page, /Bedroom 3/, 5)).toHaveText('9 ft');
  await page.keyboard.press('ArrowUp');
  await page.keyboard.press('Enter');
  await page.keyboard.press('End');
  await page.keyboard.press('Control+a');
  await page.keyboard.type('8 ft 6 in');
  await page.keyboard.press('Tab');
  await expect(cell(page, /Bedroom 3/, 5)).toHaveText('8 ft 6 in');
  await expect(cell(page, /Bedroom 3/, 6)).toBeFocused();
  await page.keyboard.press('ArrowLeft');
  await page.keyboard.type('tall');
  await page.keyboard.press('Tab');
  await page.keyboard.press('ArrowLeft');
  await expect(cell(page, /Bedroom 3/, 5)).toHaveAttribute('aria-invalid', 'true');
  await expect(page.locator('.grid-note')).toContainText('a length from 5 ft to 40 ft');
  await page.keyboard.press('Control+z');
  await page.keyboard.press('Control+z');
  await expect(page.getByRole('contentinfo')).toContainText('Account closes to better than 1 part in 10');
});

test('rows pasted from a spreadsheet change and add records, with errors by cell', async ({ page }) => {
  await openHouseAtTable(page, 'Rooms');
  await cell(page, /Study/, 0).click();
  await pasteInto(page, 'Name\tFloor area\tHeight\nStudy\t\t9 ft\nDen\t120 ft²\t8 ft\nPantry\tsmall\t8 ft\n');
  await expect(cell(page, /Study/, 5)).toHaveText('9 ft');
  await expect(cell(page, /Den/, 3)).toHaveText('120 ft²');
  const refused = page.locator('.new-row').filter({ hasText: 'Pantry' });
  await expect(refused.getByRole('gridcell').nth(3)).toHaveAttribute('aria-invalid', 'true');
  await refused.getByRole('gridcell').nth(3).click();
  await expect(page.locator('.grid-note')).toContainText('small');
  await page.keyboard.type('40');
  await page.keyboard.press('Enter');
  await expect(
    page
      .getByRole('row', { name: /Choose Pantry/ })
      .getByRole('gridcell')
      .nth(3),
  ).toHaveText('40 ft²');
});

test('all attic runs get R-8 at once, and lose it with one undo', async ({ page }) => {
  await openHouseAtTable(page, 'Ducts');
  await page.getByLabel('Find in ducts').fill('attic run supply');
  await page.getByLabel('Choose all rows').check();
  await page.getByLabel('Property to set').selectOption({ label: 'Insulation' });
  await page.getByLabel('Insulation of the chosen rows').fill('R-8');
  await page.keyboard.press('Enter');
  const insulation = page.locator('.grid tbody tr:not(.new-row) td:nth-child(11)');
  await expect.poll(async () => new Set(await insulation.allTextContents())).toEqual(new Set(['R-8']));
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect.poll(async () => (await insulation.allTextContents()).includes('R-8')).toBe(false);
});

test('a row leads to its details, where the rest of it stands', async ({ page }) => {
  await openHouseAtTable(page, 'Registers');
  await page.getByRole('button', { name: /^Details of Kitchen/ }).click();
  await expect(page.getByRole('region', { name: /^Details: / })).toContainText('Filter behind it');
});
