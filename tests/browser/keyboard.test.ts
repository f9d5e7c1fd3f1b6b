import { expect, test } from '@playwright/test';
import { card, figure, numberIn, openHouse } from './open-house.ts';

test('from search to a repair tried, by keyboard alone', async ({ page }) => {
  await openHouse(page);
  await page.keyboard.press('/');
  await expect(page.getByRole('combobox')).toBeFocused();
  await page.keyboard.type('main bed');
  await expect(page.getByRole('option').first()).toContainText('Main bedroom');
  await page.keyboard.press('Enter');
  await expect(card(page)).toContainText('Main bedroom');

  await page.keyboard.press('/');
  await page.keyboard.type('heating');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('radio', { name: 'Heating' })).toBeChecked();

  const slider = page.getByRole('slider', { name: 'Leak at takeoff' });
  const before = await numberIn(figure(page, 'Gets'));
  for (let i = 0; i < 80; i++) {
    if (await slider.evaluate((element) => element === document.activeElement)) break;
    await page.keyboard.press('Tab');
  }
  await expect(slider).toBeFocused();
  await page.keyboard.press('End');
  await expect.poll(() => numberIn(figure(page, 'Gets'))).toBeLessThan(before);
});

test('arrow keys lead over the plan, enter chooses, plus and nought zoom', async ({ page }) => {
  await openHouse(page);
  const room = page.getByRole('button', { name: /^Bedroom 3: / });
  await room.focus();
  const focused = () => page.evaluate(() => document.activeElement?.getAttribute('data-spot'));
  await page.keyboard.press('ArrowLeft');
  const next = await focused();
  expect(next).not.toBe('room/bedroom-3');
  expect(next).toMatch(/^(room|part)\//);
  for (let i = 0; i < 12 && !(await focused())!.startsWith('room/'); i++)
    await page.keyboard.press('ArrowLeft');
  const reached = page.locator(`[data-spot="${await focused()}"]`);
  await page.keyboard.press('Enter');
  await expect(reached).toHaveAttribute('aria-pressed', 'true');
  const drawing = page.locator('.plan svg > g');
  await page.keyboard.press('+');
  await expect(drawing).toHaveAttribute('transform', /scale\(1\.[1-9]/);
  await page.keyboard.press('0');
  await expect(drawing).toHaveAttribute('transform', /scale\(1\)/);
});

test('the plan is one stop of the Tab key', async ({ page }) => {
  await openHouse(page);
  await expect(page.locator('.plan [data-spot][tabindex="0"]')).toHaveCount(1);
});
