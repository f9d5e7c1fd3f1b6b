import { expect, test } from '@playwright/test';
import { card, figure, numberIn, openHouse, toLowEnd } from './open-house.ts';

test('the house opens on the room that lacks most, with its reasons', async ({ page }) => {
  await openHouse(page);
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('14 Quail Run Lane');
  await expect(card(page)).toContainText('Bedroom 3');
  await expect(card(page)).toContainText(/short \d+ cfm/);
  const why = page.getByRole('region', { name: 'Why it is short' });
  await expect(why).toContainText(/adds up to \d+/);
  const needs = await numberIn(figure(page, 'Needs'));
  const gets = await numberIn(figure(page, 'Gets'));
  expect(gets).toBeLessThan(needs);
  const total = Number((await why.textContent())!.match(/adds up to (\d+)/)![1]);
  expect(Math.abs(total - (needs - gets))).toBeLessThanOrEqual(1);
  await why.getByRole('radio', { name: /^(Heat|Cooling)$/ }).check();
  await expect(why).toContainText(/Bedroom 3 is [\d,]+ Btu\/h short of (heat|cooling), chiefly because of /);
  await why.getByRole('radio', { name: 'Between rooms' }).check();
  await expect(why).toContainText(/Bedroom 3 \d+ %: a gap of \d+ % of need/);
});

test('a room is chosen on the plan and a run by its ribbon', async ({ page }) => {
  await openHouse(page);
  await page.getByRole('button', { name: /^Study: / }).click({ position: { x: 8, y: 8 } });
  await expect(card(page)).toContainText('Study');
  await page.getByRole('button', { name: /^East trunk, supply trunk/ }).click();
  await expect(page.getByRole('radio', { name: 'East trunk' })).toBeChecked();
});

test('a tighter takeoff brings the room more air while the handle moves, and can be undone', async ({
  page,
}) => {
  await openHouse(page);
  const before = await numberIn(figure(page, 'Gets'));
  const room = page.getByRole('button', { name: /^Bedroom 3: / });
  const planBefore = await room.getAttribute('aria-label');
  await toLowEnd(page.getByRole('slider', { name: 'Leak at takeoff' }));
  await expect.poll(() => numberIn(figure(page, 'Gets'))).toBeGreaterThan(before + 5);
  await expect(room).not.toHaveAttribute('aria-label', planBefore!);
  await expect(page.getByRole('contentinfo')).toContainText('One value tried, not saved');
  await page.keyboard.press('Control+z');
  await expect.poll(() => numberIn(figure(page, 'Gets'))).toBe(before);
  await page.keyboard.press('Control+y');
  await expect.poll(() => numberIn(figure(page, 'Gets'))).toBeGreaterThan(before + 5);
});

test('dragging a handle ends at its last place with one step of history', async ({ page }) => {
  await openHouse(page);
  // The causes above push the slider down when they are in.
  await expect(card(page).getByText('cfm, adds up to')).toBeVisible();
  const slider = page.getByRole('slider', { name: 'Slack' });
  await slider.scrollIntoViewIfNeeded();
  const before = await numberIn(figure(page, 'Gets'));
  const box = (await slider.boundingBox())!;
  const y = box.y + box.height / 2;
  await page.mouse.move(box.x + box.width * 0.45, y);
  await page.mouse.down();
  for (let i = 1; i <= 20; i++) await page.mouse.move(box.x + box.width * (0.45 + 0.02 * i), y);
  await page.mouse.up();
  await expect.poll(() => numberIn(figure(page, 'Gets'))).toBeLessThan(before);
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect.poll(() => numberIn(figure(page, 'Gets'))).toBe(before);
  await expect(page.getByRole('button', { name: 'Undo' })).toHaveCount(0);
});

test('an open door lets the pressure out of the room', async ({ page }) => {
  await openHouse(page);
  const pressure = figure(page, 'Pressure over the next room');
  const before = await numberIn(pressure);
  await page.getByRole('radio', { name: 'Doors', exact: true }).check();
  await card(page).getByRole('radio', { name: 'Open', exact: true }).check();
  await expect.poll(() => numberIn(pressure)).toBeLessThan(before / 2);
});

test('a typed value is taken in any unit, and nonsense is refused in words', async ({ page }) => {
  await openHouse(page);
  const field = page.getByRole('textbox', { name: 'Leak at takeoff, value' });
  await field.fill('2 L/s');
  await field.press('Enter');
  await expect(field).toHaveValue('4 cfm');
  await field.fill('much');
  await field.press('Enter');
  await expect(card(page).getByRole('alert')).toContainText('is not taken');
  await expect(field).toHaveAttribute('aria-invalid', 'true');
  await expect(page.locator('body')).not.toContainText('NaN');
  await field.press('Escape');
  await expect(field).toHaveValue('4 cfm');
});

test('ranges come once they are worked out', async ({ page }) => {
  await openHouse(page);
  await expect(figure(page, 'Gets')).toContainText(/\d+ cfm \(\d+–\d+\)/, { timeout: 30_000 });
});

test('a figure says where it comes from', async ({ page }) => {
  await openHouse(page);
  await figure(page, 'Gets').getByRole('button').click();
  const answer = page.getByRole('dialog', { name: /^Where from/ });
  await expect(answer).toContainText('slack');
  await expect(answer).toContainText('Source:');
  await page.keyboard.press('Escape');
  await expect(answer).toHaveCount(0);
  await expect(figure(page, 'Gets').getByRole('button')).toBeFocused();
});

test('the account is a drawing or a table, of air, heat or moisture', async ({ page }) => {
  await openHouse(page);
  const account = page.getByRole('region', { name: 'Account', exact: true });
  await expect(account.getByRole('img')).toHaveAttribute('aria-label', /To rooms: .*Bedroom 3 \d+ cfm/);
  await account.getByRole('radio', { name: 'Table' }).check();
  await expect(account.getByRole('row', { name: /From the air handler .* 100 %/ })).toBeVisible();
  await account.getByRole('radio', { name: 'Heat' }).check();
  await expect(account.getByRole('columnheader', { name: 'Btu/h' })).toBeVisible();
  await expect(account.getByRole('row', { name: /Lost: duct walls/ })).toBeVisible();
});

test('two states stand beside each other with what changes', async ({ page }) => {
  await openHouse(page);
  await page.getByRole('radio', { name: 'Side by side' }).check();
  await expect(page.getByRole('region', { name: 'Plan As found' })).toBeVisible();
  await expect(page.getByRole('region', { name: 'Plan As specified' })).toBeVisible();
  await expect(page.getByRole('row', { name: /^Bedroom 3 .*short .*\+\d+/ })).toBeVisible();
});

test('units change every figure and nothing else', async ({ page }) => {
  await openHouse(page);
  const ip = await numberIn(figure(page, 'Needs'));
  await page.getByRole('radio', { name: 'SI', exact: true }).check();
  await expect(figure(page, 'Needs')).toContainText('L/s');
  expect(Math.abs((await numberIn(figure(page, 'Needs'))) - ip * 0.4719474)).toBeLessThan(1);
  await expect(figure(page, 'On the design day')).toContainText('°C');
  await expect(page.locator('body')).not.toContainText(/\d (cfm|Btu\/h|°F)/);
  await page.getByRole('radio', { name: 'IP', exact: true }).check();
  await expect(figure(page, 'Needs')).toContainText('cfm');
  expect(await numberIn(figure(page, 'Needs'))).toBe(ip);
});

test('the demo houses all open', async ({ page, request }) => {
  const { demos } = (await (await request.get('/api/demos')).json()) as { demos: { name: string }[] };
  expect(demos.length).toBeGreaterThan(0);
  await openHouse(page);
  for (const i of demos.keys()) {
    await page.getByRole('button', { name: 'File' }).click();
    await page.locator('.menu-list .menu-part ~ button').nth(i).click();
    await expect(page.getByRole('dialog')).toHaveCount(0);
    await expect(page.getByRole('contentinfo')).toContainText('Account closes to better than 1 part in 10');
    await expect(page.locator('body')).not.toContainText('NaN');
  }
});

test('the handover opens in a page of its own', async ({ page }) => {
  await openHouse(page);
  await page.getByRole('button', { name: 'File' }).click();
  const opened = page.waitForEvent('popup');
  await page.getByRole('button', { name: 'Handover to print' }).click();
  const handover = await opened;
  await expect(handover).toHaveTitle(/14 Quail Run Lane: handover/);
  await expect(handover.locator('body')).toContainText('Bedroom 3');
});
