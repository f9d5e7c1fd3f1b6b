import AxeBuilder from '@axe-core/playwright';
import { expect, type Page } from '@playwright/test';

/** The themes share one structure: in the second only what colours can break is looked at again. */
const rulesOfColour = ['color-contrast', 'link-in-text-block'];

/** Axe finds no fault in the page, or in a part of it, as it stands: in light colours and in dark ones. */
export const axeClean = async (page: Page, part?: string): Promise<void> => {
  for (const colorScheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme });
    await expect(page.locator('html')).toHaveAttribute('data-theme', colorScheme);
    // A blank page for the sum over frames of other origins would double the time: there are no frames here.
    const axe = new AxeBuilder({ page }).setLegacyMode();
    if (part) axe.include(part);
    if (colorScheme === 'dark') axe.withRules(rulesOfColour);
    const { violations } = await axe.analyze();
    expect(
      violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html.slice(0, 120)).join(' | ')}`),
      `in ${colorScheme} colours`,
    ).toEqual([]);
  }
};
