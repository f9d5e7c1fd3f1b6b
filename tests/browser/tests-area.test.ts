import { expect, type Page, test } from '@playwright/test';
import { axeClean } from './axe-clean.ts';
import { openHouse, showArea } from './open-house.ts';

const openTests = async (page: Page): Promise<void> => {
  await openHouse(page);
  await showArea(page, 'Tests');
  await expect(page.getByRole('region', { name: 'Tests', exact: true })).toBeVisible();
};

const sheet = (page: Page, name: RegExp) =>
  page.getByRole('navigation', { name: 'Reading sheets' }).getByRole('button', { name });

/** "8 (5 to 33) cfm" as the width of its range. */
const width = (text: string): number => {
  const [, low, high] = /\(([\d.]+) to ([\d.]+)\)/.exec(text) ?? [];
  return Number(high) - Number(low);
};

test('a slip is doubted beside its field as it is typed, is kept, and goes when it is put right', async ({
  page,
}) => {
  test.setTimeout(120_000);
  await openTests(page);
  await sheet(page, /Pressure pan/).click();
  const kitchen = page.getByRole('textbox', { name: 'Register kitchen' });
  await kitchen.fill('80');
  await kitchen.press('Enter');
  await expect(kitchen).toHaveValue('80 Pa');
  const line = page.getByRole('listitem').filter({ has: kitchen });
  await expect(line.getByRole('status')).toContainText(/impossible: 80\.0 Pa; expected 0\.0 Pa to 50\.0 Pa/);
  await expect(sheet(page, /Pressure pan/)).toContainText('7 read, 1 to look at');
  await kitchen.fill('much');
  await kitchen.press('Enter');
  await expect(line.getByRole('alert')).toContainText('The last good value stands');
  await kitchen.press('Escape');
  await kitchen.fill('5.2 Pa');
  await kitchen.press('Enter');
  await expect(line.getByRole('status')).toHaveCount(0);
  await sheet(page, /Plenum static/).click();
  const supply = page.getByRole('textbox', { name: 'Supply plenum' });
  await supply.fill('-0.08 in.wc');
  await supply.press('Enter');
  await expect(page.getByRole('listitem').filter({ has: supply })).toContainText('hoses may be swapped');
  for (let i = 0; i < 3; i++) await page.getByRole('button', { name: 'Undo' }).click();
  await expect(supply).toHaveValue('0.078 in.wc');
  await sheet(page, /Fan flow/).click();
  await page.getByRole('button', { name: 'More of Heat pump' }).click();
  await page.getByRole('button', { name: 'Take this reading away' }).click();
  await page.getByRole('button', { name: 'By temperature rise' }).click();
  const rise = [
    [/^Heat output/, '34 kBtu/h'],
    ['Supply air', '108 °F'],
    ['Return air', '70 °F'],
  ] as const;
  for (const [name, value] of rise) {
    await expect(page.getByText(/blank: is left blank; expected the/)).toBeVisible();
    await page.getByRole('textbox', { name }).fill(value);
    await page.getByRole('textbox', { name }).press('Enter');
  }
  await expect(page.getByText(/^8\d\d cfm ± 16 % by temperature rise/)).toBeVisible();
});

test('procedures come with their cautions, details by keyboard, targets for thumbs in field mode', async ({
  page,
}) => {
  await openTests(page);
  await page.getByText('How to: leakage to outdoors').press('Enter');
  await expect(page.getByRole('list', { name: 'Before you measure' })).toContainText('Burners first');
  await page.getByRole('button', { name: 'More of To outdoors' }).press('Enter');
  await expect(page.getByText(/It counts as: .*house at \+25\.0 Pa to outdoors/)).toBeVisible();
  await page.evaluate(() => document.documentElement.classList.add('field'));
  const heights = await page
    .getByRole('region', { name: 'Tests', exact: true })
    .locator('.sheet-line-row input, .sheet-line-row button, .sheet-kinds button, .segmented label')
    .evaluateAll((all) => all.map((one) => one.getBoundingClientRect().height));
  expect(heights.length).toBeGreaterThan(10);
  expect(Math.min(...heights)).toBeGreaterThanOrEqual(44);
});

test('results say whether code and project limits are met, and how surely', async ({ page }) => {
  await openTests(page);
  await page.getByRole('radio', { name: 'Leakage results' }).check();
  const results = page.getByRole('region', { name: /^Leakage of/ });
  await expect(results.getByRole('listitem').filter({ hasText: 'IECC 2018' })).toContainText(
    /Fail.*all but sure/,
  );
  await expect(results.getByRole('listitem').filter({ hasText: 'supply side' })).toContainText(
    /at most 26 cfm \(2\.0 % of fan flow/,
  );
  await expect(results.getByRole('row', { name: /^Total, as found/ })).toContainText('0.57');
});

test('findings name the slipped hose and the reading to take next, which narrows their ranges', async ({
  page,
}) => {
  test.setTimeout(240_000);
  await openTests(page);
  await page.getByRole('radio', { name: 'Where the air goes' }).check();
  const done = page.getByText(/ranges hold 90 %/);
  await expect(done).toContainText('By 26 readings', { timeout: 100_000 });
  await expect(page.getByRole('region', { name: 'Doubted readings' })).toContainText(
    'Is the static pressure in the return plenum of Heat pump right?',
  );
  const next = page.getByRole('region', { name: 'What to read next' });
  await next.getByLabel('To know').selectOption({ label: 'what Bedroom 3 gets' });
  await expect(next.getByRole('listitem').first()).toContainText(
    /flow of register bedroom 3 2 min.*takes \d+ % of the doubt away/,
    { timeout: 60_000 },
  );
  const bedroom = page.getByRole('table', { name: /^Runs/ }).getByRole('row', { name: /^Bedroom 3/ });
  const air = bedroom.getByRole('cell').nth(3);
  const before = width((await air.textContent())!);
  await axeClean(page, 'main');
  await page.getByRole('radio', { name: 'Sheets' }).check();
  await sheet(page, /Register flow/).click();
  const hood = page.getByRole('textbox', { name: 'Register bedroom 3' });
  await hood.fill('85');
  await hood.press('Enter');
  await page.getByRole('radio', { name: 'Where the air goes' }).check();
  await expect(done).toContainText('By 27 readings', { timeout: 100_000 });
  await expect(air).toContainText('was');
  expect(width((await air.textContent())!)).toBeLessThan(0.8 * before);
});

test('work can be stopped, and what was typed stays', async ({ page }) => {
  await openTests(page);
  await page.getByRole('radio', { name: 'Where the air goes' }).check();
  await page.getByRole('button', { name: 'Stop' }).click({ timeout: 30_000 });
  await expect(page.getByText('Stopped before the end.')).toBeVisible();
});

test('a gauge’s log is taken in, its faulty rows told by number', async ({ page }) => {
  await openTests(page);
  await sheet(page, /Take in a log/).click();
  await page
    .getByLabel('Rows', { exact: true })
    .fill('Register,Flow (cfm)\nregister-study,41\nregister-attic,50');
  await page.getByRole('button', { name: 'Take in 2 rows' }).click();
  const outcome = page.getByRole('region', { name: 'Take in a log' }).getByRole('status');
  await expect(outcome).toContainText('1 readings taken in, 1 faults');
  await expect(outcome).toContainText('Row 3: ');
});

test('sheets and results have no fault that axe finds', async ({ page }) => {
  test.setTimeout(120_000);
  await openTests(page);
  await page.getByText('How to: total duct leakage').click();
  await page.getByRole('button', { name: 'More of Total' }).click();
  await axeClean(page, 'main');
  await sheet(page, /Take in a log/).click();
  await page.getByLabel('Rows', { exact: true }).fill('Register,Flow (cfm)\nregister-study,41');
  await axeClean(page, 'main');
  await page.getByRole('radio', { name: 'Leakage results' }).check();
  await axeClean(page, 'main');
});
