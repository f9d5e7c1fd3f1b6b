import { setTimeout as wait } from 'node:timers/promises';
import { expect, type Page } from '@playwright/test';
import { seededRandom } from '../../packages/engine/src/numerics/seeded-random.ts';
import { test as base, kept, open, serverJob } from './kept-house.ts';
import { showArea } from './open-house.ts';
import { type OwnBrowser, ownBrowser } from './own-browser.ts';

/** So many kills; a night's run sets more. */
const kills = Number(process.env.AIRLEDGER_KILLS ?? 3);
base.describe.configure({ timeout: 60_000 + 30_000 * kills });

const test = base.extend<{ tablet: OwnBrowser }>({
  tablet: async ({ launchOptions }, use) => {
    const tablet = await ownBrowser(launchOptions);
    await use(tablet);
    await tablet.remove();
  },
});

const notes = (page: Page) =>
  page.locator('[data-field="about/notes"]').getByRole('textbox', { name: 'Notes', exact: true });
const numberOf = (text: string) => Number(/^Edit (\d+)$/.exec(text)?.[1] ?? 0);

/** What the page says of its keeping two frames from now: what is shown then is of the last edit. */
const status = (page: Page) =>
  page.evaluate(
    () =>
      new Promise<string>((resolve) => {
        const read = () => resolve(document.querySelector('.status .kept')?.textContent ?? '');
        requestAnimationFrame(() => requestAnimationFrame(read));
      }),
  );

test(`no acknowledged edit is lost over ${kills} kills of the server and the browser while editing`, async ({
  server,
  tablet,
}) => {
  const start = async (): Promise<Page> => {
    const page = await tablet.start();
    await open(page, server.url);
    await showArea(page, 'Survey');
    await expect(notes(page)).toBeVisible();
    return page;
  };

  let sent = 0;
  /** Last edit that the page called saved: in this browser, and at the server. */
  let acknowledged = { here: 0, there: 0 };
  const edit = async (page: Page) => {
    sent++;
    await notes(page).fill(`Edit ${sent}`);
    await notes(page).press('Enter');
    for (const until = Date.now() + 1500; Date.now() < until && acknowledged.there < sent; ) {
      const words = await status(page);
      if (words.startsWith('Saved')) acknowledged.here = sent;
      if (words === 'Saved') acknowledged.there = sent;
    }
  };

  let page = await start();
  await edit(page);
  await kept(page, 'Saved');
  acknowledged = { here: sent, there: sent };
  const random = seededRandom(7);
  const ends = { browser: 0, server: 0, both: 0 };
  let edits = 0;
  /** Kills that fell between an edit and its acknowledgement. */
  let inFlight = 0;
  for (let round = 0; round < kills; round++) {
    const what = (['browser', 'server', 'both'] as const)[round % 3]!;
    const before = acknowledged.here;
    let over = false;
    const editing = (async () => {
      while (!over) await edit(page);
    })().catch((error: unknown) => {
      if (!over) throw error;
    });
    await wait(200 + random() * 2500);
    over = true;
    const { here, there } = acknowledged;
    if (sent > there) inFlight++;
    if (what !== 'browser') await server.kill();
    if (what !== 'server') await tablet.kill();
    await editing;
    ends[what]++;
    if (what !== 'browser') await server.start();
    if (what !== 'server') page = await start();

    // What was called saved in the browser is there, and so is, at the server, what was called saved.
    const shown = numberOf(await notes(page).inputValue());
    expect(shown, `in the browser after kill ${round + 1}, ${what}`).toBeGreaterThanOrEqual(here);
    const stored = numberOf((await serverJob(server.url)).about.notes);
    expect(stored, `at the server after kill ${round + 1}, ${what}`).toBeGreaterThanOrEqual(there);
    await kept(page, 'Saved');
    expect(numberOf((await serverJob(server.url)).about.notes)).toBe(shown);
    edits += here - before;
    acknowledged = { here: shown, there: shown };
  }
  console.log(
    `${sent} edits, ${edits} of them acknowledged while killing; ${inFlight} kills before the server had acknowledged the edit; kills: ${ends.browser} of the browser, ${ends.server} of the server, ${ends.both} of both; none lost`,
  );
});
