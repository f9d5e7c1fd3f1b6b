import { type Kysely, type Migration, Migrator, sql } from 'kysely';
import type { Tables } from './tables.ts';

/** Steps from one form of the tables to the next, in order; a step that has been released is never changed. */
const migrations: Record<string, Migration> = {
  '0001-jobs': {
    async up(db: Kysely<unknown>) {
      await db.schema
        .createTable('job')
        .addColumn('id', 'uuid', (column) => column.primaryKey())
        .addColumn('rev', 'integer', (column) => column.notNull())
        .addColumn('name', 'text', (column) => column.notNull())
        .addColumn('words', 'text', (column) => column.notNull())
        .addColumn('doc', 'json', (column) => column.notNull())
        .addColumn('archived', 'boolean', (column) => column.notNull().defaultTo(false))
        .addColumn('created_at', 'timestamptz', (column) => column.notNull().defaultTo(sql`now()`))
        .addColumn('updated_at', 'timestamptz', (column) => column.notNull().defaultTo(sql`now()`))
        .execute();
      await db.schema
        .createTable('job_revision')
        .addColumn('job_id', 'uuid', (column) => column.notNull().references('job.id'))
        .addColumn('rev', 'integer', (column) => column.notNull())
        .addColumn('at', 'timestamptz', (column) => column.notNull().defaultTo(sql`now()`))
        .addColumn('who', 'text', (column) => column.notNull())
        .addColumn('what', 'text', (column) => column.notNull())
        .addColumn('diff', 'json', (column) => column.notNull())
        .addPrimaryKeyConstraint('job_revision_pkey', ['job_id', 'rev'])
        .execute();
      await db.schema
        .createTable('file')
        .addColumn('sha256', 'text', (column) => column.primaryKey())
        .addColumn('type', 'text', (column) => column.notNull())
        .addColumn('bytes', 'bytea', (column) => column.notNull())
        .addColumn('added_at', 'timestamptz', (column) => column.notNull().defaultTo(sql`now()`))
        .execute();
    },
  },
};

/** Brings the tables to their present form, each step whole or not at all. */
export const migrateTables = async (db: Kysely<Tables>): Promise<void> => {
  const migrator = new Migrator({ db, provider: { getMigrations: async () => migrations } });
  const { error } = await migrator.migrateToLatest();
  if (error) throw error;
};
