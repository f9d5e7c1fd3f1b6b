import { type CDPSession, expect, type Page, test } from '@playwright/test';
import { board, drawNewHouse, onScreen } from './drawing-board.ts';
import { tinyPdf } from './tiny-pdf.ts';

test.use({ viewport: { width: 1180, height: 820 }, hasTouch: true, actionTimeout: 15_000 });

test('a page of a PDF is laid under the drawing, and a page that is not there is said to be missing', async ({
  page,
}) => {
  await drawNewHouse(page);
  await page.getByRole('button', { name: /^Measure/ }).click();
  const picker = page.getByLabel('Picture or PDF of the plan');
  const file = tinyPdf();
  await page.getByLabel('Page of a PDF').fill('3');
  await picker.setInputFiles(file);
  await expect(page.locator('.draw-hint')).toContainText('The PDF has 1 page; there is no page 3.', {
    timeout: 30_000,
  });
  await page.getByLabel('Page of a PDF').fill('1');
  await picker.setInputFiles(file);
  const picture = board(page).locator('image');
  await expect(picture).toHaveCount(1);
  const [width, height] = [await picture.getAttribute('width'), await picture.getAttribute('height')];
  expect(Number(width) / Number(height)).toBeCloseTo(2, 2);
  // Walls are black where the page has them, and nothing else is.
  const dark = await picture.evaluate(async (image) => {
    const bitmap = await createImageBitmap(await (await fetch(image.getAttribute('href')!)).blob());
    const canvas = new OffscreenCanvas(bitmap.width, bitmap.height);
    const pen = canvas.getContext('2d')!;
    pen.drawImage(bitmap, 0, 0);
    const at = (x: number, y: number) =>
      pen.getImageData(Math.round((x / 720) * bitmap.width), Math.round((1 - y / 360) * bitmap.height), 1, 1)
        .data[0]!;
    return { wall: at(40, 180), partition: at(200, 180), floor: at(400, 180), margin: at(10, 10) };
  });
  expect(dark.wall).toBeLessThan(80);
  expect(dark.partition).toBeLessThan(80);
  expect(dark.floor).toBeGreaterThan(200);
  expect(dark.margin).toBeGreaterThan(200);
});

type Finger = { readonly x: number; readonly y: number };

const touch = (
  session: CDPSession,
  type: 'touchStart' | 'touchMove' | 'touchEnd',
  fingers: readonly Finger[],
) =>
  session.send('Input.dispatchTouchEvent', {
    type,
    touchPoints: fingers.map(({ x, y }, id) => ({ x, y, id })),
  });

const takeRoomTool = (page: Page) =>
  page.getByRole('toolbar', { name: 'Tools' }).getByRole('button', { name: /^Room/ }).tap();

const viewOf = async (page: Page) => {
  const origin = await onScreen(page, [0, 0]);
  return { ...origin, foot: (await onScreen(page, [1, 0])).x - origin.x };
};

test('two fingers move and zoom the drawing, one finger draws on it', async ({ page }) => {
  await drawNewHouse(page);
  const session = await page.context().newCDPSession(page);
  const box = (await board(page).boundingBox())!;
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  const before = await viewOf(page);
  // Two fingers side by side, moved along together.
  await touch(session, 'touchStart', [{ x: x - 60, y }]);
  await touch(session, 'touchStart', [
    { x: x - 60, y },
    { x: x + 60, y },
  ]);
  for (let i = 1; i <= 5; i++)
    await touch(session, 'touchMove', [
      { x: x - 60 + 12 * i, y: y + 8 * i },
      { x: x + 60 + 12 * i, y: y + 8 * i },
    ]);
  await touch(session, 'touchEnd', []);
  await expect.poll(async () => (await viewOf(page)).x - before.x).toBeCloseTo(60, 0);
  const moved = await viewOf(page);
  expect(moved.y - before.y).toBeCloseTo(40, 0);
  expect(moved.foot).toBeCloseTo(before.foot, 1);
  // Apart: twice as far, twice as large, about the middle between them.
  await touch(session, 'touchStart', [{ x: x - 50, y }]);
  await touch(session, 'touchStart', [
    { x: x - 50, y },
    { x: x + 50, y },
  ]);
  for (let i = 1; i <= 5; i++)
    await touch(session, 'touchMove', [
      { x: x - 50 - 10 * i, y },
      { x: x + 50 + 10 * i, y },
    ]);
  await touch(session, 'touchEnd', []);
  await expect.poll(async () => (await viewOf(page)).foot / moved.foot).toBeCloseTo(2, 1);
  await expect(board(page).locator('[data-room]')).toHaveCount(1);

  // One finger draws a room from corner to corner.
  await page.getByRole('button', { name: 'Whole' }).tap();
  await board(page).focus();
  await page.keyboard.press('-');
  await takeRoomTool(page);
  const from = await onScreen(page, [16, 0]);
  const to = await onScreen(page, [30, 12]);
  await touch(session, 'touchStart', [from]);
  for (let i = 1; i <= 5; i++)
    await touch(session, 'touchMove', [
      { x: from.x + ((to.x - from.x) * i) / 5, y: from.y + ((to.y - from.y) * i) / 5 },
    ]);
  await touch(session, 'touchEnd', []);
  await expect(board(page).locator('[data-room]')).toHaveCount(2);
  await expect(board(page)).toContainText('14 ft × 12 ft');
  // A tap selects what it touches.
  await page.getByRole('button', { name: /^Select/ }).tap();
  const middle = await onScreen(page, [23, 6]);
  await page.touchscreen.tap(middle.x, middle.y);
  await expect(board(page).locator('[data-room].chosen')).toHaveCount(1);
});

test('the wheel zooms about the pointer, the middle button and the space bar move the drawing', async ({
  page,
}) => {
  await drawNewHouse(page);
  const at = await onScreen(page, [20, 5]);
  const before = await viewOf(page);
  await page.mouse.move(at.x, at.y);
  await page.mouse.wheel(0, -400);
  await expect.poll(async () => (await viewOf(page)).foot / before.foot).toBeGreaterThan(1.5);
  const after = await onScreen(page, [20, 5]);
  expect(Math.hypot(after.x - at.x, after.y - at.y)).toBeLessThan(1);
  for (const way of ['middle', 'space'] as const) {
    const start = await viewOf(page);
    if (way === 'space') await page.keyboard.down(' ');
    await page.mouse.move(at.x, at.y);
    await page.mouse.down({ button: way === 'middle' ? 'middle' : 'left' });
    await page.mouse.move(at.x + 50, at.y - 30, { steps: 3 });
    await page.mouse.up({ button: way === 'middle' ? 'middle' : 'left' });
    if (way === 'space') await page.keyboard.up(' ');
    await expect.poll(async () => (await viewOf(page)).x - start.x).toBeCloseTo(50, 0);
  }
  await expect(board(page).locator('[data-room]')).toHaveCount(1);
});

test('a pen draws as a mouse does, at once', async ({ page }) => {
  await drawNewHouse(page);
  const session = await page.context().newCDPSession(page);
  const pen = (type: 'mousePressed' | 'mouseMoved' | 'mouseReleased', { x, y }: Finger) =>
    session.send('Input.dispatchMouseEvent', {
      type,
      x,
      y,
      button: type === 'mouseMoved' ? 'none' : 'left',
      buttons: type === 'mouseReleased' ? 0 : 1,
      clickCount: 1,
      pointerType: 'pen',
      force: 0.5,
    });
  const kinds = board(page).evaluate(
    (element) =>
      new Promise<string>((resolve) => {
        element.addEventListener('pointerdown', (event) => resolve((event as PointerEvent).pointerType), {
          once: true,
        });
      }),
  );
  await takeRoomTool(page);
  await board(page).focus();
  for (let i = 0; i < 2; i++) await page.keyboard.press('+');
  const [from, to] = [await onScreen(page, [0, 0]), await onScreen(page, [16, 14])];
  await pen('mousePressed', from);
  for (let i = 1; i <= 5; i++)
    await pen('mouseMoved', { x: from.x + ((to.x - from.x) * i) / 5, y: from.y + ((to.y - from.y) * i) / 5 });
  await pen('mouseReleased', to);
  await page.keyboard.press('h');
  expect(await kinds).toBe('pen');
  await expect(board(page).locator('[data-room]')).toHaveCount(2);
  await expect(board(page)).toContainText('16 ft × 14 ft');
});
