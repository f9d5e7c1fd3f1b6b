import { expect, type Page } from '@playwright/test';

/** Shows a table of the survey area. */
export const openTable = async (page: Page, name: string): Promise<void> => {
  await page.getByRole('radio', { name, exact: true }).check();
  await expect(page.getByRole('grid')).toBeVisible();
};

/** Pastes text, tabs between its cells, where the focus is in the table, else into the table as a whole. */
export const pasteInto = (page: Page, text: string): Promise<void> =>
  page.getByRole('grid').evaluate((grid, typed) => {
    const clipboardData = new DataTransfer();
    clipboardData.setData('text/plain', typed);
    const target = grid.contains(document.activeElement) ? document.activeElement! : grid;
    target.dispatchEvent(new ClipboardEvent('paste', { clipboardData, bubbles: true, cancelable: true }));
  }, text);
