import type { HistoryEntry, Job, MergeClash, UndoStack } from '@airledger/job';
import { takeIn } from '../document/take-in.ts';
import { useWorkbench } from '../state/store.ts';
import { useKeeping } from './keeping-store.ts';
import { type KeptJob, localStore, safely, wordsOf } from './local-store.ts';
import { mergeVersions } from './merge-versions.ts';
import { send } from './send.ts';
import { onTold, tellTabs } from './tabs.ts';

/** Time after an edit until it is written, ms: moves of one moment make one write. */
const rest_ms = 150;

/** The version of the kept job that the page stands on. */
type Held = { readonly id: string; readonly seq: number; readonly job: Job };

let held: Held | undefined;
const written = new WeakSet<HistoryEntry>();
let queue: Promise<void> = Promise.resolve();
let timer: number | undefined;

/** The page now shows a job as it is kept. */
export const hold = (record: KeptJob, entries: readonly HistoryEntry[]): void => {
  held = { id: record.id, seq: record.seq, job: record.job };
  for (const entry of entries) written.add(entry);
  useKeeping.setState({ kept: standing(record), trouble: undefined, clashes: record.clashes });
};

const standing = ({ base, job, unsent }: KeptJob) =>
  base === undefined || (unsent.length > 0 && base !== job) ? 'here' : 'there';

/** Nothing is kept of the job on the page until it is edited. */
export const holdNothing = (): void => {
  held = undefined;
  useKeeping.setState({ kept: 'nowhere', trouble: undefined, clashes: [] });
};

/** Keeps every edit of the job in hand in the browser's store, and follows what other tabs and the server bring. */
export const keepEdits = (): void => {
  useWorkbench.subscribe(
    ({ typed, steps, history, gesture }) => [typed, steps, history, gesture] as const,
    ([, , , gesture]) => {
      if (gesture || !isUnwritten()) return;
      useKeeping.setState({ kept: 'saving' });
      clearTimeout(timer);
      timer = window.setTimeout(() => void save(), rest_ms);
    },
    { equalityFn: (a, b) => a.every((each, i) => each === b[i]) },
  );
  onTold((id) => {
    if (id === useWorkbench.getState().jobId) void save();
  });
  // A tablet that is put away may never come back to this page.
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'hidden') void save();
  });
};

/** Whether the page shows an edit that is not in the browser's store yet. */
const isUnwritten = (): boolean => useWorkbench.getState().history.some((entry) => !written.has(entry));

/** Brings page and kept job together: writes what is new here, takes in what is new there. */
export const save = (): Promise<void> => {
  queue = queue.then(bringTogether).catch((error: unknown) => {
    useKeeping.setState({ kept: 'failed', trouble: String(error) });
  });
  return queue;
};

const bringTogether = async (): Promise<void> => {
  const { jobId: id, typed, steps, history, gesture } = useWorkbench.getState();
  if (!typed || gesture) return;
  const before = held?.id === id ? held : undefined;
  const fresh = history.filter((entry) => !written.has(entry));
  const transaction = (await localStore()).transaction(['jobs', 'changes'], 'readwrite', safely);
  const jobs = transaction.objectStore('jobs');
  const changes = transaction.objectStore('changes');
  const record = await jobs.get(id);
  if (!record && fresh.length === 0) return;
  const foreign = record !== undefined && record.seq !== before?.seq;
  const merged =
    foreign && before ? mergeVersions(before.job, typed, record.job) : { job: typed, clashes: [] };
  const next = asKept(id, record, { ...merged, steps, said: fresh.map(({ what }) => what) });
  const changed = record === undefined || fresh.length > 0 || next.job !== record.job;
  if (changed) await jobs.put(next);
  for (const entry of fresh) await changes.add({ job: id, entry });
  const entries = foreign ? (await changes.index('job').getAll(id)).map(({ entry }) => entry) : undefined;
  await transaction.done;
  for (const entry of [...fresh, ...(entries ?? [])]) written.add(entry);
  if (useWorkbench.getState().jobId !== id) return;
  held = { id, seq: changed ? next.seq : record.seq, job: next.job };
  if (next.job !== typed) takeIn(typed, next.job);
  if (entries) useWorkbench.setState(({ history: now }) => ({ history: inOrder(entries, now) }));
  // What was edited meanwhile is not saved by this write.
  useKeeping.setState({
    kept: isUnwritten() ? 'saving' : standing(next),
    clashes: next.clashes,
    trouble: undefined,
  });
  if (!changed) return;
  localStorage.setItem(lastJob, id);
  tellTabs(id);
  send(id);
};

/** Where the id of the job that was in hand last is remembered. */
export const lastJob = 'airledger-last-job';

const asKept = (
  id: string,
  record: KeptJob | undefined,
  made: {
    readonly job: Job;
    readonly clashes: readonly MergeClash[];
    readonly steps: UndoStack;
    readonly said: readonly string[];
  },
): KeptJob => ({
  archived: false,
  ...record,
  id,
  seq: (record?.seq ?? 0) + 1,
  name: made.job.name,
  words: wordsOf(made.job),
  updatedAt: new Date().toISOString(),
  job: made.job,
  steps: made.steps,
  unsent: [...(record?.unsent ?? []), ...made.said],
  clashes: [...(record?.clashes ?? []), ...made.clashes],
});

/** Changes as they are kept, with those that were made here since. */
const inOrder = (kept: readonly HistoryEntry[], now: readonly HistoryEntry[]): readonly HistoryEntry[] =>
  [...kept, ...now.filter((entry) => !written.has(entry))].toSorted((a, b) => a.at.localeCompare(b.at));
