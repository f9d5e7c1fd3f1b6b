import type { FileType, HistoryEntry, Job, MergeClash, UndoStack } from '@airledger/job';
import { type DBSchema, type IDBPDatabase, openDB } from 'idb';

/** A job as this browser keeps it. */
export type KeptJob = {
  readonly id: string;
  /** Counts every write of any tab, so that a tab sees that another one has written. */
  readonly seq: number;
  readonly name: string;
  /** What a search looks through. */
  readonly words: string;
  readonly archived: boolean;
  readonly updatedAt: string;
  readonly job: Job;
  readonly steps: UndoStack;
  /** What the server has, and as which revision; absent while it was never sent. */
  readonly base?: Job;
  readonly rev?: number;
  /** Whether the server knows it as archived. */
  readonly archivedThere?: boolean;
  /** Changes since `base`, in words, for the server's history. */
  readonly unsent: readonly string[];
  /** Fields that two hands changed differently; nothing is sent until they are settled. */
  readonly clashes: readonly MergeClash[];
  /** File that the job was made from, when it has to be found again by it. */
  readonly source?: string;
};

export type KeptChange = { readonly job: string; readonly entry: HistoryEntry; readonly rev?: number };

/** Bytes of a photo or drawing; `sent` once the server has them. */
export type KeptFile = {
  readonly sha256: string;
  readonly type: FileType;
  readonly blob: Blob;
  readonly thumb?: Blob;
  readonly sent: boolean;
};

interface Schema extends DBSchema {
  jobs: { key: string; value: KeptJob };
  changes: { key: number; value: KeptChange; indexes: { job: string } };
  files: { key: string; value: KeptFile };
}

export type LocalStore = IDBPDatabase<Schema>;

let opening: Promise<LocalStore> | undefined;

/** The browser's own store of jobs, their changes and their photos. */
export const localStore = (): Promise<LocalStore> => {
  opening ??= openDB<Schema>('airledger', 1, {
    upgrade(db) {
      db.createObjectStore('jobs', { keyPath: 'id' });
      db.createObjectStore('changes', { autoIncrement: true }).createIndex('job', 'job');
      db.createObjectStore('files', { keyPath: 'sha256' });
    },
  });
  return opening;
};

/** What is written is on disk before it is called saved. */
export const safely = { durability: 'strict' } as const;

/** What a search of jobs looks through. */
export const wordsOf = ({ name, about, site }: Job): string =>
  [name, about?.address, about?.client, about?.company, site.place].filter(Boolean).join(' ');
