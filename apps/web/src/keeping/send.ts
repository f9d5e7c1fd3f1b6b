import { diffJobs, referredFiles } from '@airledger/job';
import { whoAmI } from '../document/who.ts';
import { useWorkbench } from '../state/store.ts';
import { useKeeping } from './keeping-store.ts';
import { type KeptJob, localStore, safely } from './local-store.ts';
import { mergeVersions } from './merge-versions.ts';
import { NotTaken, OutOfReach, type ServerJob, server } from './server.ts';
import { tellHere, tellTabs } from './tabs.ts';

/** Time after a change until it is sent, and between looks for what others sent, which try again as well, ms. */
const rest_ms = 400;
const look_ms = 5_000;

const timers = new Map<string, number>();

/** Sends a kept job to the server soon; what comes in between goes with it. */
export const send = (id: string, after_ms = rest_ms): void => {
  clearTimeout(timers.get(id));
  timers.set(
    id,
    window.setTimeout(() => void bringToServer(id), after_ms),
  );
};

/** Keeps every kept job and the server in step: at once, when the network returns, and now and then. */
export const keepSending = (): void => {
  const all = async () => {
    for (const record of await (await localStore()).getAll('jobs')) if (isUnsent(record)) send(record.id, 0);
  };
  const lookForOthers = () => {
    const { jobId } = useWorkbench.getState();
    if (document.visibilityState === 'visible' && useKeeping.getState().kept !== 'nowhere') send(jobId, 0);
  };
  void all();
  window.addEventListener('online', () => void all());
  window.addEventListener('focus', lookForOthers);
  window.setInterval(lookForOthers, look_ms);
  window.setInterval(() => void all(), 12 * look_ms);
};

export const isUnsent = ({ base, job, archived, archivedThere }: KeptJob): boolean =>
  base === undefined || archived !== (archivedThere ?? false) || diffJobs(base, job).length > 0;

/** One tab at a time sends a job. */
const bringToServer = (id: string): Promise<void> =>
  navigator.locks.request(`airledger-send-${id}`, async () => {
    try {
      while (await oneStep(id));
      say(id, {});
    } catch (error) {
      if (error instanceof OutOfReach) say(id, {});
      else say(id, { trouble: error instanceof Error ? error.message : String(error) });
    }
  });

/** Takes one step towards the server; false when there is no further one. */
const oneStep = async (id: string): Promise<boolean> => {
  const record = await (await localStore()).get('jobs', id);
  if (!record || record.clashes.length > 0) return false;
  const { job, base, rev, archived, unsent } = record;
  const who = whoAmI() || 'someone';
  try {
    if (base === undefined || rev === undefined) {
      await sendFiles(record);
      const head = await server.add(id, job, who, unsent.length > 0 ? inWords(unsent) : undefined);
      await note(id, { base: job, rev: head.rev, archivedThere: false }, unsent.length);
    } else if (archived !== (record.archivedThere ?? false)) {
      await server.archive(id, archived);
      await note(id, { archivedThere: archived });
    } else if (diffJobs(base, job).length > 0) {
      await sendFiles(record);
      const head = await server.save(id, rev, job, who, unsent.length > 0 ? inWords(unsent) : undefined);
      await note(id, { base: job, rev: head.rev }, unsent.length);
    } else {
      const theirs = await server.get(id, rev);
      if (theirs) await takeTheirs(id, theirs);
      else if (unsent.length > 0) await note(id, {}, unsent.length);
      return theirs !== undefined;
    }
  } catch (error) {
    if (!(error instanceof NotTaken)) throw error;
    if (error.status === 412 && error.current) await takeTheirs(id, error.current);
    // It had arrived, only the answer was lost.
    else if (error.status === 409 && error.current)
      await note(id, {
        base: error.current.job,
        rev: error.current.rev,
        archivedThere: error.current.archived,
      });
    // Another server, or one that was emptied: what is kept here goes there anew.
    else if (error.status === 404 && base !== undefined) await note(id, { base: undefined, rev: undefined });
    else throw error;
  }
  return true;
};

const inWords = (said: readonly string[]): string => [...new Set(said)].join('; ').slice(0, 500);

/** Photos and plans that a job refers to; a server that does not know the job may lack those sent before, too. */
const sendFiles = async ({ job, base }: KeptJob): Promise<void> => {
  const db = await localStore();
  for (const sha256 of referredFiles(job)) {
    const file = await db.get('files', sha256);
    if (!file || (file.sent && base !== undefined)) continue;
    await server.putFile(sha256, file.blob);
    await db.put('files', { ...file, sent: true });
  }
};

/** Writes down what the server has by now; `sent` of the changes in words have arrived. */
const note = async (id: string, known: Partial<KeptJob>, sent = 0): Promise<void> => {
  const transaction = (await localStore()).transaction('jobs', 'readwrite', safely);
  const record = await transaction.store.get(id);
  if (record) await transaction.store.put({ ...record, ...known, unsent: record.unsent.slice(sent) });
  await transaction.done;
};

/** Merges what another device sent into the kept job; the tabs take it from there. */
const takeTheirs = async (id: string, theirs: ServerJob): Promise<void> => {
  const db = await localStore();
  const known = (await db.get('jobs', id))?.rev ?? 0;
  const revisions = await server.history(id, Math.max(1, theirs.rev - known));
  const transaction = db.transaction(['jobs', 'changes'], 'readwrite', safely);
  const jobs = transaction.objectStore('jobs');
  const record = await jobs.get(id);
  if (record?.base && record.rev === known) {
    const { job, clashes } = mergeVersions(record.base, record.job, theirs.job);
    await jobs.put({
      ...record,
      seq: record.seq + 1,
      name: job.name,
      job,
      clashes: [...record.clashes, ...clashes],
      base: theirs.job,
      rev: theirs.rev,
      archivedThere: theirs.archived,
    });
    for (const { rev, ...entry } of revisions.toReversed())
      if (rev > known && rev <= theirs.rev)
        await transaction.objectStore('changes').add({ job: id, entry, rev });
  }
  await transaction.done;
  tellTabs(id);
  tellHere(id);
};

const say = async (id: string, { trouble }: { readonly trouble?: string }): Promise<void> => {
  const record = await (await localStore()).get('jobs', id);
  // What is not even written here yet, or could not be, is not called saved because of what was.
  const { kept } = useKeeping.getState();
  if (!record || useWorkbench.getState().jobId !== id || kept === 'saving' || kept === 'failed') return;
  useKeeping.setState({
    kept: isUnsent(record) ? 'here' : 'there',
    trouble,
    clashes: record.clashes,
  });
};
