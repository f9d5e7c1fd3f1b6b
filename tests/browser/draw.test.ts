import { expect, type Page, test } from '@playwright/test';
import { axeClean } from './axe-clean.ts';
import { board, clickAt, drag, drawNewHouse, onScreen, typeFigures } from './drawing-board.ts';
import { showArea } from './open-house.ts';

const account = (page: Page) => page.getByRole('region', { name: 'Account' });

const press = async (page: Page, key: string, times = 1) => {
  for (let i = 0; i < times; i++) await page.keyboard.press(key);
};

test('a small house is drawn by mouse, and its account appears', async ({ page }) => {
  await drawNewHouse(page);
  await page.keyboard.press('r');
  await drag(page, [0, 0], [16, 14]);
  await page.locator('.draw-options').getByLabel('Use').selectOption('living');
  await drag(page, [16, 0], [34, 14]);
  await page.locator('.draw-options').getByLabel('Use').selectOption('kitchen');
  await drag(page, [0, 14], [34, 24]);
  await expect(board(page).locator('[data-room]')).toHaveCount(4);
  await page.keyboard.press('v');
  await clickAt(page, [43, 3]);
  await page.keyboard.press('Delete');
  await expect(board(page).locator('[data-room]')).toHaveCount(3);
  await page.keyboard.press('h');

  await page.getByRole('button', { name: /^Zone/ }).click();
  await page.getByRole('button', { name: 'Over the whole storey' }).click();
  await page.getByRole('button', { name: /^Door/ }).click();
  await clickAt(page, [16, 7]);
  await page.getByRole('button', { name: /^Window/ }).click();
  await clickAt(page, [8, 0]);
  await expect(board(page).locator('[data-opening]')).toHaveCount(2);

  await page.getByRole('button', { name: /^Air handler/ }).click();
  await clickAt(page, [6, 18]);
  await page.getByRole('button', { name: /^Trunk/ }).click();
  await clickAt(page, [6, 18]);
  await clickAt(page, [28, 18]);
  await clickAt(page, [28, 18]);
  await expect(board(page).locator('[data-part="supply-trunk"]')).toHaveCount(1);
  await page.getByRole('button', { name: /^Run/ }).click();
  await clickAt(page, [10, 18]);
  await clickAt(page, [10, 8]);
  await clickAt(page, [10, 8]);
  const fittings = page.getByRole('region', { name: /^Fittings of/ });
  await expect(fittings.getByRole('checkbox').first()).toBeChecked();
  await fittings.getByRole('button', { name: 'Confirm fittings' }).click();
  await clickAt(page, [24, 18]);
  await clickAt(page, [24, 6]);
  await clickAt(page, [24, 6]);
  await fittings.getByRole('button', { name: 'Confirm fittings' }).click();
  await page.locator('.draw-options').getByLabel('Side').selectOption('return');
  await clickAt(page, [6, 18]);
  await clickAt(page, [4, 22]);
  await clickAt(page, [4, 22]);
  await expect(board(page).locator('[data-part]')).toHaveCount(4);

  await expect(account(page)).toContainText('closes to better than 1 part in 10');
  await expect(account(page)).toContainText('Air handler');
  await expect(account(page)).toContainText(/Living/);
  await expect(account(page)).toContainText(/Bedroom/);
});

test('the same house is drawn by keyboard alone', async ({ page }) => {
  await drawNewHouse(page);
  await board(page).focus();
  await page.keyboard.press('r');
  await typeFigures(page, '0', '0');
  await typeFigures(page, '16 ft', '14 ft');
  await typeFigures(page, '16', '0');
  await typeFigures(page, '18 ft', '14 ft');
  await typeFigures(page, '0', '14');
  await typeFigures(page, '34', '10');
  await expect(board(page).locator('[data-room]')).toHaveCount(4);

  // The crosshair stands at the corner typed last, 14 ft up the west wall: arrows lead it by half feet, Shift by five.
  await page.keyboard.press('a');
  await press(page, 'Enter');
  await expect(board(page).locator('.air-handler')).toHaveCount(1);
  await page.keyboard.press('t');
  await press(page, 'Enter');
  await press(page, 'Shift+ArrowRight', 2);
  await press(page, 'Enter', 2);
  await expect(board(page).locator('[data-part="supply-trunk"]')).toHaveCount(1);
  await page.keyboard.press('u');
  await press(page, 'Enter');
  await press(page, 'Shift+ArrowRight');
  await press(page, 'ArrowDown', 3);
  await press(page, 'Enter', 2);
  await expect(board(page).locator('[data-part]')).toHaveCount(2);
  await expect(account(page)).toContainText('closes to better than 1 part in 10');
  await press(page, 'Control+z');
  await expect(board(page).locator('[data-part]')).toHaveCount(1);
});

test('rooms are selected, moved by grid steps, copied, deleted and brought back', async ({ page }) => {
  await drawNewHouse(page);
  await page.keyboard.press('r');
  await drag(page, [0, 0], [12, 10]);
  await drag(page, [12, 0], [24, 10]);
  await page.keyboard.press('v');
  await clickAt(page, [5, 5]);
  await expect(board(page).locator('.handle')).toHaveCount(8);
  // The east wall is pulled out by two feet.
  await page.keyboard.press('Control+z');
  await expect(board(page).locator('[data-room]')).toHaveCount(2);
  await clickAt(page, [5, 5]);
  await page.keyboard.press('h');
  await drag(page, [12, 5], [14, 5]);
  await expect(board(page)).toContainText('14 ft × 10 ft');
  await page.keyboard.press('Control+c');
  const { x, y } = await onScreen(page, [7, 20]);
  await page.mouse.move(x, y);
  await page.keyboard.press('Control+v');
  await expect(board(page).locator('[data-room]')).toHaveCount(3);
  await page.keyboard.press('Delete');
  await expect(board(page).locator('[data-room]')).toHaveCount(2);
  await page.keyboard.press('Control+z');
  await expect(board(page).locator('[data-room]')).toHaveCount(3);
  await page.keyboard.press('Control+a');
  await expect(board(page).locator('[data-room].chosen')).toHaveCount(3);
});

test('the drawing has no fault that axe finds', async ({ page }) => {
  test.setTimeout(120_000);
  await page.goto('/');
  await showArea(page, 'Draw');
  await expect(board(page)).toBeVisible();
  for (const tool of [/^Select/, /^Run/, /^Measure/]) {
    await page.getByRole('button', { name: tool }).click();
    await axeClean(page);
  }
});
