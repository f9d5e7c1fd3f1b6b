import { Refusal } from './routes/refusal.ts';
import { FolderInUse } from './store/folder-lock.ts';
import { openStore, type Store } from './store/open-store.ts';

export type StoreState = {
  readonly state: 'opening' | 'ready' | 'failed';
  readonly folder: string;
  readonly error?: string;
};

/**
 * A store that opens when it is first asked for, while pages are served already; requests for jobs wait for it.
 * Its opening would otherwise take the processor from the first page.
 */
export type BackgroundStore = {
  /** The store once it is open; refused with status 503 when it cannot be opened. */
  readonly ready: () => Promise<Store>;
  /** How far it is, without waiting. */
  readonly state: () => StoreState;
  readonly close: () => Promise<void>;
};

const refusalOf = (error: unknown): Refusal =>
  new Refusal(503, {
    error: error instanceof Error ? error.message : String(error),
    remedy:
      error instanceof FolderInUse
        ? 'Use the other one, or close it and start again.'
        : 'Check that the folder can be written; AIRLEDGER_DATA names another one. What you draw meanwhile stays in the browser.',
  });

export const backgroundStore = (folder: string): BackgroundStore => {
  let state: StoreState = { state: 'opening', folder };
  let opening: Promise<Store | Refusal> | undefined;
  const open = async (): Promise<Store | Refusal> => {
    try {
      const store = await openStore(folder);
      state = { state: 'ready', folder };
      return store;
    } catch (error) {
      const refusal = refusalOf(error);
      state = { state: 'failed', folder, error: refusal.message };
      // The next request tries again: the other process may have ended by then.
      opening = undefined;
      return refusal;
    }
  };
  const once = (): Promise<Store | Refusal> => {
    opening ??= open();
    return opening;
  };
  return {
    ready: async () => {
      const opened = await once();
      if (opened instanceof Refusal) throw opened;
      return opened;
    },
    state: () => {
      void once();
      return state;
    },
    close: async () => {
      const opened = await opening;
      if (opened !== undefined && !(opened instanceof Refusal)) await opened.close();
    },
  };
};
