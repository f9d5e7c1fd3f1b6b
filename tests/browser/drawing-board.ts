import { expect, type Locator, type Page } from '@playwright/test';
import { showArea } from './open-house.ts';

/** The least that a house can be: one room, aside of where the tests draw. */
const blankJob = {
  schemaVersion: 1,
  name: 'New house',
  site: { station: 'Houston' },
  rooms: [
    {
      id: 'shed',
      name: 'Shed',
      corner: '40 ft, 0 ft',
      size: '6 ft x 6 ft',
      surfaces: [{ id: 'north-wall', kind: 'wall', facing: 'north', area: '48 ft²' }],
    },
  ],
};

export const board = (page: Page): Locator => page.getByRole('application', { name: 'Drawing board' });

/** Opens a job and shows it as a drawing. */
export const drawJob = async (page: Page, job: object): Promise<void> => {
  await page.goto('/');
  await expect(page.getByRole('contentinfo')).toContainText('Account closes to better than 1 part in 10');
  await page.getByRole('button', { name: 'File' }).click();
  await page.getByLabel('Job file').setInputFiles({
    name: 'new.airledger.json',
    mimeType: 'application/json',
    buffer: Buffer.from(JSON.stringify(job)),
  });
  await showArea(page, 'Draw');
  await expect(board(page)).toBeVisible();
};

export const drawNewHouse = async (page: Page): Promise<void> => {
  await drawJob(page, blankJob);
  await board(page).focus();
  for (let i = 0; i < 5; i++) await page.keyboard.press('-');
};

/** Place on the screen of a point of the plan given in feet. */
export const onScreen = async (page: Page, [east_ft, north_ft]: readonly [number, number]) => {
  const [left, top, transform] = await board(page).evaluate((svg) => {
    const box = svg.getBoundingClientRect();
    return [box.x, box.y, svg.querySelector(':scope > g[transform]')!.getAttribute('transform')!] as const;
  });
  const [x = 0, y = 0, scale = 1] = transform.match(/-?[\d.]+(?:e-?\d+)?/g)!.map(Number);
  const unit = 40 * 0.3048 * scale;
  return { x: left + x + east_ft * unit, y: top + y - north_ft * unit };
};

export const clickAt = async (page: Page, at: readonly [number, number]): Promise<void> => {
  const { x, y } = await onScreen(page, at);
  await page.mouse.click(x, y);
};

export const drag = async (
  page: Page,
  from: readonly [number, number],
  to: readonly [number, number],
  steps = 6,
): Promise<void> => {
  const start = await onScreen(page, from);
  const end = await onScreen(page, to);
  await page.mouse.move(start.x, start.y);
  await page.mouse.down();
  await page.mouse.move(end.x, end.y, { steps });
  await page.mouse.up();
};

/** Types figures into the fields beside the crosshair, and goes back to the board with Enter. */
export const typeFigures = async (page: Page, first: string, ...others: readonly string[]): Promise<void> => {
  await page.keyboard.type(first);
  for (const other of others) {
    await page.keyboard.press('Tab');
    await page.keyboard.type(other);
  }
  await page.keyboard.press('Enter');
  await expect(board(page)).toBeFocused();
};
