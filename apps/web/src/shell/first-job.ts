import { create } from 'zustand';
import { sha256Of } from '../keeping/files.ts';
import { importJob, keptFrom, lastInHand, openKept } from '../keeping/jobs.ts';
import { openAddress } from '../state/actions.ts';
import { useWorkbench } from '../state/store.ts';

type Listed = { readonly name: string; readonly url: string };

/** Job files that the server offers. */
export const useDemos = create<{ readonly demos: readonly Listed[] }>()(() => ({ demos: [] }));

/**
 * Opens the job that the server was started with, else the one that was in hand last, else the first demo house;
 * with nothing of the kind, nothing.
 */
export const openFirstJob = async (): Promise<void> => {
  const answer = await fetch('/api/demos').catch(() => undefined);
  const { first, demos = [] }: { first?: Listed; demos?: readonly Listed[] } = answer?.ok
    ? await answer.json()
    : {};
  useDemos.setState({ demos });
  if (first?.url === '/api/job') return openGiven(first);
  const last = await lastInHand().catch(() => undefined);
  if (last && (await openKept(last).catch(() => false))) return;
  if (first) await openAddress(first.name, first.url);
};

/** A file that the server was started with is kept the first time; after that the work on it comes back. */
const openGiven = async ({ name, url }: Listed): Promise<void> => {
  const answer = await fetch(url).catch(() => undefined);
  if (!answer?.ok) return openAddress(name, url);
  const text = await answer.text();
  const source = `${name} ${await sha256Of(new TextEncoder().encode(text).buffer)}`;
  const kept = await keptFrom(source);
  if (kept && (await openKept(kept))) return;
  const problems = await importJob(name, text, source);
  if (problems.length > 0) useWorkbench.setState({ refused: { fileName: name, problems } });
};
