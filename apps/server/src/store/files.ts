import { createHash } from 'node:crypto';
import type { StoredFile } from '@airledger/job';
import type { Kysely } from 'kysely';
import type { Tables } from './tables.ts';

export const sha256Of = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

/** Keeps bytes under their SHA-256, which the caller has checked; the same bytes are kept once. */
export const keepFile = async (
  db: Kysely<Tables>,
  sha256: string,
  { type, bytes }: StoredFile,
): Promise<void> => {
  await db
    .insertInto('file')
    .values({ sha256, type, bytes })
    .onConflict((conflict) => conflict.doNothing())
    .execute();
};

export const findFiles = async (
  db: Kysely<Tables>,
  wanted: readonly string[],
): Promise<ReadonlyMap<string, StoredFile>> => {
  if (wanted.length === 0) return new Map();
  const rows = await db
    .selectFrom('file')
    .select(['sha256', 'type', 'bytes'])
    .where('sha256', 'in', wanted)
    .execute();
  return new Map(rows.map(({ sha256, type, bytes }) => [sha256, { type, bytes }]));
};
