import { expect, type Page } from '@playwright/test';
import { demo, east, type Feet, north, outlineOf } from './demo-house.ts';
import { board, onScreen } from './drawing-board.ts';

/**
 * The builder's plan as a picture: walls in black, 20 pixels to the foot. Its margins are such that, as it is laid,
 * the south-west corner of the house comes to lie on the grid, and 45 ft of the drawing on the 55 ft of the south wall.
 */
export const planPicture = async (page: Page) => {
  const [left, right, foot] = [49, 54, 20];
  const width = left + east * foot + right;
  const data = await page.evaluate(
    ({ outlines, left, foot, north, width }) => {
      const canvas = Object.assign(document.createElement('canvas'), {
        width,
        height: north * foot + 2 * left,
      });
      const pen = canvas.getContext('2d')!;
      pen.fillStyle = '#fff';
      pen.fillRect(0, 0, canvas.width, canvas.height);
      pen.lineWidth = 3;
      for (const outline of outlines) {
        pen.beginPath();
        for (const [x, y] of outline) pen.lineTo(left + x! * foot, left + (north - y!) * foot);
        pen.closePath();
        pen.stroke();
      }
      return canvas.toDataURL('image/png').split(',')[1]!;
    },
    {
      outlines: demo.rooms.map(({ outline }) => outlineOf(outline).map(([x, y]) => [x, y])),
      left,
      foot,
      north,
      width,
    },
  );
  const image = board(page).locator('image');
  /** Where a point of the house stands on the picture as it lies now, in feet of the plan. */
  const at = async ([x, y]: Feet): Promise<Feet> => {
    const box = (await image.boundingBox())!;
    const origin = await onScreen(page, [0, 0]);
    const unit = (await onScreen(page, [1, 0])).x - origin.x;
    const pixel = box.width / width;
    return [
      (box.x + (left + x * foot) * pixel - origin.x) / unit,
      -(box.y + (left + (north - y) * foot) * pixel - origin.y) / unit,
    ];
  };
  return {
    file: { name: 'plan.png', mimeType: 'image/png', buffer: Buffer.from(data, 'base64') },
    image,
    at,
    /** Once the true length was typed, a foot of the picture is a foot of the plan. */
    isScaled: () =>
      expect.poll(async () => (await at([east, 0]))[0] - (await at([0, 0]))[0]).toBeCloseTo(east, 1),
  };
};
