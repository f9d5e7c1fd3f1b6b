import { test as base, expect, type Page } from '@playwright/test';
import { card, figure, numberIn, toLowEnd } from './open-house.ts';
import { type OwnServer, ownServer } from './own-server.ts';

/** A test with a server of its own. */
export const test = base.extend<{ server: OwnServer }>({
  // biome-ignore lint/correctness/noEmptyPattern: the runner reads the names of fixtures from this pattern
  server: async ({}, use) => {
    const server = await ownServer();
    await use(server);
    await server.remove();
  },
});

export const solved = (page: Page) =>
  expect(page.getByRole('contentinfo')).toContainText('Account closes to better than 1 part in 10', {
    timeout: 30_000,
  });

export const open = async (page: Page, url: string) => {
  await page.goto(url);
  await solved(page);
};

/** Waits until everything of the page is put by for a time without network. */
export const putBy = async (page: Page) => {
  await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
};

export const kept = (page: Page, words: 'Saved' | 'Saved in this browser') =>
  expect(page.locator('.status .kept')).toHaveText(words, { timeout: 20_000 });

export const gets = (page: Page) => numberIn(figure(page, 'Gets'));

/** Takes a room in hand; after a reload it is the one that lacks most. */
export const choose = async (page: Page, room: string) => {
  await page.getByRole('button', { name: new RegExp(`^${room}: `) }).focus();
  await page.keyboard.press('Enter');
  await expect(card(page)).toContainText(room);
};

/** Tightens the takeoff of Bedroom 3 and keeps it. */
export const tighten = async (page: Page) => {
  await toLowEnd(page.getByRole('slider', { name: 'Leak at takeoff' }));
  await page.getByRole('button', { name: 'Keep it' }).click();
};

export const panel = async (page: Page, name: string) => {
  await page.getByRole('button', { name: 'File', exact: true }).click();
  await page.getByRole('button', { name: `${name} …` }).click();
};

export const rename = async (page: Page, from: string, to: string) => {
  await panel(page, 'States and their changes');
  const field = page.getByRole('textbox', { name: `Name of the state ${from}` });
  await field.fill(to);
  await field.press('Enter');
  await page.keyboard.press('Escape');
};

/** The one job that the server has. */
export const serverJob = async (url: string) => {
  const { jobs } = await (await fetch(`${url}/api/jobs`)).json();
  expect(jobs).toHaveLength(1);
  return (await (await fetch(`${url}/api/jobs/${jobs[0].id}`)).json()).job;
};
