import { readFile } from 'node:fs/promises';
import { expect, type Locator, type Page } from '@playwright/test';
import { kept, open, panel, rename, serverJob, test } from './kept-house.ts';
import { ownServer } from './own-server.ts';
import { sharpPhoto } from './photo.ts';

test.describe.configure({ timeout: 240_000 });

const run = 'systems/main/parts/run-bedroom-3';
const shown = (page: Page) => page.getByRole('button', { name: 'Open the photo: Boot off the ceiling' });

const details = async (page: Page) => {
  await page.getByRole('radio', { name: 'Details' }).check();
  await page.getByLabel('Show the details of').selectOption(run);
};

/** Adds a photo of a run to the house; the number of its bytes. */
const addPhoto = async (page: Page) => {
  await details(page);
  const photo = await sharpPhoto(page);
  await page.getByLabel('Photo', { exact: true }).setInputFiles(photo);
  await page.getByRole('textbox', { name: 'What the photo shows' }).fill('Boot off the ceiling');
  await page.keyboard.press('Enter');
  await expect(shown(page).locator('img')).toBeVisible();
  return photo.buffer.length;
};

/** Width and height of a picture as it was kept. */
const sizeOf = (picture: Locator) =>
  picture.evaluate(async (image: HTMLImageElement) => {
    await image.decode();
    return [image.naturalWidth, image.naturalHeight];
  });

const photoAt = async (url: string, sha256: string) => {
  const answer = await fetch(`${url}/api/blobs/${sha256}`);
  expect(answer.headers.get('content-type')).toBe('image/jpeg');
  return Buffer.from(await answer.arrayBuffer());
};

test('a photo is scaled down, kept at the server, and seen on another device', async ({
  page,
  server,
  browser,
}) => {
  await open(page, server.url);
  const taken = await addPhoto(page);
  await kept(page, 'Saved');
  const [photo] = (await serverJob(server.url)).photos;
  expect(photo).toMatchObject({ of: run, caption: 'Boot off the ceiling' });
  const bytes = (await photoAt(server.url, photo.sha256)).length;
  expect(bytes).toBeLessThan(taken / 2);
  expect(bytes).toBeLessThan(400_000);

  const other = await (await browser.newContext()).newPage();
  await open(other, server.url);
  await panel(other, 'Jobs');
  await other
    .getByRole('list', { name: 'Jobs' })
    .getByRole('button', { name: '14 Quail Run Lane', exact: true })
    .click();
  await expect(other.getByRole('dialog')).toHaveCount(0);
  await details(other);
  await expect(shown(other).locator('img')).toBeVisible();
  expect(await sizeOf(shown(other).locator('img'))).toEqual([320, 240]);
  const opened = other.context().waitForEvent('page');
  await shown(other).click();
  expect(await sizeOf((await opened).locator('img'))).toEqual([1600, 1200]);
  await other.context().close();

  await server.empty();
  // The job goes to the emptied server anew, and so does the photo.
  await expect
    .poll(async () => (await fetch(`${server.url}/api/blobs/${photo.sha256}`)).status, { timeout: 30_000 })
    .toBe(200);
  await kept(page, 'Saved');
  expect((await serverJob(server.url)).photos).toEqual([photo]);
});

test('a job goes out as one file with its photos, and comes in elsewhere as it was', async ({
  page,
  server,
  browser,
}, testInfo) => {
  await open(page, server.url);
  await addPhoto(page);
  await rename(page, 'As found', 'First look');
  await kept(page, 'Saved');
  const job = await serverJob(server.url);
  const [{ sha256 }] = job.photos;
  await page.getByRole('button', { name: 'File', exact: true }).click();
  const saving = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Export with photos …' }).click();
  const file = await saving;
  expect(file.suggestedFilename()).toBe('14-quail-run-lane.airledger.json');
  const path = testInfo.outputPath('exported.airledger.json');
  await file.saveAs(path);
  const photo = await photoAt(server.url, sha256);
  expect(JSON.parse(await readFile(path, 'utf8')).files).toEqual([
    { sha256, type: 'image/jpeg', data: photo.toString('base64') },
  ]);

  // A server and a browser that have never seen this job or its photo.
  const elsewhere = await ownServer();
  try {
    const other = await (await browser.newContext()).newPage();
    await open(other, elsewhere.url);
    await panel(other, 'Jobs');
    await other.getByLabel('Job file to import').setInputFiles(path);
    await expect(other.getByRole('radio', { name: 'First look' })).toBeVisible();
    await details(other);
    await expect(shown(other).locator('img')).toBeVisible();
    expect(await sizeOf(shown(other).locator('img'))).toEqual([320, 240]);
    await kept(other, 'Saved');
    expect(await serverJob(elsewhere.url)).toEqual(job);
    expect(photo.equals(await photoAt(elsewhere.url, sha256))).toBe(true);
    await other.context().close();
  } finally {
    await elsewhere.remove();
  }
});
