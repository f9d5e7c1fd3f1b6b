import type { PlanPoint } from '@airledger/engine';
import type { Job, JobPart, JobRoom, JobSystem, JobZone } from '../schema/job-schema.ts';
import { outlineOf, pointOf } from '../survey/plan.ts';
import { defaultOf } from '../survey/tables.ts';
import { EditRefused } from './edit-refused.ts';
import { pointInPolygon } from './geometry.ts';
import { siOf } from './typed-text.ts';

type WithId = { readonly id: string };

/** The record with this id; refused when there is none. */
export const found = <T extends WithId>(list: readonly T[] | undefined, id: string, what: string): T => {
  const item = list?.find((each) => each.id === id);
  if (item === undefined) throw new EditRefused(`There is no ${what} "${id}".`);
  return item;
};

/** List with one record changed; the same list when nothing changes. */
export const changedIn = <T extends WithId>(
  list: readonly T[],
  id: string,
  change: (item: T) => T,
): T[] | readonly T[] => {
  const at = list.findIndex((item) => item.id === id);
  if (at < 0) return list;
  const item = change(list[at]!);
  return item === list[at] ? list : list.with(at, item);
};

export const roomOf = (job: Job, id: string): JobRoom => found(job.rooms, id, 'room');
export const systemOf = (job: Job, id: string): JobSystem => found(job.systems, id, 'system');
export const partOf = (job: Job, systemId: string, id: string): JobPart =>
  found(systemOf(job, systemId).parts, id, `part of ${systemId}`);

export const withRoom = (job: Job, id: string, change: (room: JobRoom) => JobRoom): Job => ({
  ...job,
  rooms: [...changedIn(job.rooms, id, change)],
});

export const withParts = (
  job: Job,
  systemId: string,
  change: (parts: readonly JobPart[]) => readonly JobPart[],
): Job => {
  const system = systemOf(job, systemId);
  return {
    ...job,
    systems: job.systems!.map((each) =>
      each === system ? { ...each, parts: [...change(system.parts)] } : each,
    ),
  };
};

export const withPart = (job: Job, systemId: string, id: string, change: (part: JobPart) => JobPart): Job => {
  partOf(job, systemId, id);
  return withParts(job, systemId, (parts) => changedIn(parts, id, change));
};

/** Line of a part on the plan, metres; empty when it is not drawn. */
export const pathOf = (part: JobPart): readonly PlanPoint[] => (part.path ?? []).map(pointOf);

export const storeyOfRoom = (room: JobRoom): number => room.storey ?? 1;

/** Height of a room, m: its own, the house's, or the usual one. */
export const heightOf = (job: Job, room: JobRoom): number =>
  siOf(room.height ?? job.house?.ceilingHeight ?? defaultOf('house.ceilingHeight').value, 'length')!;

export const storeysOf = (job: Job): readonly number[] => job.rooms.map(storeyOfRoom);

/** Storey that a zone lies on: its own, or the usual one of its kind. */
export const storeyOfZone = (job: Job, zone: JobZone): number => {
  if (zone.storey !== undefined) return zone.storey;
  if (zone.kind === 'attic') return Math.max(...storeysOf(job)) + 1;
  return zone.kind === 'crawlspace' || zone.kind === 'basement' ? Math.min(...storeysOf(job)) - 1 : 1;
};

/** Room of a storey that lies under a point of the plan. */
export const roomAt = (job: Job, point: PlanPoint, storey: number): JobRoom | undefined =>
  job.rooms.find((room) => storeyOfRoom(room) === storey && pointInPolygon(point, outlineOf(room)));
