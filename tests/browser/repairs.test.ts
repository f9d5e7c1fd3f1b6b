import { expect, type Page, test } from '@playwright/test';
import { axeClean } from './axe-clean.ts';
import { openHouse, showArea } from './open-house.ts';

/** Opens the area and plans for one room, which is quickest. */
const plan = async (page: Page, room: string): Promise<void> => {
  await openHouse(page);
  await showArea(page, 'Repairs');
  await page.getByRole('combobox', { name: 'Rooms' }).selectOption({ label: room });
  await page.getByRole('button', { name: 'Plan', exact: true }).click();
  await expect(page.getByRole('progressbar', { name: 'Planning' })).toBeVisible();
};

test('a plan is found, its budget moves along the value curve, and it becomes the as-specified state', async ({
  page,
}) => {
  test.setTimeout(240_000);
  await plan(page, 'Bedroom 3');
  const area = page.getByRole('region', { name: 'Repairs' });
  const work = area.getByRole('table', { name: 'Work, in order' });
  await expect(work).toBeVisible({ timeout: 200_000 });
  const rows = await work.getByRole('row').count();
  expect(rows).toBeGreaterThan(1);

  await test.step('axe finds no fault', () => axeClean(page));

  await test.step('with no money nothing is done, with all of it the plan is back', async () => {
    const budget = area.getByRole('slider', { name: /^Budget/ });
    await budget.focus();
    await budget.press('Home');
    await expect(area.getByText('Nothing is done')).toBeVisible();
    await expect(work).toBeHidden();
    await budget.press('End');
    await expect(work).toBeVisible();
  });

  await test.step('it becomes a state, which can be taken back', async () => {
    await area.getByRole('button', { name: 'Make it the as-specified state' }).click();
    await expect(area.getByText('The plan is the state "As specified" now')).toBeVisible({ timeout: 30_000 });
    // The house is another one now: the plan is of the one before.
    await expect(area.getByRole('button', { name: 'Make it the as-specified state' })).toBeDisabled();
  });
});

test('planning can be stopped, and a repair held out of the next plan', async ({ page }) => {
  await plan(page, 'Laundry');
  await test.step('it goes on, and its question stays, while another area is looked at', async () => {
    await showArea(page, 'Season');
    await showArea(page, 'Repairs');
    await expect(page.getByRole('progressbar', { name: 'Planning' })).toBeVisible();
    await expect(page.getByRole('combobox', { name: 'Rooms' }).locator('option:checked')).toHaveText(
      'Laundry',
    );
  });
  await page.getByRole('button', { name: 'Stop' }).click();
  await expect(page.getByText('Stopped before the end.')).toBeVisible();
  await expect(page.getByRole('progressbar', { name: 'Planning' })).toBeHidden();
});
