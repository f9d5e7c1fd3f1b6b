import { expect, type Locator, type Page } from '@playwright/test';

/** Opens the page with its first demo house and waits until it is solved. */
export const openHouse = async (page: Page): Promise<void> => {
  await page.goto('/');
  await expect(page.getByRole('region', { name: 'Plan' })).toBeVisible();
  await expect(page.getByRole('contentinfo')).toContainText('Account closes to better than 1 part in 10');
};

/** Goes to a step of the work by the first words of its button. */
export const showArea = (page: Page, name: string): Promise<void> =>
  page
    .getByRole('navigation', { name: 'Work areas' })
    .getByRole('button', { name: new RegExp(`^${name}`) })
    .click();

/** The card of the room in hand. */
export const card = (page: Page): Locator => page.getByRole('region', { name: /^Room: / });

/** One figure of that card, as text. */
export const figure = (page: Page, label: string): Locator =>
  card(page)
    .locator('dl div')
    .filter({ has: page.getByText(label, { exact: true }) })
    .locator('dd');

/** First number of a text. */
export const numberIn = async (locator: Locator): Promise<number> =>
  Number((await locator.textContent())!.replaceAll(',', '').match(/-?[\d.]+/)![0]);

/** Moves a slider to its low end, by keyboard. */
export const toLowEnd = async (slider: Locator): Promise<void> => {
  await slider.focus();
  await slider.press('Home');
};
