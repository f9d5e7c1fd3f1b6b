import { expect, test } from '@playwright/test';
import { board, clickAt } from './drawing-board.ts';
import { card, openHouse, showArea } from './open-house.ts';

test('after a reload the same room, day and units are in hand', async ({ page }) => {
  await openHouse(page);
  await page.getByRole('button', { name: /^Kitchen: / }).focus();
  await page.keyboard.press('Enter');
  await expect(card(page)).toContainText('Kitchen');
  await page.getByRole('radio', { name: 'Heating' }).check();
  await page.getByRole('radio', { name: 'SI', exact: true }).check();
  await page.reload();
  await expect(card(page)).toContainText('Kitchen');
  await expect(card(page)).toContainText('L/s');
  await expect(page.getByRole('radio', { name: 'Heating' })).toBeChecked();
});

test('a part of the page that does not arrive says so, and arrives on another try', async ({ page }) => {
  await openHouse(page);
  const panel = /jobs-panel-[^/]*\.js$/;
  await page.route(panel, (route) => route.abort());
  await page.getByRole('button', { name: 'File' }).click();
  await page.getByRole('button', { name: 'Jobs …' }).click();
  await expect(page.getByRole('alert')).toContainText('did not arrive');
  await expect(card(page)).toBeVisible();
  await page.unroute(panel);
  await page.getByRole('button', { name: 'Try again' }).click();
  await expect(page.getByRole('searchbox', { name: 'Search jobs' })).toBeVisible();
});

test('a transfer grille is drawn in the wall between two rooms, and deleted by key', async ({ page }) => {
  await openHouse(page);
  await showArea(page, 'Draw');
  await expect(board(page)).toBeVisible();
  await page.keyboard.press('j');
  await clickAt(page, [43, 5]);
  const grille = board(page).locator('.opening.transfer');
  await expect(grille).toHaveCount(1);
  await expect(page.getByRole('heading', { name: /transfer/i })).toBeVisible();
  await clickAt(page, [8, 24]);
  await expect(page.locator('.draw-hint')).toContainText('Click on a wall with a room on each side');
  await page.keyboard.press('v');
  await clickAt(page, [43, 5]);
  await page.keyboard.press('Delete');
  await expect(grille).toHaveCount(0);
});

test('a duct that others hang on is deleted, and they join what it joined', async ({ page }) => {
  await openHouse(page);
  await showArea(page, 'Draw');
  await expect(board(page)).toBeVisible();
  await clickAt(page, [38, 16]);
  await expect(board(page).locator('[data-part="trunk-east"].chosen')).toHaveCount(1);
  await page.keyboard.press('Delete');
  const instead = page.getByRole('button', { name: /^Join them to .* instead$/ });
  await expect(instead).toBeFocused();
  await page.keyboard.press('Escape');
  await expect(instead).toHaveCount(0);
  await page.keyboard.press('Delete');
  await instead.click();
  await expect(board(page).locator('[data-part="trunk-east"]')).toHaveCount(0);
  await expect(page.getByRole('contentinfo')).toContainText('Account closes');
});

test('a door gets another id and stays in hand; what is no id says what would do', async ({ page }) => {
  await openHouse(page);
  await page.getByRole('radio', { name: 'Details' }).check();
  const picker = page.getByLabel('Show the details of');
  await picker.selectOption('doors/door-bedroom-3');
  const id = page.getByRole('textbox', { name: 'Id', exact: true });
  await id.fill('East door');
  await id.press('Enter');
  await expect(page.getByRole('alert')).toContainText('east-door');
  await id.fill('east-door');
  await id.press('Enter');
  await expect(picker).toHaveValue('doors/east-door');
});

test('every field says what it may be, and its help says what stands in for it', async ({ page }) => {
  await openHouse(page);
  await showArea(page, 'Survey');
  const height = page.locator('[data-field="house/ceilingHeight"]').first();
  await expect(height).toContainText(/may be \d+\.\d ft to \d+\.\d ft/);
  await height.getByRole('button', { name: /^What is/ }).click();
  await expect(height).toContainText(/Left empty, it counts as 8\.0 ft/);
});

test('the loads say where they are to be looked at twice, and lead to the room', async ({ page }) => {
  await openHouse(page);
  await showArea(page, 'Loads');
  const cautions = page.getByRole('region', { name: 'Look twice at these loads' });
  await expect(cautions).toContainText('The cooling load comes out negative');
  await cautions.getByRole('button', { name: 'Bath' }).click();
  await expect(card(page)).toContainText('Bath');
});
