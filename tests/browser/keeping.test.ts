import { expect } from '@playwright/test';
import { choose, gets, kept, open, panel, putBy, rename, solved, test, tighten } from './kept-house.ts';
import { toLowEnd } from './open-house.ts';

test('an edit is there after a reload, and so are undo and redo of it', async ({ page, server }) => {
  await open(page, server.url);
  const before = await gets(page);
  await tighten(page);
  await kept(page, 'Saved');
  const after = await gets(page);
  expect(after).toBeGreaterThan(before + 5);
  await page.reload();
  await solved(page);
  await choose(page, 'Bedroom 3');
  expect(await gets(page)).toBe(after);
  await page.keyboard.press('Control+z');
  await expect.poll(() => gets(page)).toBe(before);
  await kept(page, 'Saved');
  await page.reload();
  await solved(page);
  await choose(page, 'Bedroom 3');
  expect(await gets(page)).toBe(before);
  await page.keyboard.press('Control+y');
  await expect.poll(() => gets(page)).toBe(after);
  await panel(page, 'Change history');
  const changes = page.getByRole('list', { name: 'Changes, the newest first' });
  await expect(changes).toContainText('Done again: One tried value kept');
  await expect(changes).toContainText('Undone: One tried value kept');
});

test('a change is taken back alone, and the history says by whom', async ({ page, server }) => {
  await open(page, server.url);
  const before = await gets(page);
  await panel(page, 'Change history');
  await page.getByRole('textbox', { name: 'Your name' }).fill('Ada Marsh');
  await page.keyboard.press('Escape');
  await tighten(page);
  await expect.poll(() => gets(page)).toBeGreaterThan(before + 5);
  await rename(page, 'As found', 'As seen');
  await expect(page.getByRole('radio', { name: 'As seen' })).toBeChecked();
  await panel(page, 'Change history');
  await expect(page.getByRole('dialog')).toContainText('Ada Marsh');
  await page.getByRole('button', { name: 'Take back: One tried value kept' }).click();
  await page.keyboard.press('Escape');
  await expect.poll(() => gets(page)).toBe(before);
  await expect(page.getByRole('radio', { name: 'As seen' })).toBeChecked();
});

test('a state is branched off, edited, and its change removed again', async ({ page, server }) => {
  await open(page, server.url);
  await panel(page, 'States and their changes');
  await page.getByRole('textbox', { name: /^New state/ }).fill('As built');
  await page.getByRole('button', { name: 'Add state' }).click();
  await page.keyboard.press('Escape');
  await expect(page.getByRole('radio', { name: 'As built' })).toBeChecked();
  await solved(page);
  const slider = page.getByRole('slider', { name: 'Leak at takeoff' });
  await slider.focus();
  await slider.press('End');
  await page.getByRole('button', { name: 'Keep it' }).click();
  await kept(page, 'Saved');
  await panel(page, 'States and their changes');
  const changes = page.getByRole('region', { name: 'As built' }).getByRole('listitem');
  await expect(changes).toHaveCount(1);
  await changes.getByRole('button', { name: /^Remove/ }).click();
  await expect(page.getByRole('region', { name: 'As built' })).toContainText('As “As specified” so far');
});

test('work goes on without the server, outlives a reload, and is sent when it returns', async ({
  page,
  server,
}) => {
  await open(page, server.url);
  await putBy(page);
  await tighten(page);
  await kept(page, 'Saved');
  await server.kill();
  await page.reload();
  await solved(page);
  await choose(page, 'Bedroom 3');
  const before = await gets(page);
  await rename(page, 'As found', 'Offline name');
  await kept(page, 'Saved in this browser');
  const slack = page.getByRole('slider', { name: 'Slack' });
  await toLowEnd(slack);
  await page.getByRole('button', { name: 'Keep it' }).click();
  await expect.poll(() => gets(page)).toBeGreaterThan(before);
  await kept(page, 'Saved in this browser');
  const after = await gets(page);
  await page.reload();
  await solved(page);
  await choose(page, 'Bedroom 3');
  expect(await gets(page)).toBe(after);
  await server.start();
  await kept(page, 'Saved');
  const { jobs } = await (await fetch(`${server.url}/api/jobs`)).json();
  expect(jobs).toHaveLength(1);
  const { job } = await (await fetch(`${server.url}/api/jobs/${jobs[0].id}`)).json();
  expect(job.states[0].name).toBe('Offline name');
});

test('a browser that knows nothing finds the job after the server was killed and started again', async ({
  page,
  server,
  browser,
}) => {
  await open(page, server.url);
  await tighten(page);
  await kept(page, 'Saved');
  const after = await gets(page);
  await server.kill();
  await server.start();
  const other = await (await browser.newContext()).newPage();
  await open(other, server.url);
  await panel(other, 'Jobs');
  await other.getByRole('searchbox', { name: 'Search jobs' }).fill('quail');
  await other
    .getByRole('list', { name: 'Jobs' })
    .getByRole('button', { name: '14 Quail Run Lane' })
    .first()
    .click();
  await expect(other.getByRole('dialog')).toHaveCount(0);
  await choose(other, 'Bedroom 3');
  await expect.poll(() => gets(other)).toBe(after);
  await panel(other, 'Change history');
  await expect(other.getByRole('dialog')).toContainText('One tried value kept');
  await other.context().close();
});
