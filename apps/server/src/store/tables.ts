import type { FileType, Job, JobDiff } from '@airledger/job';
import type { ColumnType } from 'kysely';

/** JSON goes in as text and comes out as a value. */
type Json<T> = ColumnType<T, string, string>;
type Time = ColumnType<Date, Date | undefined, Date>;

export type Tables = {
  /** One row a house. `doc` is json and not jsonb, which would put the fields of the file in another order. */
  job: {
    id: string;
    rev: number;
    name: string;
    /** Name, address and client, for the search. */
    words: string;
    doc: Json<Job>;
    archived: ColumnType<boolean, boolean | undefined, boolean>;
    created_at: Time;
    updated_at: Time;
  };
  /** What led to each revision. */
  job_revision: { job_id: string; rev: number; at: Time; who: string; what: string; diff: Json<JobDiff> };
  /** Photos and drawings; never changed once there. */
  file: { sha256: string; type: FileType; bytes: Uint8Array; added_at: Time };
};
