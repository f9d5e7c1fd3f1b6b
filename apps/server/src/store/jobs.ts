import { diffJobs, type HistoryEntry, type Job, summariseDiff } from '@airledger/job';
import type { Kysely } from 'kysely';
import { sql } from 'kysely';
import type { Tables } from './tables.ts';

export type JobHead = {
  readonly id: string;
  readonly rev: number;
  readonly name: string;
  readonly archived: boolean;
  readonly updatedAt: string;
};
export type StoredJob = JobHead & { readonly job: Job };
export type Revision = HistoryEntry & { readonly rev: number };
export type Author = { readonly who: string; readonly what?: string };

type Db = Kysely<Tables>;
const heads = ['id', 'rev', 'name', 'archived', 'updated_at'] as const;

const headOf = (row: {
  id: string;
  rev: number;
  name: string;
  archived: boolean;
  updated_at: Date;
}): JobHead => ({
  id: row.id,
  rev: row.rev,
  name: row.name,
  archived: row.archived,
  updatedAt: row.updated_at.toISOString(),
});

const wordsOf = ({ name, about, site }: Job): string =>
  [name, about?.address, about?.client, about?.company, site.place].filter(Boolean).join(' ');

/** A word of a search as a pattern that matches it anywhere and literally. */
const containing = (word: string): string => `%${word.replace(/[\\%_]/g, '\\$&')}%`;

/** Jobs that contain every word of the search in name, address, client, firm or place; the last touched first. */
export const listJobs = async (
  db: Db,
  { search = '', archived = false }: { readonly search?: string; readonly archived?: boolean } = {},
): Promise<readonly JobHead[]> => {
  let query = db.selectFrom('job').select(heads).where('archived', '=', archived);
  for (const word of search.split(/\s+/).filter(Boolean))
    query = query.where('words', 'ilike', containing(word));
  return (await query.orderBy('updated_at', 'desc').orderBy('id').execute()).map(headOf);
};

export const findJob = async (db: Db, id: string): Promise<StoredJob | undefined> => {
  const row = await db.selectFrom('job').select(heads).select('doc').where('id', '=', id).executeTakeFirst();
  return row && { ...headOf(row), job: row.doc };
};

/** Keeps a new job as revision 1; undefined when the id is taken. */
export const addJob = async (
  db: Db,
  id: string,
  job: Job,
  { who, what = 'Made' }: Author,
): Promise<StoredJob | undefined> => {
  const row = await db
    .with('added', (query) =>
      query
        .insertInto('job')
        .values({ id, rev: 1, name: job.name, words: wordsOf(job), doc: JSON.stringify(job) })
        .onConflict((conflict) => conflict.doNothing())
        .returning([...heads]),
    )
    .with('noted', (query) =>
      query
        .insertInto('job_revision')
        .columns(['job_id', 'rev', 'who', 'what', 'diff'])
        .expression((from) =>
          from
            .selectFrom('added')
            .select([
              'added.id',
              'added.rev',
              sql<string>`${who}::text`.as('who'),
              sql<string>`${what}::text`.as('what'),
              sql<string>`'[]'::json`.as('diff'),
            ]),
        ),
    )
    .selectFrom('added')
    .select(heads)
    .executeTakeFirst();
  return row && { ...headOf(row), job };
};

/**
 * Keeps a job on top of revision `rev`, together with what changed. One statement: after a crash both are there or
 * neither. Undefined when another revision stands by now. A job that changes nothing makes no revision.
 */
export const saveJob = async (
  db: Db,
  before: StoredJob,
  job: Job,
  { who, what }: Author,
): Promise<JobHead | undefined> => {
  const diff = diffJobs(before.job, job);
  if (diff.length === 0) return before;
  const row = await db
    .with('saved', (query) =>
      query
        .updateTable('job')
        .set({
          rev: before.rev + 1,
          name: job.name,
          words: wordsOf(job),
          doc: JSON.stringify(job),
          updated_at: sql<Date>`now()`,
        })
        .where('id', '=', before.id)
        .where('rev', '=', before.rev)
        .returning([...heads]),
    )
    .with('noted', (query) =>
      query
        .insertInto('job_revision')
        .columns(['job_id', 'rev', 'who', 'what', 'diff'])
        .expression((from) =>
          from
            .selectFrom('saved')
            .select([
              'saved.id',
              'saved.rev',
              sql<string>`${who}::text`.as('who'),
              sql<string>`${what ?? summariseDiff(diff, job)}::text`.as('what'),
              sql<string>`${JSON.stringify(diff)}::json`.as('diff'),
            ]),
        ),
    )
    .selectFrom('saved')
    .select(heads)
    .executeTakeFirst();
  return row && headOf(row);
};

/** Puts a job out of the way or back; jobs are never deleted. Undefined when there is none. */
export const archiveJob = async (db: Db, id: string, archived: boolean): Promise<JobHead | undefined> => {
  const row = await db
    .updateTable('job')
    .set({ archived })
    .where('id', '=', id)
    .returning([...heads])
    .executeTakeFirst();
  return row && headOf(row);
};

/** Revisions of a job, the newest first, those before `before` when given. */
export const historyOf = async (
  db: Db,
  id: string,
  { before, most }: { readonly before?: number; readonly most: number },
): Promise<readonly Revision[]> => {
  let query = db.selectFrom('job_revision').selectAll().where('job_id', '=', id);
  if (before !== undefined) query = query.where('rev', '<', before);
  const rows = await query.orderBy('rev', 'desc').limit(most).execute();
  return rows.map(({ rev, at, who, what, diff }) => ({ rev, at: at.toISOString(), who, what, diff }));
};
