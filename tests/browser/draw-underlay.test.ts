import { deflateSync } from 'node:zlib';
import { expect, test } from '@playwright/test';
import { board, clickAt, drawNewHouse } from './drawing-board.ts';

const crcOf = (bytes: Buffer): number => {
  let crc = 0xffffffff;
  for (const byte of bytes) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit++) crc = crc & 1 ? (crc >>> 1) ^ 0xedb88320 : crc >>> 1;
  }
  return (crc ^ 0xffffffff) >>> 0;
};

const chunk = (type: string, data: Buffer): Buffer => {
  const body = Buffer.concat([Buffer.from(type), data]);
  const [length, crc] = [Buffer.alloc(4), Buffer.alloc(4)];
  length.writeUInt32BE(data.length);
  crc.writeUInt32BE(crcOf(body));
  return Buffer.concat([length, body, crc]);
};

/** A black PNG, twice as wide as high. */
const plan = (): Buffer => {
  const [width, height] = [200, 100];
  const header = Buffer.alloc(13);
  header.writeUInt32BE(width, 0);
  header.writeUInt32BE(height, 4);
  header[8] = 8;
  return Buffer.concat([
    Buffer.from([137, 80, 78, 71, 13, 10, 26, 10]),
    chunk('IHDR', header),
    chunk('IDAT', deflateSync(Buffer.alloc(height * (width + 1)))),
    chunk('IEND', Buffer.alloc(0)),
  ]);
};

test('a picture is laid under the drawing, scaled by two points and faded', async ({ page }) => {
  await drawNewHouse(page);
  await page.getByRole('button', { name: /^Measure/ }).click();
  await page
    .getByLabel('Picture or PDF of the plan')
    .setInputFiles({ name: 'plan.png', mimeType: 'image/png', buffer: plan() });
  const picture = board(page).locator('image');
  await expect(picture).toHaveCount(1);
  const sideOf = async (side: 'width' | 'height') => Number(await picture.getAttribute(side));
  const width = await sideOf('width');
  expect(width / (await sideOf('height'))).toBeCloseTo(2, 6);

  await clickAt(page, [0, 0]);
  await clickAt(page, [20, 0]);
  await page.locator('.draw-typed').getByLabel('Length').fill('40 ft');
  await page.keyboard.press('Enter');
  await expect.poll(async () => (await sideOf('width')) / width).toBeCloseTo(2, 2);

  await page.getByLabel('Faded').fill('80');
  await expect.poll(async () => Number(await picture.getAttribute('opacity'))).toBeCloseTo(0.2, 6);
});
