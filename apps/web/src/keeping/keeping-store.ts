import type { MergeClash } from '@airledger/job';
import { create } from 'zustand';

/** Where the last change of the job in hand is safe by now. */
export type Kept = 'nowhere' | 'saving' | 'here' | 'there' | 'failed';

export type Keeping = {
  readonly kept: Kept;
  /** Why it could not be kept, or why the server does not take it. */
  readonly trouble?: string;
  readonly clashes: readonly MergeClash[];
};

export const useKeeping = create<Keeping>()((): Keeping => ({ kept: 'nowhere', clashes: [] }));
