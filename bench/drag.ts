import { chromium, type Page } from '@playwright/test';
import {
  addPart,
  addRoom,
  addSystem,
  addZone,
  type Job,
  newJob,
  planPathOf,
} from '../packages/job/src/index.ts';
import { type Line, limited, plain } from './line.ts';
import { browserOptions, served } from './served.ts';

const MOST_FRAME_MS = 20;
const REGISTERS = 40;
const DRAG_MS = 3000;

/** A house of two rows of twenty rooms along one trunk, each with a register of its own. */
const longHouse = (): Job => {
  const writing = { units: 'ip' } as const;
  const room = (i: number) => ({
    id: `room-${i + 1}`,
    floor: {
      corner_m: [(i % 20) * 3, i < 20 ? 0 : 5] as const,
      width_m: 3,
      depth_m: 4,
    },
  });
  let job = newJob({ name: 'Forty registers', station: 'Houston', room: room(0) }, writing);
  for (let i = 1; i < REGISTERS; i++) job = addRoom(job, room(i), writing);
  job = addZone(job, { id: 'attic', kind: 'attic' }, writing);
  job = addSystem(job, {
    id: 'main',
    thermostatRoom: 'room-1',
    equipment: {
      kind: 'furnace with air conditioner',
      heating: { output: '120 kBtu/h' },
      cooling: { total: '10 tons' },
    },
    airHandler: { zone: 'attic' },
    parts: [],
  });
  job = addPart(
    job,
    'main',
    {
      id: 'trunk',
      side: 'supply',
      role: 'trunk',
      joins: 'air-handler',
      section: '40 in x 16 in',
      zone: 'attic',
      path_m: [
        [0, 4.5],
        [60, 4.5],
      ],
    },
    writing,
  );
  job = addPart(
    job,
    'main',
    {
      id: 'return',
      side: 'return',
      role: 'run',
      joins: 'air-handler',
      section: '30 in',
      material: 'galvanized',
      zone: 'attic',
      path_m: [
        [0, 4.5],
        [1.5, 3.5],
      ],
      terminal: { id: 'grille', room: 'room-1', face: '40 in x 40 in' },
    },
    writing,
  );
  for (let i = 0; i < REGISTERS; i++) {
    const x = (i % 20) * 3 + 1.5;
    const y = i < 20 ? 1.5 : 7.5;
    job = addPart(
      job,
      'main',
      {
        id: `run-${i + 1}`,
        side: 'supply',
        role: 'run',
        joins: 'trunk',
        section: '8 in',
        zone: 'attic',
        path_m: [
          [x, 4.5],
          [x, (y + 4.5) / 2],
          [x + 0.5, y],
        ],
        terminal: { id: `register-${i + 1}`, room: `room-${i + 1}`, face: '12 in x 6 in' },
      },
      writing,
    );
  }
  return job;
};

/** Opens the job on the drawing board. */
const show = async (page: Page, url: string, job: Job): Promise<void> => {
  await page.goto(url);
  await page.getByRole('contentinfo').getByText('Account closes').waitFor();
  await page.getByRole('button', { name: 'File' }).click();
  await page.getByLabel('Job file').setInputFiles({
    name: 'forty.airledger.json',
    mimeType: 'application/json',
    buffer: Buffer.from(JSON.stringify(job)),
  });
  await page.getByRole('heading', { level: 1, name: job.name }).waitFor();
  await page.getByRole('navigation').getByRole('button', { name: /^Draw/ }).click();
  await page.locator('[data-part="run-30"]').waitFor();
};

/** Frame times while a run's bend is dragged round and round, ms. */
const dragged = async (page: Page, job: Job): Promise<readonly number[]> => {
  const part = job.systems![0]!.parts.find(({ id }) => id === 'run-30')!;
  const board = page.getByRole('application', { name: 'Drawing board' });
  const box = (await board.boundingBox())!;
  const transform = (await board.locator('> g[transform]').first().getAttribute('transform'))!;
  const [x0 = 0, y0 = 0, scale = 1] = transform.match(/-?[\d.]+(?:e-?\d+)?/g)!.map(Number);
  const unit = 40 * scale;
  const [east, north] = planPathOf(part)[1]!;
  const [x, y] = [box.x + x0 + east * unit, box.y + y0 - north * unit];
  await page.mouse.click(x, y - 4);
  await page.locator('[data-part="run-30"].chosen').waitFor();
  // As text: a function would carry names of the loader that the page does not have.
  await page.evaluate(`{
    let last = performance.now();
    window.frames_ms = [];
    requestAnimationFrame(function tick() {
      const now = performance.now();
      window.frames_ms.push(now - last);
      last = now;
      requestAnimationFrame(tick);
    });
  }`);
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + 8, y + 3);
  await page.evaluate('void window.frames_ms.splice(0)');
  const start = performance.now();
  for (let i = 0; performance.now() - start < DRAG_MS; i++) {
    const turn = i / 8;
    await page.mouse.move(x + 14 * Math.sin(turn), y + 9 * Math.cos(turn));
  }
  const frames = await page.evaluate<number[]>('[...window.frames_ms]');
  await page.mouse.up();
  return frames;
};

/** Frame times while a run is dragged on a house of forty registers, its account following. */
export async function drag(): Promise<Line[]> {
  const job = longHouse();
  const { url, end } = await served();
  const browser = await chromium.launch(browserOptions);
  try {
    const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
    await show(page, url, job);
    const sorted = [...(await dragged(page, job))].sort((a, b) => a - b);
    if (sorted.length < 30) throw new Error(`Only ${sorted.length} frames in ${DRAG_MS} ms of dragging.`);
    const share = (part: number): number =>
      sorted[Math.min(sorted.length - 1, Math.floor(part * sorted.length))]!;
    return [
      plain('drag frames', sorted.length, ''),
      plain('drag frame median', share(0.5), 'ms'),
      limited('drag frame p95', share(0.95), 'ms', 'most', MOST_FRAME_MS),
    ];
  } finally {
    await browser.close();
    await end();
  }
}
