import {
  CompiledQuery,
  type DatabaseConnection,
  type Dialect,
  type Driver,
  type Kysely,
  PostgresAdapter,
  PostgresIntrospector,
  PostgresQueryCompiler,
  type QueryResult,
} from 'kysely';
import type { Database } from './open-database.ts';

/** Kysely over the embedded database. A PostgreSQL server would take Kysely's own dialect in its place. */
export const databaseDialect = (database: Database): Dialect => ({
  createAdapter: () => new PostgresAdapter(),
  createQueryCompiler: () => new PostgresQueryCompiler(),
  createIntrospector: (kysely: Kysely<unknown>) => new PostgresIntrospector(kysely),
  createDriver: () => driverOf(database),
});

const driverOf = (database: Database): Driver => {
  const connection: DatabaseConnection = {
    async executeQuery<R>({ sql, parameters }: CompiledQuery): Promise<QueryResult<R>> {
      const { rows, affectedRows } = await database.query(sql, parameters);
      return { rows: rows as R[], numAffectedRows: BigInt(affectedRows) };
    },
    // biome-ignore lint/correctness/useYield: the interface asks for a generator, the database has no cursors
    async *streamQuery() {
      throw new Error('The embedded database does not stream.');
    },
  };
  // There is one connection: it is handed to one user at a time, so that nobody gets into another's transaction.
  let free = Promise.resolve();
  let release = (): void => undefined;
  const run = async (sql: string): Promise<void> => {
    await connection.executeQuery(CompiledQuery.raw(sql));
  };
  return {
    init: async () => undefined,
    async acquireConnection() {
      const before = free;
      const { promise, resolve } = withResolvers();
      free = promise;
      await before;
      release = resolve;
      return connection;
    },
    releaseConnection: async () => release(),
    beginTransaction: () => run('begin'),
    commitTransaction: () => run('commit'),
    rollbackTransaction: () => run('rollback'),
    destroy: () => database.close(),
  };
};

const withResolvers = (): { promise: Promise<void>; resolve: () => void } => {
  let resolve = (): void => undefined;
  const promise = new Promise<void>((done) => {
    resolve = done;
  });
  return { promise, resolve };
};
