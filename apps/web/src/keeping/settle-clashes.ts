import { type MergeClash, settleClash } from '@airledger/job';
import { editTyped } from '../document/document.ts';
import { useWorkbench } from '../state/store.ts';
import { save } from './autosave.ts';
import { clashPlace, clashValue } from './clash-words.ts';
import { useKeeping } from './keeping-store.ts';
import { localStore, safely } from './local-store.ts';
import { send } from './send.ts';
import { tellTabs } from './tabs.ts';

/** Lets one side of a clash hold. Once none is left, the job goes to the server. */
export const chooseSide = async (clash: MergeClash, side: 'mine' | 'theirs'): Promise<void> => {
  const { jobId, typed } = useWorkbench.getState();
  const result = editTyped(`Chosen for ${clashPlace(clash, typed)}: ${clashValue(clash[side])}`, (job) =>
    settleClash(job, clash, side),
  );
  if (!result.ok)
    return useKeeping.setState({ trouble: result.errors.map(({ message }) => message).join(' ') });
  await save();
  const transaction = (await localStore()).transaction('jobs', 'readwrite', safely);
  const record = await transaction.store.get(jobId);
  const clashes = record?.clashes.filter(({ path }) => path !== clash.path) ?? [];
  if (record) await transaction.store.put({ ...record, clashes });
  await transaction.done;
  useKeeping.setState({ clashes, trouble: undefined });
  tellTabs(jobId);
  send(jobId, 0);
};
