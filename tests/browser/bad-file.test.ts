import { expect, type Page, test } from '@playwright/test';
import { card, openHouse } from './open-house.ts';

const offer = async (page: Page, name: string, text: string) => {
  await page.getByRole('button', { name: 'File' }).click();
  await page
    .getByLabel('Job file')
    .setInputFiles({ name, mimeType: 'application/json', buffer: Buffer.from(text) });
};

test('a file with faults is refused with every fault in its place, and the house in hand stays', async ({
  page,
  request,
}) => {
  await openHouse(page);
  const { demos } = (await (await request.get('/api/demos')).json()) as { demos: { url: string }[] };
  const job = await (await request.get(demos[0]!.url)).json();
  job.rooms[0].floorArea = 'twelve';
  job.systems[0].parts[1].joins = 'nowhere';
  job.colour = 'blue';
  await offer(page, 'faulty.airledger.json', JSON.stringify(job));
  const dialog = page.getByRole('dialog', { name: /faulty\.airledger\.json was not opened/ });
  await expect(dialog).toContainText('colour');
  await expect(dialog).toContainText('nowhere');
  await expect(dialog).toContainText('twelve');
  for (const words of ['stands', 'expected', 'to do']) await expect(dialog).toContainText(words);
  await page.keyboard.press('Escape');
  await expect(dialog).toHaveCount(0);
  await expect(card(page)).toContainText('Bedroom 3');
});

test('what is no JSON at all is said so', async ({ page }) => {
  await openHouse(page);
  await offer(page, 'notes.json', 'Dear customer,');
  const dialog = page.getByRole('dialog', { name: /notes\.json was not opened: one thing/ });
  await expect(dialog).toContainText('line 1');
  await dialog.getByRole('button', { name: 'Close' }).click();
  await expect(dialog).toHaveCount(0);
});

test('a file dropped on the page is opened', async ({ page, request }) => {
  await openHouse(page);
  const { demos } = (await (await request.get('/api/demos')).json()) as { demos: { url: string }[] };
  const job = await (await request.get(demos[0]!.url)).json();
  const text = JSON.stringify({ ...job, name: 'Dropped house' });
  const data = await page.evaluateHandle((content) => {
    const transfer = new DataTransfer();
    transfer.items.add(new File([content], 'dropped.airledger.json', { type: 'application/json' }));
    return transfer;
  }, text);
  await page.dispatchEvent('.app', 'drop', { dataTransfer: data });
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Dropped house');
});
