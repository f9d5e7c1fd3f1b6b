import { expect, type Page, test } from '@playwright/test';
import { axeClean } from './axe-clean.ts';
import { figure, numberIn, openHouse, showArea } from './open-house.ts';

/** A small picture, as a camera would give one. */
const photo = async (page: Page) => {
  const data = await page.evaluate(() => {
    const canvas = Object.assign(document.createElement('canvas'), { width: 8, height: 6 });
    canvas.getContext('2d')!.fillRect(0, 0, 8, 6);
    return canvas.toDataURL('image/png').split(',')[1]!;
  });
  return { name: 'boot.png', mimeType: 'image/png', buffer: Buffer.from(data, 'base64') };
};

const showDetails = async (page: Page, record?: string): Promise<void> => {
  await page.getByRole('radio', { name: 'Details' }).check();
  await expect(page.getByRole('region', { name: /^Details: / })).toBeVisible();
  if (record) await page.getByLabel('Show the details of').selectOption(record);
};

const field = (page: Page, path: string) => page.locator(`[data-field="${path}"]`);
const run = 'systems/main/parts/run-bedroom-3';
const gets = async (page: Page): Promise<number> => {
  await page.getByRole('radio', { name: 'Room', exact: true }).check();
  return numberIn(figure(page, 'Gets'));
};

test('what is typed stays as typed, says how it is known, and the account follows', async ({ page }) => {
  await openHouse(page);
  const before = await gets(page);
  await showDetails(page, run);
  const slack = field(page, `${run}/slack`);
  const value = slack.getByRole('textbox', { name: 'Slack', exact: true });
  await expect(value).toHaveValue('22 % (15 to 28 %)');
  await expect(slack).toContainText('15 % to 28 %');
  await value.fill('4');
  await value.press('Enter');
  await expect(value).toHaveValue('4 %');
  await slack.getByRole('combobox').selectOption('measured');
  await expect(slack.getByRole('combobox')).toHaveValue('measured');
  await slack.getByRole('textbox', { name: 'Note on Slack' }).fill('pulled straight');
  await slack.getByRole('textbox', { name: 'Note on Slack' }).press('Enter');
  await expect.poll(() => gets(page)).toBeGreaterThan(before);
  for (let i = 0; i < 3; i++) await page.keyboard.press('Control+z');
  await expect.poll(() => gets(page)).toBe(before);
  await showDetails(page);
  await expect(value).toHaveValue('22 % (15 to 28 %)');
});

test('a default shows where it comes from, in the units of the page', async ({ page }) => {
  await openHouse(page);
  await showDetails(page, 'rooms/bedroom-3');
  const height = field(page, 'rooms/bedroom-3/height');
  await expect(height).toContainText('filled in: 8.0 ft · ceiling height of the house');
  await page.getByRole('radio', { name: 'SI', exact: true }).check();
  await expect(height).toContainText('filled in: 2.44 m');
});

test('bad input says what is wrong and what would do, and the last good value stands', async ({ page }) => {
  await openHouse(page);
  await showDetails(page, run);
  const bad: readonly (readonly [string, string, RegExp])[] = [
    ['length', 'much', /“?.*much.*a length from 1 in to 300 ft.*Write it like/],
    ['length', '-3 ft', /a length from 1 in to 300 ft/],
    ['section', '7 x', /a duct size.*Write it like/],
    ['material', 'unobtainium', /unobtainium/],
    ['insulation', 'R-200', /R-0 to R-60/],
  ];
  for (const [name, text, words] of bad) {
    const input = field(page, `${run}/${name}`).locator('.field-row input, :scope > input').first();
    const good = await input.inputValue();
    await input.fill(text);
    await input.press('Enter');
    await expect(field(page, `${run}/${name}`).getByRole('alert')).toContainText(words);
    await expect(field(page, `${run}/${name}`).getByRole('alert')).toContainText('last good value stands');
    await expect(input).toHaveAttribute('aria-invalid', 'true');
    await expect(page.locator('body')).not.toContainText('NaN');
    await input.press('Escape');
    await expect(input).toHaveValue(good);
  }
  await field(page, `${run}/joins`).getByRole('combobox').selectOption({ index: 0 });
  await expect(page.getByRole('contentinfo')).toContainText('Account closes to better than 1 part in 10');
  await expect(page.locator('body')).not.toContainText('NaN');
});

test('a boot come off is noted in words, with its range, a source and a photo, and the room gets less', async ({
  page,
}) => {
  await openHouse(page);
  const before = await gets(page);
  await showDetails(page, run);
  await page.getByLabel('What is to be seen').selectOption({ label: 'Come off at its boot' });
  const group = page.getByRole('group', { name: 'As found', exact: true });
  await expect(group).toContainText(/85 % of the duct \(60 % to 100 %\) · estimated · orifice/);
  await group.getByRole('button', { name: 'Record it' }).click();
  await expect.poll(() => gets(page)).toBeLessThan(before - 10);
  await showDetails(page);
  await page.getByLabel('Photo', { exact: true }).setInputFiles(await photo(page));
  await expect(page.getByLabel('What the photo shows')).toBeFocused();
  await page.keyboard.type('Boot off the ceiling');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('button', { name: 'Open the photo: Boot off the ceiling' })).toBeVisible();
  await page.getByLabel('Show the details of').selectOption('rooms/bedroom-3');
  await expect(page.getByRole('button', { name: /^Open the photo/ })).toHaveCount(0);
});

test('each term has help in plain words, by keyboard', async ({ page }) => {
  await openHouse(page);
  await showDetails(page, run);
  const help = page.getByRole('button', { name: 'What is Slack?' });
  await help.focus();
  await page.keyboard.press('Enter');
  await expect(field(page, `${run}/slack`)).toContainText('the waves inside slow the air', {
    ignoreCase: true,
  });
  await page.keyboard.press('Escape');
  await expect(help).toHaveAttribute('aria-expanded', 'false');
  await page.keyboard.press('/');
  await page.keyboard.type('plain language');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('dialog', { name: 'Words in plain language' })).toContainText('Shortage');
});

test('what to measure comes in order of its weight, and leads to its field', async ({ page }) => {
  await openHouse(page);
  await page.getByRole('radio', { name: 'What to measure' }).check();
  const items = page.getByRole('region', { name: 'What to measure' }).getByRole('listitem');
  await expect(items.first()).toBeVisible({ timeout: 45_000 });
  const shares = await items.locator('span', { hasText: /^\d+ % of what is not known/ }).allTextContents();
  const numbers = shares.map((text) => Number.parseInt(text, 10));
  expect(numbers.length).toBeGreaterThan(2);
  expect(numbers).toEqual(numbers.toSorted((a, b) => b - a));
  await items.first().getByRole('button').click();
  await expect(page.getByRole('region', { name: /^Details: / })).toBeVisible();
  await expect
    .poll(() => page.evaluate(() => document.activeElement?.closest('[data-field]') !== null))
    .toBe(true);
});

test('one who seals is told of burners, and the checks never say that all hold while some are open', async ({
  page,
}) => {
  await openHouse(page);
  await expect(page.getByRole('note')).toHaveCount(0);
  await page.getByRole('radio', { name: 'As specified' }).check();
  await expect(page.getByRole('note')).toContainText('Burners before air-tightness');
  await expect(page.getByRole('navigation')).toContainText(/\d+ fail, \d+ open/);
  await page.getByRole('button', { name: 'Before any work' }).click();
  const cautions = page.getByRole('region', { name: 'Before any work' });
  for (const words of ['Refrigerant', 'asbestos', 'carbon monoxide'])
    await expect(cautions).toContainText(words);
});

test('details, what to measure, tables and words have no fault that axe finds', async ({ page }) => {
  test.setTimeout(120_000);
  await openHouse(page);
  await showDetails(page, run);
  await axeClean(page);
  await page.getByRole('radio', { name: 'What to measure' }).check();
  await expect(page.getByRole('region', { name: 'What to measure' })).toBeVisible();
  await axeClean(page);
  await showArea(page, 'Survey');
  await expect(page.getByRole('region', { name: 'Site and climate' })).toBeVisible();
  await axeClean(page);
  await page.getByRole('radio', { name: 'Ducts' }).check();
  await page.getByLabel('Choose all rows').check();
  await axeClean(page);
});

test('in field mode everything of the forms is at least 44 px high', async ({ page }) => {
  await page.setViewportSize({ width: 1180, height: 820 });
  await openHouse(page);
  await page.getByRole('button', { name: 'File' }).click();
  await page.getByRole('button', { name: /^Field mode/ }).click();
  await showDetails(page, run);
  const small = () =>
    page.evaluate(() =>
      [...document.querySelectorAll('.side button, .side input, .side select, .survey-tabs label, .grid td')]
        .map((element) => ({
          name: element.getAttribute('aria-label') || element.textContent || element.id,
          height: element.getBoundingClientRect().height,
        }))
        .filter(({ height }) => height > 1 && height < 43.5),
    );
  expect(await small()).toEqual([]);
  await page.getByRole('radio', { name: 'What to measure' }).check();
  await showArea(page, 'Survey');
  await page.getByRole('radio', { name: 'Rooms' }).check();
  await expect(page.getByRole('grid')).toBeVisible();
  expect(await small()).toEqual([]);
});

test('one property is set for all ducts that are selected on the drawing', async ({ page }) => {
  await openHouse(page);
  await showArea(page, 'Draw');
  await showDetails(page);
  await page.getByRole('region', { name: 'Drawing' }).getByRole('application').focus();
  await page.keyboard.press('Control+a');
  const details = page.getByRole('region', { name: /^Details: / });
  await details.getByLabel('Property to set').selectOption({ label: 'Insulation' });
  await details.getByLabel('Insulation of the chosen rows').fill('R-8');
  await details.getByRole('button', { name: /^Set for \d\d$/ }).click();
  await page.getByLabel('Show the details of').selectOption(run);
  await expect(field(page, `${run}/insulation`).getByRole('textbox')).toHaveValue('R-8');
});
