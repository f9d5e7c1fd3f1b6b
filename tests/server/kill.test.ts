import { rm } from 'node:fs/promises';
import { setTimeout as wait } from 'node:timers/promises';
import { seededRandom } from '@airledger/engine';
import type { Revision } from '@airledger/server';
import { expect, test } from 'vitest';
import { buildServer, spawnServer } from './built-server.ts';
import { freshData } from './fresh-data.ts';
import { jobsClient, tinyJob } from './jobs-client.ts';

const kills = 100;
/** A kill falls anywhere within so many saves after the first, however fast the machine is. */
const saves = 3;

test(`no acknowledged edit is lost over ${kills} kills at random moments while editing`, async () => {
  await buildServer();
  const data = await freshData();
  const random = seededRandom(20);
  const job = tinyJob();
  const nameOf = (edit: number) => `Edit ${edit}`;
  /** Edits as counted: sent, and acknowledged by the server. */
  let sent = 0;
  let acknowledged = 0;
  const answered: number[] = [];

  let server = await spawnServer(data);
  const { id } = (await jobsClient(server.url).make({ job: { ...job, name: nameOf(0) } })).body;
  for (let round = 0; round < kills; round++) {
    // The next server starts while this one is edited on; it opens the store when it is first asked, after the kill.
    const next = spawnServer(data);
    const client = jobsClient(server.url);
    let { rev } = (await client.open(id)).body;
    const save = async () => {
      sent++;
      const saved = await client.save(id, rev, { ...job, name: nameOf(sent) });
      if (saved.status !== 200) throw new Error(`edit ${sent} was refused: ${saved.body.error}`);
      rev = saved.body.rev;
      acknowledged = sent;
      answered.push(sent);
    };
    const start = performance.now();
    await save();
    const one_ms = performance.now() - start;

    let killed = false;
    const editing = (async () => {
      while (!killed) await save();
    })().catch((error: unknown) => {
      if (!killed) throw error;
    });
    await wait(random() * saves * one_ms);
    killed = true;
    await server.kill();
    await editing;

    server = await next;
    const found = (await jobsClient(server.url).open(id)).body;
    const edit = Number(found.job.name.slice('Edit '.length));
    expect(edit, `after kill ${round + 1}`).toBeGreaterThanOrEqual(acknowledged);
    expect(edit).toBeLessThanOrEqual(sent);
    expect(found.job).toEqual({ ...job, name: nameOf(edit) });
  }

  const client = jobsClient(server.url);
  const revisions: Revision[] = [];
  for (let before = Number.MAX_SAFE_INTEGER; before > 1; before = revisions.at(-1)!.rev) {
    const page = before === Number.MAX_SAFE_INTEGER ? '' : `&before=${before}`;
    revisions.push(
      ...(await client.ask<{ revisions: Revision[] }>('GET', `api/jobs/${id}/history?most=1000${page}`)).body
        .revisions,
    );
  }
  await server.kill();
  await rm(data, { recursive: true, force: true });

  // Every revision from the first to the last is there, and every acknowledged edit is one of them.
  expect(revisions.map(({ rev }) => rev)).toEqual(revisions.map((_, i) => revisions.length - i));
  const kept = new Set(
    revisions.flatMap(({ diff }) => diff.map((each) => ('to' in each ? each.to : undefined))),
  );
  expect(answered.filter((edit) => !kept.has(nameOf(edit)))).toEqual([]);
  expect(answered.length).toBeGreaterThanOrEqual(kills);
  console.log(`${answered.length} acknowledged of ${sent} edits, ${kills} kills, none lost`);
}, 600_000);
