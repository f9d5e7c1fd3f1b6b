import { expect, type Page } from '@playwright/test';
import { board, clickAt, drag } from './drawing-board.ts';
import { choose, gets, kept, panel, solved, test } from './kept-house.ts';
import { card, figure, numberIn, showArea } from './open-house.ts';
import { sharpPhoto } from './photo.ts';

test.describe.configure({ timeout: 120_000 });
test.use({ viewport: { width: 1180, height: 820 }, actionTimeout: 15_000 });

/** A picture of the page for the tour in the documents, on demand: they are made by the test that proves the steps. */
const shot = async (page: Page, name: string) => {
  if (process.env.AIRLEDGER_TOUR !== '1') return;
  await page.screenshot({ path: `docs/tour/${name}.jpg`, type: 'jpeg', quality: 70, animations: 'disabled' });
};

const needs = (page: Page) => numberIn(figure(page, 'Needs'));
const sideTab = (page: Page, name: string) => page.getByRole('radio', { name, exact: true }).check();

/** What is to be seen of the duct in hand, in words of the survey. */
const note = async (page: Page, words: string) => {
  await page.getByLabel('What is to be seen').selectOption({ label: words });
  await page.getByRole('button', { name: 'Record it' }).click();
};

test('a first-time user gets from nothing to a compared repair, and finds all of it again', async ({
  page,
  server,
  browser,
}) => {
  await page.route('**/api/demos', (route) => route.fulfill({ json: { demos: [] } }));

  await test.step('quick start', async () => {
    await page.goto(server.url);
    await page.getByRole('button', { name: 'New house …' }).click();
    const form = page.getByRole('dialog', { name: 'New house' });
    await form.getByLabel('Name').fill('9 Larkspur Court');
    await form.getByLabel('Year built').fill('1985');
    await shot(page, '01-new-house');
    await form.getByRole('button', { name: 'Build the house' }).click();
    await expect(card(page)).toBeVisible({ timeout: 60_000 });
    await solved(page);
    await shot(page, '02-first-answer');
  });

  await test.step('correct the value that matters', async () => {
    await choose(page, 'Bedroom 2');
    const before = await needs(page);
    await sideTab(page, 'What to measure');
    const blowerDoor = page
      .getByRole('region', { name: 'What to measure' })
      .getByRole('button', { name: /^Blower door/ });
    await expect(blowerDoor).toBeVisible({ timeout: 45_000 });
    await shot(page, '03-what-to-measure');
    await blowerDoor.click();
    const field = page.locator('[data-field="house/airChanges50"]');
    await field.getByRole('textbox', { name: 'Air changes at 50 Pa', exact: true }).fill('13');
    await page.keyboard.press('Enter');
    await field.getByRole('combobox').selectOption('measured');
    await shot(page, '04-a-value-corrected');
    await sideTab(page, 'Room');
    await expect.poll(() => needs(page)).toBeGreaterThan(before);
  });

  await test.step('draw one more bedroom and a run to it', async () => {
    await showArea(page, 'Draw');
    await expect(board(page)).toBeVisible();
    // Beside the hall's east end, from its south wall to the north wall of the dining room.
    await board(page).focus();
    for (let i = 0; i < 2; i++) await page.keyboard.press('-');
    await page.keyboard.press('r');
    await drag(page, [49, 13.3], [60, 26]);
    await expect(board(page).locator('[data-room="bedroom-4"]')).toHaveCount(1);
    await page.getByRole('button', { name: /^Door/ }).click();
    await clickAt(page, [49, 15.3]);
    await page.getByRole('button', { name: /^Window/ }).click();
    await clickAt(page, [60, 20]);
    await page.getByRole('button', { name: /^Run/ }).click();
    await page.locator('.draw-options').getByLabel('Size').fill('8 in');
    await clickAt(page, [45.5, 16.1]);
    await clickAt(page, [51, 18]);
    await clickAt(page, [57, 22]);
    await clickAt(page, [57, 22]);
    const fittings = page.getByRole('region', { name: /^Fittings of/ });
    await expect(fittings.getByRole('checkbox').first()).toBeChecked();
    await shot(page, '05-a-bedroom-and-its-run');
    await fittings.getByRole('button', { name: 'Confirm fittings' }).click();
    await showArea(page, 'Air');
    await sideTab(page, 'Room');
    await choose(page, 'Bedroom 4');
    await expect.poll(() => gets(page)).toBeGreaterThan(20);
    expect(await needs(page)).toBeGreaterThan(20);
    await shot(page, '06-the-new-room-in-the-account');
  });

  const found = await test.step('mark a disconnected boot, with a photo', async () => {
    await choose(page, 'Bedroom 3');
    const before = await gets(page);
    await page.getByRole('button', { name: /^Bedroom 3, supply run/ }).click();
    await sideTab(page, 'Details');
    await note(page, 'Come off at its boot');
    await page.getByLabel('Photo', { exact: true }).setInputFiles(await sharpPhoto(page));
    await page.getByLabel('What the photo shows').fill('Boot off the ceiling, air into the attic');
    await page.keyboard.press('Enter');
    const photo = page.getByRole('button', { name: /^Open the photo: Boot off the ceiling/ });
    await expect(photo.locator('img')).toBeVisible();
    await photo.scrollIntoViewIfNeeded();
    await shot(page, '07-boot-come-off');
    await sideTab(page, 'Room');
    await expect.poll(() => gets(page)).toBeLessThan(before * 0.6);
    return { whole: before, off: await gets(page) };
  });

  await test.step('see the shortage and its cause', async () => {
    await expect(card(page)).toContainText(/short \d+ cfm/);
    const why = page.getByRole('region', { name: 'Why it is short' });
    await expect(why).toContainText(/adds up to \d+/);
    // The leaks of its own ducts stand first, and they are most of it.
    const lost = Number((await why.textContent())!.match(/Leaks? [^\d−]*?(\d+)/)![1]);
    expect(lost).toBeGreaterThan(((await needs(page)) - found.off) / 2);
    await shot(page, '08-the-shortage-and-its-cause');
  });

  await test.step('branch to as specified, and seal it', async () => {
    await page.getByRole('button', { name: 'States and their changes' }).click();
    await page.getByRole('textbox', { name: /^New state/ }).fill('As specified');
    await page.getByRole('button', { name: 'Add state' }).click();
    await page.keyboard.press('Escape');
    await expect(page.getByRole('radio', { name: 'As specified' })).toBeChecked();
    await solved(page);
    await sideTab(page, 'Details');
    await note(page, 'Boot sealed to ceiling or floor');
    await shot(page, '09-sealed-in-the-next-state');
    await sideTab(page, 'Room');
    await expect.poll(() => gets(page)).toBeGreaterThan(found.off + 20);
  });
  const sealed = await gets(page);
  expect(sealed).toBeGreaterThanOrEqual(found.whole);

  await test.step('compare', async () => {
    await page.getByRole('radio', { name: 'Side by side' }).check();
    await expect(page.getByRole('region', { name: 'Plan As found' })).toBeVisible();
    await expect(page.getByRole('region', { name: 'Plan As specified' })).toBeVisible();
    await expect(
      page.getByRole('row', {
        name: new RegExp(
          `^Bedroom 3 ${found.off} of \\d+ cfm, short ${sealed} of \\d+ cfm \\+${sealed - found.off} `,
        ),
      }),
    ).toBeVisible();
    await shot(page, '10-side-by-side');
    await panel(page, 'States and their changes');
    await expect(page.getByRole('region', { name: 'As specified' }).getByRole('listitem')).not.toHaveCount(0);
    await shot(page, '11-what-the-repair-changes');
    await page.keyboard.press('Escape');
    await kept(page, 'Saved');
  });

  await test.step('close the browser, start again, find all of it', async () => {
    await page.context().close();
    await server.kill();
    await server.start();
    const context = await browser.newContext({ viewport: { width: 1180, height: 820 } });
    const again = await context.newPage();
    await again.goto(server.url);
    await solved(again);
    await panel(again, 'Jobs');
    await again.getByRole('searchbox', { name: 'Search jobs' }).fill('larkspur');
    await shot(again, '12-the-job-in-the-list');
    await again
      .getByRole('list', { name: 'Jobs' })
      .getByRole('button', { name: '9 Larkspur Court' })
      .first()
      .click();
    await expect(again.getByRole('dialog')).toHaveCount(0);
    await solved(again);
    await again.getByRole('radio', { name: 'As found' }).check();
    await choose(again, 'Bedroom 4');
    await choose(again, 'Bedroom 3');
    await expect.poll(() => gets(again)).toBe(found.off);
    await again.getByRole('radio', { name: 'As specified' }).check();
    await expect.poll(() => gets(again)).toBe(sealed);
    await again.getByRole('radio', { name: 'As found' }).check();
    await again.getByRole('button', { name: /^Bedroom 3, supply run/ }).click();
    await sideTab(again, 'Details');
    const photo = again.getByRole('button', { name: /^Open the photo: Boot off the ceiling/ });
    await expect(photo.locator('img')).toBeVisible();
    await photo.scrollIntoViewIfNeeded();
    await shot(again, '13-found-again');
    await context.close();
  });
});
