import { create } from 'zustand';
import { openAddress } from '../state/actions.ts';

type Listed = { readonly name: string; readonly url: string };

/** Job files that the server offers. */
export const useDemos = create<{ readonly demos: readonly Listed[] }>()(() => ({ demos: [] }));

/** Opens the job that the server was started with, else the first demo house; without a server, nothing. */
export const openFirstJob = async (): Promise<void> => {
  const answer = await fetch('/api/demos').catch(() => undefined);
  if (!answer?.ok) return;
  const { first, demos } = (await answer.json()) as { first?: Listed; demos: readonly Listed[] };
  useDemos.setState({ demos });
  if (first) await openAddress(first.name, first.url);
};
