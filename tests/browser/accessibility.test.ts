import { expect, test } from '@playwright/test';
import { axeClean } from './axe-clean.ts';
import { figure, openHouse } from './open-house.ts';

test('the work areas, table, popover and comparison have no fault that axe finds', async ({ page }) => {
  test.setTimeout(120_000);
  await openHouse(page);
  for (const area of ['Survey', 'Loads', 'Checks', 'Air']) {
    const button = page.getByRole('navigation').getByRole('button', { name: new RegExp(`^${area}`) });
    await button.click();
    await expect(button).toHaveAttribute('aria-current', 'page');
    await axeClean(page);
  }
  await page.getByRole('radio', { name: 'Table' }).check();
  await figure(page, 'Gets').getByRole('button').click();
  await axeClean(page);
  await page.keyboard.press('Escape');
  await page.getByRole('radio', { name: 'Side by side' }).check();
  await expect(page.getByRole('region', { name: 'Plan As specified' })).toBeVisible();
  await axeClean(page);
});

test('words on every shade of a room can be read', async ({ page }) => {
  await openHouse(page);
  for (const theme of ['light', 'dark']) {
    const worst = await page.evaluate((name) => {
      document.documentElement.dataset.theme = name;
      const style = getComputedStyle(document.documentElement);
      const channel = (hex: string, at: number) => {
        const value = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
        return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
      };
      const luminance = (token: string) => {
        const written = style.getPropertyValue(token).trim();
        // The build shortens #ffffff to #fff.
        const hex = written.length === 4 ? written.replace(/[0-9a-f]/gi, (digit) => digit + digit) : written;
        return 0.2126 * channel(hex, 1) + 0.7152 * channel(hex, 3) + 0.0722 * channel(hex, 5);
      };
      const contrast = (ink: string, ground: string) => {
        const [a, b] = [luminance(ink), luminance(ground)].sort((x, y) => y - x);
        return (a! + 0.05) / (b! + 0.05);
      };
      return Math.min(
        contrast('--far-short-ink', '--far-short'),
        contrast('--short-text', '--short'),
        ...['--bit-short', '--near', '--has', '--over', '--no-need'].map((ground) =>
          contrast('--band-ink', ground),
        ),
        ...['--ink', '--muted', '--short-ink', '--has-ink', '--falls-ink'].flatMap((ink) => [
          contrast(ink, '--card'),
          contrast(ink, '--paper'),
        ]),
      );
    }, theme);
    expect(worst).toBeGreaterThanOrEqual(4.5);
  }
});
