import { createHash, randomUUID } from 'node:crypto';
import { rm } from 'node:fs/promises';
import { request } from 'node:http';
import { type Job, mergeJobs, readJob, setField } from '@airledger/job';
import { type RefusalBody, type Revision, type StoredJob, startServer } from '@airledger/server';
import { afterAll, expect, test } from 'vitest';
import { freshData } from './fresh-data.ts';
import { jobsClient, tinyJob } from './jobs-client.ts';

const data = await freshData();
let server = await startServer({ port: 0, data });
let client = jobsClient(server.url);
afterAll(async () => {
  await server.close();
  await rm(data, { recursive: true, force: true });
});

const tiny = tinyJob();
const withHeight = (job: Job, room: string, to: string): Job =>
  setField(job, 'as-found', `rooms/${room}/height`, to);
const made = async (job: Job = tiny): Promise<StoredJob> => (await client.make({ job, who: 'Ada' })).body;
const refused = (answer: { status: number; body: unknown }) => [
  answer.status,
  (answer.body as RefusalBody).path,
];

test('the page is served while the store is still opening', async () => {
  const { body: state } = await client.ask<{ state: string }>('GET', 'api/store');
  expect(state.state).toBe('opening');
  expect((await client.ask('GET', 'api/demos')).status).toBe(200);
  expect((await client.ask<{ jobs: unknown[] }>('GET', 'api/jobs')).body.jobs).toEqual([]);
  expect((await client.ask<{ state: string }>('GET', 'api/store')).body.state).toBe('ready');
});

test('a job is made, opened and saved, as typed and in the order of its fields', async () => {
  const { status, body } = await client.make({ job: tiny, who: 'Ada' });
  expect([status, body.rev, body.name]).toEqual([201, 1, 'Two rooms']);
  const opened = await client.open(body.id);
  expect(opened.headers.get('etag')).toBe('"1"');
  expect(JSON.stringify(opened.body.job)).toBe(JSON.stringify(tiny));

  const saved = await client.save(body.id, 1, withHeight(tiny, 'bedroom', '9 ft'));
  expect([saved.status, saved.body.rev, saved.headers.get('etag')]).toEqual([200, 2, '"2"']);
  expect((await client.open(body.id)).body.job.rooms[1]?.height).toBe('9 ft');
});

test('a save that changes nothing makes no revision', async () => {
  const { id } = await made();
  expect((await client.save(id, 1, tiny)).body.rev).toBe(1);
});

test('a job that is still the same is not sent again', async () => {
  const { id } = await made();
  expect((await client.ask('GET', `api/jobs/${id}`, undefined, { 'if-none-match': '"1"' })).status).toBe(304);
});

test('two that edit one job do not overwrite each other: the second merges', async () => {
  const { id } = await made();
  expect((await client.save(id, 1, withHeight(tiny, 'bedroom', '9 ft'), { who: 'Ada' })).status).toBe(200);
  const mine = withHeight(tiny, 'living', '10 ft');
  const late = await client.save(id, 1, mine, { who: 'Ben' });
  expect([late.status, late.body.current.rev]).toEqual([412, 2]);
  const merged = mergeJobs(tiny, mine, late.body.current.job);
  expect(merged.clashes).toEqual([]);
  expect((await client.save(id, 2, merged.job, { who: 'Ben' })).body.rev).toBe(3);
  expect((await client.open(id)).body.job.rooms.map((room) => room.height)).toEqual(['10 ft', '9 ft']);
});

test('of saves on one revision at the same moment, one is kept', async () => {
  const { id } = await made();
  const answers = await Promise.all(
    ['7 ft', '8 ft', '9 ft', '10 ft'].map((to) => client.save(id, 1, withHeight(tiny, 'bedroom', to))),
  );
  expect(answers.map((answer) => answer.status).sort()).toEqual([200, 412, 412, 412]);
});

test('the history says who changed what, newest first, page by page', async () => {
  const { id } = await made();
  await client.save(id, 1, withHeight(tiny, 'bedroom', '9 ft'), { who: 'Ben' });
  await client.save(id, 2, withHeight(tiny, 'bedroom', '10 ft'), { who: 'Ada', what: 'As measured' });
  const read = async (query: string) =>
    (await client.ask<{ revisions: Revision[] }>('GET', `api/jobs/${id}/history${query}`)).body.revisions;
  expect((await read('')).map(({ rev, who, what }) => [rev, who, what])).toEqual([
    [3, 'Ada', 'As measured'],
    [2, 'Ben', 'Room bedroom: height 9 ft'],
    [1, 'Ada', 'Made'],
  ]);
  const [second] = await read('?before=3&most=1');
  expect(second).toMatchObject({ rev: 2, diff: [{ path: 'rooms/bedroom/height', to: '9 ft' }] });
  expect(Date.now() - Date.parse(second!.at)).toBeLessThan(60_000);
});

test('a job is found by any words of its name, address and client, and literally', async () => {
  await made({ ...tiny, name: 'Elm Court', about: { client: 'Mrs. Abernathy', address: '12 % Lane' } });
  const names = async (query: string) =>
    (await client.ask<{ jobs: { name: string }[] }>('GET', `api/jobs?${query}`)).body.jobs.map(
      (job) => job.name,
    );
  expect(await names('search=abernathy%20elm')).toEqual(['Elm Court']);
  expect(await names('search=%25%20lane')).toEqual(['Elm Court']);
  expect(await names('search=e_m')).toEqual([]);
});

test('an archived job leaves the list, can still be opened, and comes back', async () => {
  const { id } = await made({ ...tiny, name: 'Old house' });
  const listed = async (archived: boolean) =>
    (await client.ask<{ jobs: StoredJob[] }>('GET', `api/jobs?archived=${archived}`)).body.jobs.some(
      (job) => job.id === id,
    );
  await client.ask('POST', `api/jobs/${id}/archive`, { archived: true });
  expect([await listed(false), await listed(true), (await client.open(id)).status]).toEqual([
    false,
    true,
    200,
  ]);
  await client.ask('POST', `api/jobs/${id}/archive`, { archived: false });
  expect([await listed(false), await listed(true)]).toEqual([true, false]);
});

test('a copy is a job of its own', async () => {
  const original = await made();
  const copy = (await client.make({ duplicateOf: original.id, who: 'Ada' })).body;
  expect([copy.name, copy.rev]).toEqual(['Two rooms (copy)', 1]);
  await client.save(copy.id, 1, withHeight(tiny, 'bedroom', '9 ft'));
  expect((await client.open(original.id)).body.job).toEqual(tiny);
});

test('a job made without a network keeps its id, and is not made twice', async () => {
  const id = randomUUID();
  expect((await client.make({ id, job: tiny })).body.id).toBe(id);
  const again = await client.make({ id, job: withHeight(tiny, 'bedroom', '9 ft') });
  expect([again.status, (again.body as unknown as { current: StoredJob }).current.job]).toEqual([409, tiny]);
});

test('a photo is kept apart and travels with the file of its job', async () => {
  const bytes = new Uint8Array(200_000).map((_, i) => (i * 31) % 256);
  const sha256 = createHash('sha256').update(bytes).digest('hex');
  const put = (name: string, type: string) =>
    fetch(new URL(`api/blobs/${name}`, server.url), {
      method: 'PUT',
      body: bytes,
      headers: { 'content-type': type },
    });
  expect((await put(sha256, 'image/jpeg')).status).toBe(201);
  expect((await put(sha256, 'image/jpeg')).status).toBe(201);
  expect((await put('0'.repeat(64), 'image/jpeg')).status).toBe(400);
  expect((await put(sha256, 'text/html')).status).toBe(415);
  const got = await fetch(new URL(`api/blobs/${sha256}`, server.url));
  expect([got.headers.get('content-type'), new Uint8Array(await got.arrayBuffer())]).toEqual([
    'image/jpeg',
    bytes,
  ]);
  expect((await fetch(new URL(`api/blobs/${'1'.repeat(64)}`, server.url))).status).toBe(404);

  const job: Job = { ...tiny, photos: [{ id: 'boot', sha256, of: 'systems/main/parts/run-bedroom' }] };
  const { id } = await made(job);
  const file = await fetch(new URL(`api/jobs/${id}/file`, server.url));
  expect(file.headers.get('content-disposition')).toBe('attachment; filename="two-rooms.airledger.json"');
  const text = await file.text();
  const read = readJob(text);
  if ('errors' in read) throw new Error('the exported file is not read');
  expect(read.job.files).toHaveLength(1);

  const imported = await client.make({ job: read.job, what: 'Imported' });
  expect([imported.status, imported.body.job]).toEqual([201, job]);
  const damaged = { ...read.job, files: [{ ...read.job.files![0]!, data: 'AAAA' }] };
  expect(refused(await client.make({ job: damaged }))).toEqual([400, `files/${sha256}`]);
});

test('what cannot be met is refused with what would do', async () => {
  const { id } = await made();
  const wrong = await client.make({ job: { ...tiny, rooms: [{ id: 'a', height: '900 ft' }] } });
  expect(refused(wrong)).toEqual([400, 'rooms/a/height']);
  expect((wrong.body as unknown as RefusalBody).remedy).toBeTruthy();
  expect((await client.open(id)).body.job).toEqual(tiny);
  expect(refused(await client.make({ job: 'nothing' })).at(0)).toBe(400);
  expect((await client.ask('POST', 'api/jobs', ['job'])).status).toBe(400);
  expect(refused(await client.ask('PUT', `api/jobs/${id}`, { job: tiny }))).toEqual([428, 'if-match']);
  expect((await client.open(randomUUID())).status).toBe(404);
  expect(refused(await client.open('../job'))[0]).toBe(404);
  expect(refused(await client.open('1; drop table job'))).toEqual([400, 'id']);
  expect((await client.save(randomUUID(), 1, tiny)).status).toBe(404);
  expect((await client.ask('POST', `api/jobs/${randomUUID()}/archive`, {})).status).toBe(404);
});

test('a page of another site is not answered', async () => {
  const status = await new Promise((done) =>
    request(new URL('api/jobs', server.url), { headers: { host: 'elsewhere.example' } }, (answer) =>
      done(answer.statusCode),
    ).end(),
  );
  expect(status).toBe(403);
});

test('a second server on the same folder serves its page and says why it has no jobs', async () => {
  const second = await startServer({ port: 0, data });
  const other = jobsClient(second.url);
  const { status, body } = await other.ask<RefusalBody>('GET', 'api/jobs');
  expect([status, body.error]).toEqual([503, expect.stringContaining(`process ${process.pid}`)]);
  expect((await other.ask('GET', 'api/demos')).status).toBe(200);
  await second.close();
});

test('jobs are there after a restart', async () => {
  const { id } = await made();
  await client.save(id, 1, withHeight(tiny, 'bedroom', '9 ft'));
  await server.close();
  server = await startServer({ port: 0, data });
  client = jobsClient(server.url);
  expect((await client.open(id)).body).toMatchObject({ rev: 2, job: withHeight(tiny, 'bedroom', '9 ft') });
});
