import type { Job, JobPart } from '../schema/job-schema.ts';
import { type Branch, changedAt, splitPath, withItem, withoutItem } from '../states/job-path.ts';
import { EditRefused } from './edit-refused.ts';

/** What parts must all have in common; what is absent does not matter. */
export type PartFilter = {
  readonly system?: string;
  readonly zone?: string;
  readonly role?: JobPart['role'];
  readonly side?: JobPart['side'];
  readonly material?: string;
  /** Room of its register or grille. */
  readonly room?: string;
};

/** Paths of the parts that fit all of the filter: `systems/main/parts/run-2`. */
export const partsIn = (job: Job, filter: PartFilter = {}): readonly string[] =>
  (job.systems ?? []).flatMap((system) =>
    system.parts
      .filter(
        (part) =>
          (filter.system === undefined || system.id === filter.system) &&
          (filter.zone === undefined || part.zone === filter.zone) &&
          (filter.role === undefined || part.role === filter.role) &&
          (filter.side === undefined || part.side === filter.side) &&
          (filter.material === undefined || part.material === filter.material) &&
          (filter.room === undefined || part.terminal?.room === filter.room),
      )
      .map((part) => `systems/${system.id}/parts/${part.id}`),
  );

/** One value for many fields at once; `undefined` takes the fields away. Refused on a path that leads nowhere. */
export const setMany = (job: Job, paths: readonly string[], value: unknown): Job =>
  paths.reduce((next, path) => {
    try {
      return changedAt(next as unknown as Branch, splitPath(path), (holder, key) => {
        if (key === undefined) throw new Error(`Nothing stands at "${path}".`);
        return value === undefined ? withoutItem(holder, key) : withItem(holder, key, value);
      }) as unknown as Job;
    } catch (error) {
      throw new EditRefused(`${path}: ${(error as Error).message}`);
    }
  }, job);
