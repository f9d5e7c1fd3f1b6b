import {
  emptyUndoStack,
  type HistoryEntry,
  type Job,
  type JobError,
  referredFiles,
  type StoredFile,
  withFiles,
  withoutFiles,
  writeJob,
} from '@airledger/job';
import { showJob } from '../document/show-job.ts';
import { whoAmI } from '../document/who.ts';
import { useWorkbench } from '../state/store.ts';
import { engine } from '../worker/engine-client.ts';
import { hold, lastJob, save } from './autosave.ts';
import { keepFile, keptFile } from './files.ts';
import { type KeptJob, localStore, safely, wordsOf } from './local-store.ts';
import { send } from './send.ts';
import { type ServerHead, server } from './server.ts';

/** A job of the list: kept here, at the server, or at both. */
export type ListedJob = {
  readonly id: string;
  readonly name: string;
  readonly archived: boolean;
  readonly updatedAt: string;
  readonly place: 'here' | 'server' | 'both';
};

/** Jobs that hold every word of a search, the last touched first; without the server, those kept here. */
export const listJobs = async (search: string, archived: boolean): Promise<readonly ListedJob[]> => {
  const words = search.toLowerCase().split(/\s+/).filter(Boolean);
  const kept = await (await localStore()).getAll('jobs');
  const there = await server.list(search, archived).catch((): readonly ServerHead[] => []);
  const thereIds = new Set(there.map(({ id }) => id));
  const keptIds = new Set(kept.map(({ id }) => id));
  const here = kept.filter(
    (job) => job.archived === archived && words.every((word) => job.words.toLowerCase().includes(word)),
  );
  return [
    ...here.map(
      ({ id, name, updatedAt, rev }): ListedJob => ({
        id,
        name,
        archived,
        updatedAt,
        place: thereIds.has(id) || rev !== undefined ? 'both' : 'here',
      }),
    ),
    ...there
      .filter(({ id }) => !keptIds.has(id))
      .map(({ id, name, updatedAt }): ListedJob => ({ id, name, archived, updatedAt, place: 'server' })),
  ].toSorted((a, b) => b.updatedAt.localeCompare(a.updatedAt));
};

/** The job that was in hand last; where the browser was ended before it had noted which, the one edited last. */
export const lastInHand = async (): Promise<string | undefined> =>
  localStorage.getItem(lastJob) ??
  (await (await localStore()).getAll('jobs'))
    .filter(({ archived }) => !archived)
    .toSorted((a, b) => b.updatedAt.localeCompare(a.updatedAt))[0]?.id;

/** Opens a kept job, from here or from the server; false when neither has it. */
export const openKept = async (id: string): Promise<boolean> => {
  await save();
  const record = (await (await localStore()).get('jobs', id)) ?? (await bring(id));
  if (!record) return false;
  const entries = (await (await localStore()).getAllFromIndex('changes', 'job', id))
    .map(({ entry }) => entry)
    .toSorted((a, b) => a.at.localeCompare(b.at));
  const opening = await engine.openJob(record.job);
  if (!opening.opened) {
    useWorkbench.setState({ refused: { fileName: record.name, problems: opening.problems } });
    return false;
  }
  hold({ ...record, job: opening.typed }, entries);
  showJob({
    id,
    fileName: record.name,
    typed: opening.typed,
    opened: opening.job,
    steps: record.steps,
    history: entries,
  });
  localStorage.setItem(lastJob, id);
  send(id, 0);
  return true;
};

/** Brings a job from the server into the browser's store, with its history. */
const bring = async (id: string): Promise<KeptJob | undefined> => {
  const stored = await server.get(id).catch(() => undefined);
  if (!stored) return undefined;
  const revisions = await server.history(id, 1000).catch(() => []);
  const { job, rev, archived, updatedAt } = stored;
  const record: KeptJob = {
    id,
    seq: 1,
    name: job.name,
    words: wordsOf(job),
    archived,
    updatedAt,
    job,
    steps: emptyUndoStack,
    base: job,
    rev,
    archivedThere: archived,
    unsent: [],
    clashes: [],
  };
  const transaction = (await localStore()).transaction(['jobs', 'changes'], 'readwrite', safely);
  await transaction.objectStore('jobs').put(record);
  for (const { rev: at, ...entry } of revisions.toReversed())
    await transaction.objectStore('changes').add({ job: id, entry, rev: at });
  await transaction.done;
  return record;
};

/** Keeps a new job and opens it. What it says of itself is the first line of its history. */
export const keepNew = async (job: Job, what: string, source?: string): Promise<string> => {
  const id = crypto.randomUUID();
  await putNew(id, job, what, source);
  await openKept(id);
  void navigator.storage?.persist?.();
  return id;
};

const putNew = async (id: string, job: Job, what: string, source?: string): Promise<void> => {
  const entry: HistoryEntry = {
    at: new Date().toISOString(),
    who: whoAmI() || 'someone here',
    what,
    diff: [],
  };
  const transaction = (await localStore()).transaction(['jobs', 'changes'], 'readwrite', safely);
  await transaction.objectStore('jobs').put({
    id,
    seq: 1,
    name: job.name,
    words: wordsOf(job),
    archived: false,
    updatedAt: entry.at,
    job,
    steps: emptyUndoStack,
    unsent: [what],
    clashes: [],
    ...(source !== undefined && { source }),
  });
  await transaction.objectStore('changes').add({ job: id, entry });
  await transaction.done;
  send(id, 0);
};

/** A kept job that was made from this file, if there is one. */
export const keptFrom = async (source: string): Promise<string | undefined> =>
  (await (await localStore()).getAll('jobs')).find((job) => job.source === source)?.id;

/** Keeps a copy of a job and opens it. */
export const duplicateJob = async (id: string): Promise<void> => {
  await save();
  const original = (await (await localStore()).get('jobs', id)) ?? (await bring(id));
  if (!original) return;
  const { job, name } = original;
  await keepNew({ ...job, name: `${name} (copy)` }, `Copied from ${name}`);
};

/** Puts a job out of the way, or back; nothing is ever deleted. */
export const archiveJob = async (id: string, archived: boolean): Promise<void> => {
  await save();
  if (!(await (await localStore()).get('jobs', id)) && !(await bring(id))) return;
  const transaction = (await localStore()).transaction('jobs', 'readwrite', safely);
  const record = await transaction.store.get(id);
  if (record) await transaction.store.put({ ...record, archived });
  await transaction.done;
  send(id, 0);
};

/** Keeps the job of a file, photos included, and opens it; or all that is wrong with the file. */
export const importJob = async (
  fileName: string,
  text: string,
  source?: string,
): Promise<readonly JobError[]> => {
  const opening = await engine.openJob(text);
  if (!opening.opened) return opening.problems;
  const { job, files } = withoutFiles(opening.typed);
  for (const [sha256, { type, bytes }] of files)
    await keepFile(sha256, new Blob([bytes as Uint8Array<ArrayBuffer>], { type }));
  await keepNew(job, `Made from ${fileName}`, source);
  return [];
};

/** The job as one file with its photos on board, as far as they are within reach. */
export const jobFile = async (job: Job): Promise<Blob> => {
  const files = new Map<string, StoredFile>();
  for (const sha256 of referredFiles(job)) {
    const file = await keptFile(sha256);
    if (file) files.set(sha256, { type: file.type, bytes: new Uint8Array(await file.blob.arrayBuffer()) });
  }
  return new Blob([writeJob(withFiles(job, files))], { type: 'application/json' });
};

/** Saves the job in hand as a file. */
export const exportJob = async (): Promise<void> => {
  const { typed } = useWorkbench.getState();
  if (!typed) return;
  const url = URL.createObjectURL(await jobFile(typed));
  const link = document.createElement('a');
  link.href = url;
  link.download = `${
    typed.name
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, '-')
      .replace(/^-+|-+$/g, '') || 'house'
  }.airledger.json`;
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
};
