import { mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { formatQuantity } from '@airledger/engine';
import { readJob, surveyOf } from '@airledger/job';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { quailRun, root, runCli } from './run-cli.ts';

let folder: string;
let html: string;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'airledger-test-'));
  const { code, stdout, stderr } = await runCli(['handover', quailRun]);
  expect([code, stderr]).toEqual([0, '']);
  html = stdout;
});
afterAll(() => rm(folder, { recursive: true, force: true }));

const survey = async () => {
  const read = readJob(await readFile(quailRun, 'utf8'));
  if ('errors' in read) throw new Error(read.errors[0]!.message);
  return surveyOf(read.job, 'as-specified');
};

const count = (pattern: RegExp) => html.match(pattern)?.length ?? 0;

test('names every room, part and zone, and leaves no hole', async () => {
  const { rooms, zones, systems } = await survey();
  for (const { name } of [...rooms, ...zones, ...systems.flatMap(({ parts }) => parts)])
    expect(html).toContain(name);
  expect(html).not.toMatch(/undefined|NaN|\[object|Infinity/);
});

test('states the leakage limit of each side as a flow at 25 Pa', async () => {
  const { systems, code } = await survey();
  for (const { designAirflow_m3s: design } of systems) {
    const flow = Math.min(design.heating, design.cooling);
    expect(html).toContain(`at most ${formatQuantity(code.supplyLeakageLimit * flow, 'airflow', 'ip')}`);
  }
});

test('is tagged: a caption for every table, a scope for every head, a name for every drawing', () => {
  expect(count(/<table>/g)).toBeGreaterThan(10);
  expect(count(/<caption>[^<]/g)).toBe(count(/<table>/g));
  expect(count(/<th[ >]/g)).toBe(count(/<th [^>]*scope=/g));
  // Two states on two design days.
  expect(count(/<svg [^>]*role="img"[^>]*aria-label="[^"]/g)).toBe(4);
  expect(count(/<h1>/g)).toBe(1);
  for (const [, id] of html.matchAll(/href="#([a-z]+)"/g)) expect(html).toContain(`<h2 id="${id}">`);
});

test('stands alone and says nothing of the machine or the day', async () => {
  expect(html).not.toMatch(/<script|<link|<img|https?:\/\/|url\(/);
  expect(html).not.toContain(root);
  expect((await runCli(['handover', quailRun], { cwd: folder })).stdout).toBe(html);
});

test('writes the same to a file, whole, over an older one', async () => {
  await writeFile(join(folder, 'page.html'), 'older');
  const { code, stdout } = await runCli(['handover', quailRun, '-o', 'page.html'], { cwd: folder });
  expect([code, stdout]).toEqual([0, '']);
  expect(await readFile(join(folder, 'page.html'), 'utf8')).toBe(html);
  expect(await readdir(folder)).toEqual(['page.html']);
});

test('shows one state alone when it is the first', async () => {
  const { stdout } = await runCli(['handover', quailRun, '--state', 'as-found']);
  expect(stdout).not.toContain('As specified');
  expect(stdout.match(/<svg /g)).toHaveLength(2);
});
