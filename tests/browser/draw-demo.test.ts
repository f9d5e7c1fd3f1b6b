import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, type Page } from '@playwright/test';
import { quailRun, runCli } from '../cli/run-cli.ts';
import { airHandlerAt, demo, doors, ducts, east, type Feet, openings, outlineOf } from './demo-house.ts';
import { noteHouse, noteRest, pasteAt } from './demo-notes.ts';
import { board, clickAt, drag, onScreen, typeFigures } from './drawing-board.ts';
import { choose, gets, kept, serverJob, solved, test } from './kept-house.ts';
import { showArea } from './open-house.ts';
import { planPicture } from './plan-picture.ts';

test.describe.configure({ timeout: 240_000 });
test.use({ viewport: { width: 1920, height: 1200 }, actionTimeout: 15_000 });

/** A hand that draws: with a mouse over a picture, or with keys and typed figures. */
type Hand = {
  readonly room: (outline: readonly Feet[]) => Promise<void>;
  readonly line: (points: readonly Feet[]) => Promise<void>;
  readonly outline: (points: readonly Feet[]) => Promise<void>;
  readonly put: (at: Feet) => Promise<void>;
  readonly tool: (name: string) => Promise<void>;
  readonly option: (name: string, value: string) => Promise<void>;
  readonly confirm: () => Promise<void>;
  /** Takes away the room that a new house begins with. */
  readonly clear: () => Promise<void>;
};

const options = (page: Page) => page.locator('.draw-options');
const fittings = (page: Page) => page.getByRole('region', { name: /^Fittings of/ });
const keyOf: Readonly<Record<string, string>> = {
  Room: 'r',
  Outline: 'p',
  Zone: 'z',
  Door: 'd',
  Window: 'w',
  'Air handler': 'a',
  Trunk: 't',
  Run: 'u',
};

const begin = async (page: Page, url: string) => {
  await page.route('**/api/demos', (route) => route.fulfill({ json: { demos: [] } }));
  await page.goto(url);
  await page.getByRole('button', { name: 'New house …' }).click();
  await page.getByRole('dialog', { name: 'New house' }).getByLabel('Name').fill('Traced');
  await page.getByRole('button', { name: 'Begin with one room, draw it' }).click();
  await noteHouse(page);
  await showArea(page, 'Draw');
  await expect(board(page)).toBeVisible();
  await page.getByRole('button', { name: 'Account', expanded: true }).click();
};

/** A tool stays in hand until another is taken. */
const sparing = (hand: Hand): Hand => {
  let held = '';
  return {
    ...hand,
    tool: async (name) => {
      if (name !== held) await hand.tool(name);
      held = name;
    },
    clear: async () => {
      await hand.clear();
      held = '';
    },
  };
};

/** An option of the tool in hand, and whether it is a list of words; none if it stands as wanted. */
const optionToSet = async (page: Page, name: string, value: string) => {
  const field = options(page).getByLabel(name);
  const [tag, now] = await field.evaluate((element: HTMLInputElement) => [element.tagName, element.value]);
  return now === value ? undefined : { field, isList: tag === 'SELECT' };
};

/** Draws all of the house: rooms, openings, doors, the attic, the air handler and its ducts. */
const drawHouse = async (page: Page, barehand: Hand) => {
  const hand = sparing(barehand);
  const rooms = [...demo.rooms].sort((a, b) => b.outline.length - a.outline.length);
  for (const [i, { use, outline }] of rooms.entries()) {
    await hand.tool(outline.length === 4 ? 'Room' : 'Outline');
    await hand.option('Use', use);
    await hand.room(outlineOf(outline));
    await expect(board(page).locator('[data-room]')).toHaveCount(i === 0 ? 2 : i + 1);
    if (i === 0) await hand.clear();
  }
  await expect(board(page).locator('[data-room]')).toHaveCount(demo.rooms.length);
  await hand.tool('Zone');
  await hand.outline(outlineOf(demo.zones[0]!.outline));
  for (const { kind, size, at } of openings) {
    await hand.tool(kind === 'window' ? 'Window' : 'Door');
    if (kind === 'window') await hand.option('Size', size);
    else await hand.option('Kind', 'outside');
    await hand.put(at);
  }
  for (const { kind, at } of doors) {
    await hand.tool('Door');
    await hand.option('Kind', kind);
    await hand.put(at);
  }
  await expect(board(page).locator('[data-opening]')).toHaveCount(openings.length + doors.length);
  await hand.tool('Air handler');
  await hand.put(airHandlerAt);
  for (const [i, { part, path, rises }] of ducts.entries()) {
    // The stub ends in the air and not at a register: it is drawn as a piece of trunk.
    const run = part.role === 'run' && part.terminal !== undefined;
    await hand.tool(run ? 'Run' : 'Trunk');
    if (!run) await hand.option('Kind', part.role === 'plenum' ? 'plenum' : 'trunk');
    await hand.option('Side', part.side);
    if (run) await hand.option('Rises', `${rises.toFixed(3)} ft`);
    await hand.line(path);
    await expect(board(page).locator('[data-part]')).toHaveCount(i + 1);
    await hand.confirm();
  }
  await expect(board(page).locator('[data-part]')).toHaveCount(ducts.length);
};

type Room = { name: string; load_W: number; needed_m3s: number; delivered_m3s: number };
type Figures = Record<'heating' | 'cooling', { house: Omit<Room, 'name'>; rooms: Room[] }>;

const accountOf = async (path: string): Promise<Figures> => {
  const { stdout, stderr } = await runCli(['account', path, '--json', '--state', 'as-found']);
  expect(stderr).toBe('');
  return JSON.parse(stdout).accounts;
};

/** The account of the drawn house is that of the job file, room by room, within 1 %. */
const sameAccount = async (job: object) => {
  const folder = await mkdtemp(join(tmpdir(), 'airledger-drawn-'));
  const path = join(folder, 'drawn.airledger.json');
  await writeFile(path, JSON.stringify(job));
  const [drawn, filed] = await Promise.all([accountOf(path), accountOf(quailRun)]);
  await rm(folder, { recursive: true });
  const far: string[] = [];
  for (const mode of ['heating', 'cooling'] as const) {
    const pairs = [
      ...filed[mode].rooms.map(
        (room) => [room.name, room, drawn[mode].rooms.find(({ name }) => name === room.name)!] as const,
      ),
      ['House', filed[mode].house, drawn[mode].house] as const,
    ];
    for (const [name, a, b] of pairs)
      for (const figure of ['load_W', 'needed_m3s', 'delivered_m3s'] as const)
        if (Math.abs(b[figure] - a[figure]) > 0.01 * Math.abs(a[figure]))
          far.push(`${mode} ${name} ${figure}: ${b[figure]} drawn, ${a[figure]} in the file`);
  }
  expect(far).toEqual([]);
  return drawn;
};

const finish = async (page: Page, url: string) => {
  await showArea(page, 'Survey');
  // Rooms stand in the order in which they were drawn.
  const names = [...demo.rooms].sort((a, b) => b.outline.length - a.outline.length).map(({ name }) => name);
  await pasteAt(
    page,
    'Rooms',
    [0, 0],
    names.map((name) => [name]),
  );
  await kept(page, 'Saved');
  await noteRest(page, await serverJob(url));
  await solved(page);
  await kept(page, 'Saved');
  const drawn = await sameAccount(await serverJob(url));
  await page.getByRole('radio', { name: 'Room', exact: true }).check();
  await showArea(page, 'Air');
  await choose(page, 'Bedroom 3');
  const cfm = drawn.cooling.rooms.find(({ name }) => name === 'Bedroom 3')!.delivered_m3s / 0.000_471_947_4;
  expect(Math.abs((await gets(page)) - cfm)).toBeLessThanOrEqual(0.5);
};

test('the first demo house is traced from a picture by mouse, and comes to the account of its file', async ({
  page,
  server,
}) => {
  await begin(page, server.url);
  const picture = await planPicture(page);
  const { image } = picture;
  const tool = (name: string) =>
    page
      .getByRole('toolbar', { name: 'Tools' })
      .getByRole('button', { name: new RegExp(`^${name}`) })
      .click();
  await tool('Measure');
  await page.getByLabel('Picture or PDF of the plan').setInputFiles(picture.file);
  await expect(image).toHaveCount(1);
  await clickAt(page, await picture.at([0, 0]));
  await clickAt(page, await picture.at([east, 0]));
  await page.locator('.draw-typed').getByLabel('Length').fill(`${east} ft`);
  await page.keyboard.press('Enter');
  await picture.isScaled();
  // The whole picture comes into view: out with the wheel, then the board is pulled along.
  const { x, y, width, height } = (await board(page).boundingBox())!;
  await page.mouse.move(x + width / 2, y + height / 2);
  await page.mouse.wheel(0, 625 * Math.log((await image.boundingBox())!.width / (width - 60)));
  await expect.poll(async () => (await image.boundingBox())!.width).toBeLessThan(width - 50);
  const lies = (await image.boundingBox())!;
  await page.mouse.down({ button: 'middle' });
  await page.mouse.move(2 * x + width - lies.width / 2 - lies.x, 2 * y + height - lies.height / 2 - lies.y, {
    steps: 4,
  });
  await page.mouse.up({ button: 'middle' });
  await expect.poll(async () => (await image.boundingBox())!.x).toBeGreaterThan(x);
  const origin = await picture.at([0, 0]);
  const traced = ([x, y]: Feet): Feet => [origin[0] + x, origin[1] + y];

  await drawHouse(page, {
    tool,
    room: async (outline) => {
      if (outline.length === 4) await drag(page, traced(outline[0]!), traced(outline[2]!));
      else for (const corner of [...outline, outline[0]!]) await clickAt(page, traced(corner));
    },
    outline: async (outline) => {
      for (const corner of [...outline, outline[0]!]) await clickAt(page, traced(corner));
    },
    line: async (points) => {
      for (const point of [...points, points.at(-1)!]) await clickAt(page, traced(point));
    },
    put: (at) => clickAt(page, traced(at)),
    option: async (name, value) => {
      const option = await optionToSet(page, name, value);
      if (option?.isList) await option.field.selectOption(value);
      else await option?.field.fill(value);
    },
    confirm: async () => {
      const button = fittings(page).getByRole('button', { name: 'Confirm fittings' });
      if (await button.count()) await button.click();
    },
    clear: async () => {
      await page.keyboard.press('v');
      await clickAt(page, [3, 3]);
      await page.keyboard.press('Delete');
      await expect(board(page).locator('[data-room]')).toHaveCount(1);
    },
  });
  await finish(page, server.url);
});

test('the same house is drawn by keyboard alone, and comes to the same account', async ({ page, server }) => {
  await begin(page, server.url);
  /** Leads the crosshair to a point by arrow keys: half a foot each, five with Shift. */
  const lead = async (to: Feet) => {
    await page.keyboard.press('ArrowLeft');
    const [left, top] = (await board(page).locator('.crosshair').getAttribute('d'))!
      .match(/[\d.]+/g)!
      .map(Number) as [number, number];
    const [box, origin] = [(await board(page).boundingBox())!, await onScreen(page, [0, 0])];
    const unit = (await onScreen(page, [1, 0])).x - origin.x;
    const now = [(box.x + left + 14 - origin.x) / unit, (origin.y - box.y - top) / unit] as const;
    for (const [i, keys] of (['Right Left', 'Up Down'] as const).entries()) {
      const steps = Math.round(2 * (to[i]! - now[i]!));
      const key = `Arrow${keys.split(' ')[steps > 0 ? 0 : 1]}`;
      for (let n = 0; n < Math.floor(Math.abs(steps) / 10); n++) await page.keyboard.press(`Shift+${key}`);
      for (let n = 0; n < Math.abs(steps) % 10; n++) await page.keyboard.press(key);
    }
  };
  // The picture is laid and scaled: two of its points, and how far apart they are.
  const picture = await planPicture(page);
  await board(page).focus();
  await page.keyboard.press('m');
  const chooser = page.waitForEvent('filechooser');
  await page.getByRole('button', { name: 'Picture or PDF under the drawing …' }).press('Enter');
  await (await chooser).setFiles(picture.file);
  await expect(picture.image).toHaveCount(1);
  await board(page).focus();
  for (const end of [
    [0, 0],
    [east, 0],
  ] as const) {
    await lead(await picture.at(end));
    await page.keyboard.press('Enter');
  }
  await expect(page.locator('.draw-typed')).toContainText('True length');
  await typeFigures(page, String(east));
  await picture.isScaled();
  // The south-west corner of the house as the picture has it, on the grid.
  const [dx, dy] = (await picture.at([0, 0])).map((side) => Math.round(2 * side) / 2) as [number, number];
  const toPoint = ([x, y]: Feet) => typeFigures(page, String(x + dx), String(y + dy));
  /** Points of a line: the first by its place, each next by length and direction; Enter on the last ends it. */
  const line = async (points: readonly Feet[]) => {
    await toPoint(points[0]!);
    for (const [i, [x, y]] of points.slice(1).entries()) {
      const [over, up] = [x - points[i]![0], y - points[i]![1]];
      await typeFigures(
        page,
        Math.hypot(over, up).toFixed(4),
        ((Math.atan2(up, over) * 180) / Math.PI + 360).toFixed(4),
      );
    }
    await page.keyboard.press('Enter');
  };
  await drawHouse(page, {
    room: async (outline) => {
      if (outline.length > 4) return line(outline);
      const [[x1, y1], , [x2, y2]] = outline as [Feet, Feet, Feet, Feet];
      await toPoint([x1, y1]);
      await typeFigures(page, String(x2 - x1), String(y2 - y1));
    },
    outline: line,
    line,
    put: toPoint,
    tool: (name) => page.keyboard.press(keyOf[name]!),
    option: async (name, value) => {
      const option = await optionToSet(page, name, value);
      if (!option) return;
      const { field, isList } = option;
      await field.focus();
      if (isList) {
        const words = await field
          .locator('option')
          .evaluateAll(
            (all, wanted) => all.find((each) => (each as HTMLOptionElement).value === wanted)!.textContent!,
            value,
          );
        await page.keyboard.type(words);
        await expect(field).toHaveValue(value);
      } else {
        await page.keyboard.press('Control+a');
        await page.keyboard.type(value);
      }
      await board(page).focus();
    },
    confirm: async () => {
      if ((await fittings(page).count()) === 0) return;
      await fittings(page).getByRole('button', { name: 'Confirm fittings' }).focus();
      await page.keyboard.press('Enter');
      await expect(board(page)).toBeFocused();
    },
    clear: async () => {
      await page.keyboard.press('v');
      // From the last corner that was typed to the room that the house begins with.
      for (let i = 0; i < 6; i++) await page.keyboard.press('Shift+ArrowLeft');
      for (let i = 0; i < 4; i++) await page.keyboard.press('Shift+ArrowDown');
      await page.keyboard.press('Enter');
      await page.keyboard.press('Delete');
      await expect(board(page).locator('[data-room]')).toHaveCount(1);
    },
  });
  await finish(page, server.url);
});
