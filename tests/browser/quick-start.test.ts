import { expect, test } from '@playwright/test';
import { axeClean } from './axe-clean.ts';
import { openTable, pasteInto } from './grid.ts';
import { card, figure, numberIn, showArea } from './open-house.ts';

test.beforeEach(async ({ page }) => {
  // Without demo houses the page begins empty, as on a new machine.
  await page.route('**/api/demos', (route) => route.fulfill({ json: { demos: [] } }));
  await page.goto('/');
});

test('the first useful answer stands within 60 seconds of the first click', async ({ page }) => {
  const button = page.getByRole('button', { name: 'New house …' });
  await expect(button).toBeVisible();
  const began = Date.now();
  await button.click();
  const form = page.getByRole('dialog', { name: 'New house' });
  await axeClean(page);
  await form.getByLabel('Floor area').fill('1800');
  await form.getByLabel('Year built').fill('1978');
  await form.getByLabel('Rooms besides halls').fill('9');
  await form.getByLabel('Climate station').selectOption('houston');
  await form.getByLabel('Ducts').selectOption('attic');
  await form.getByLabel('Equipment').selectOption('heat pump');
  await page.keyboard.press('Enter');
  await expect(card(page)).toBeVisible({ timeout: 60_000 });
  expect(await numberIn(figure(page, 'Gets'))).toBeGreaterThan(0);
  expect(Date.now() - began).toBeLessThan(60_000);
  await expect(page.getByRole('contentinfo')).toContainText('Account closes to better than 1 part in 10');
  await showArea(page, 'Survey');
  await page.getByRole('radio', { name: 'Known', exact: true }).check();
  await expect(page.getByRole('radio', { name: 'Measured 0' })).toBeVisible();
});

test('a form that gives no house says what would do', async ({ page }) => {
  await page.getByRole('button', { name: 'New house …' }).click();
  const form = page.getByRole('dialog', { name: 'New house' });
  await form.getByLabel('Floor area').fill('large');
  await form.getByRole('button', { name: 'Build the house' }).click();
  await expect(form.getByRole('alert')).toContainText('write it like "1500 ft²"');
  await form.getByLabel('Floor area').fill('600');
  await form.getByLabel('Rooms besides halls').fill('18');
  await form.getByRole('button', { name: 'Build the house' }).click();
  await expect(form.getByRole('alert')).toContainText('take fewer rooms or more floor');
  await expect(page.locator('body')).not.toContainText('NaN');
});

test('a house is typed in tables from its first room to its first run', async ({ page }) => {
  await page.getByRole('button', { name: 'New house …' }).click();
  await page.getByRole('button', { name: 'Begin with one room, fill in tables' }).click();
  await expect(page.getByRole('region', { name: 'Survey' })).toBeVisible();
  await openTable(page, 'Rooms');
  await pasteInto(page, 'Name\tUse\tFloor area\tHeight\nBedroom\tbedroom\t140\t8\nKitchen\tkitchen\t160\t8');
  await expect(page.getByRole('row', { name: /Choose Kitchen/ })).toBeVisible();
  await openTable(page, 'Surfaces');
  await pasteInto(
    page,
    'Room or zone\tKind\tOn the other side\tArea\tFacing\nBedroom\twall\toutdoors\t96\tsouth\nKitchen\twall\toutdoors\t110\twest',
  );
  await expect(page.getByRole('row', { name: /Choose Kitchen/ })).toBeVisible();
  // There is no table before there is a system.
  await page.getByRole('radio', { name: 'Ducts', exact: true }).check();
  await page.getByRole('button', { name: 'Begin a system with its plenums' }).click();
  await pasteInto(
    page,
    'Name\tSection\tLength\tMaterial\tFittings\tRegister in\tRegister face\nRun to bedroom\t7 in\t18\tflex\tboot, straight\tBedroom\t10 in x 6 in\nRun to kitchen\t8 in\t12\tflex\telbow 90° flex, kinked; boot, straight\tKitchen\t12 in x 6 in',
  );
  await expect(page.getByRole('row', { name: /Choose Run to kitchen/ })).toBeVisible();
  await page.getByRole('button', { name: 'Details of Run to kitchen' }).click();
  await expect(page.getByRole('region', { name: 'Details: Run to kitchen' })).toContainText('boot, straight');
  await expect(page.getByRole('contentinfo')).toContainText('Account closes to better than 1 part in 10');
  await expect(page.locator('body')).not.toContainText('NaN');
});
