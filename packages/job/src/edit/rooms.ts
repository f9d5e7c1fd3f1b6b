import type { PlanPoint, UnitSystem } from '@airledger/engine';
import { currentVersion, type Job, type JobRoom } from '../schema/job-schema.ts';
import { outlineOf } from '../survey/plan.ts';
import { deletePart } from './delete-part.ts';
import { EditRefused } from './edit-refused.ts';
import { moved } from './geometry.ts';
import { roomOf, withRoom } from './in-job.ts';
import { redraw } from './redraw.ts';
import { lengthText, pointText, sizeText } from './typed-text.ts';
import type { Writing } from './walls-from-outline.ts';

/** A floor in metres: any outline, or a rectangle by its south-west corner, width (east-west) and depth. */
export type Floor =
  | { readonly outline_m: readonly PlanPoint[] }
  | { readonly corner_m: PlanPoint; readonly width_m: number; readonly depth_m: number };

/** A room to draw; `id` from `uniqueId`. */
export type NewRoom = { readonly floor: Floor } & Pick<
  JobRoom,
  'id' | 'name' | 'use' | 'storey' | 'height' | 'airflow'
>;

const roomFrom = ({ floor, ...said }: NewRoom, units: UnitSystem): JobRoom => {
  if (!('outline_m' in floor))
    return {
      ...said,
      corner: pointText(floor.corner_m, units),
      size: sizeText(floor.width_m, floor.depth_m, units),
    };
  if (floor.outline_m.length < 3) throw new EditRefused('A room needs at least three corners.');
  return { ...said, outline: floor.outline_m.map((corner) => pointText(corner, units)) };
};

/** A job with nothing but its first room: the least that a job can be. */
export const newJob = (
  { name, station, room }: { readonly name: string; readonly station: string; readonly room: NewRoom },
  writing: Writing,
): Job =>
  redraw(
    { schemaVersion: currentVersion, name, site: { station }, rooms: [roomFrom(room, writing.units)] },
    writing,
  );

/** A room more; its walls, and those of its neighbours, follow from the outlines. */
export const addRoom = (job: Job, room: NewRoom, writing: Writing): Job => {
  if ([...job.rooms, ...(job.zones ?? [])].some((each) => each.id === room.id))
    throw new EditRefused(`There is a room or zone "${room.id}" already.`);
  return redraw({ ...job, rooms: [...job.rooms, roomFrom(room, writing.units)] }, writing);
};

/** The room with its corners changed; a rectangle becomes an outline, its typed floor area goes. */
const withOutline = (
  job: Job,
  id: string,
  writing: Writing,
  change: (corners: readonly PlanPoint[]) => readonly PlanPoint[],
): Job => {
  const { corner: _c, size: _s, floorArea: _f, ...room } = roomOf(job, id);
  const before = outlineOf(roomOf(job, id));
  if (before.length === 0) throw new EditRefused(`"${id}" has no outline to change; draw it first.`);
  const outline = change(before);
  if (outline.length < 3) throw new EditRefused('A room needs at least three corners.');
  // A corner that stays keeps its text as it was typed.
  const text = (corner: PlanPoint): string => {
    const same = before.findIndex(([x, y]) => x === corner[0] && y === corner[1]);
    return (same >= 0 ? room.outline?.[same] : undefined) ?? pointText(corner, writing.units);
  };
  return redraw(
    withRoom(job, id, () => ({ ...room, outline: outline.map(text) })),
    writing,
  );
};

const checkCorner = (corners: readonly PlanPoint[], index: number): void => {
  if (!Number.isInteger(index) || index < 0 || index >= corners.length)
    throw new EditRefused(`There is no corner ${index + 1}; the room has ${corners.length}.`);
};

/** One corner of a room (counted from 0 in its outline; of a rectangle from the south-west, counter-clockwise). */
export const moveRoomCorner = (job: Job, id: string, index: number, to: PlanPoint, writing: Writing): Job =>
  withOutline(job, id, writing, (corners) => {
    checkCorner(corners, index);
    return corners.with(index, to);
  });

/** A corner more, behind corner `index`. */
export const addRoomCorner = (job: Job, id: string, index: number, at: PlanPoint, writing: Writing): Job =>
  withOutline(job, id, writing, (corners) => {
    checkCorner(corners, index);
    return corners.toSpliced(index + 1, 0, at);
  });

/** Corner `index` less. */
export const deleteRoomCorner = (job: Job, id: string, index: number, writing: Writing): Job =>
  withOutline(job, id, writing, (corners) => {
    checkCorner(corners, index);
    return corners.toSpliced(index, 1);
  });

/** A wall of a room pushed outwards (positive) or inwards: both ends of edge `index` move square to it. */
export const moveRoomEdge = (job: Job, id: string, index: number, by: PlanPoint, writing: Writing): Job =>
  withOutline(job, id, writing, (corners) => {
    checkCorner(corners, index);
    const next = (index + 1) % corners.length;
    return corners.with(index, moved(corners[index]!, by)).with(next, moved(corners[next]!, by));
  });

/** Width (east-west) and depth (north-south) of a room's box; other corners move in proportion, the south-west stays. */
export const resizeRoom = (
  job: Job,
  id: string,
  { width_m, depth_m }: { readonly width_m: number; readonly depth_m: number },
  writing: Writing,
): Job => {
  if (!(width_m > 0) || !(depth_m > 0)) throw new EditRefused('Width and depth have to be above zero.');
  const room = roomOf(job, id);
  if (room.size !== undefined)
    return redraw(
      withRoom(job, id, () => ({ ...room, size: sizeText(width_m, depth_m, writing.units) })),
      writing,
    );
  return withOutline(job, id, writing, (corners) => {
    const xs = corners.map(([x]) => x);
    const ys = corners.map(([, y]) => y);
    const [west, south] = [Math.min(...xs), Math.min(...ys)];
    const [wide, deep] = [width_m / (Math.max(...xs) - west), depth_m / (Math.max(...ys) - south)];
    return corners.map(([x, y]) => [west + (x - west) * wide, south + (y - south) * deep] as const);
  });
};

/** A room moved as it is; nothing but its own outline moves with it. */
export const moveRoom = (job: Job, id: string, by: PlanPoint, writing: Writing): Job => {
  const room = roomOf(job, id);
  if (room.corner !== undefined && room.size !== undefined) {
    const [corner] = outlineOf(room);
    return redraw(
      withRoom(job, id, () => ({ ...room, corner: pointText(moved(corner!, by), writing.units) })),
      writing,
    );
  }
  return withOutline(job, id, writing, (corners) => corners.map((corner) => moved(corner, by)));
};

/** Height of a room's ceiling; its drawn walls grow with it. */
export const setRoomHeight = (job: Job, id: string, height_m: number, writing: Writing): Job =>
  redraw(
    withRoom(job, id, (room) => ({ ...room, height: lengthText(height_m, writing.units) })),
    writing,
  );

/** Surfaces, doors and the like that lead to a space are gone with it. */
export const withoutSpace = (job: Job, id: string): Job => ({
  ...job,
  rooms: job.rooms
    .filter((room) => room.id !== id)
    .map((room) => {
      const leads = (room.surfaces ?? []).some((surface) => surface.beyond === id);
      const leaks = (room.leakageTo ?? []).some(({ zone }) => zone === id);
      if (!leads && !leaks) return room;
      const gone = new Set(room.surfaces!.filter((surface) => surface.beyond === id).map((each) => each.id));
      return {
        ...room,
        ...(leads && {
          surfaces: room.surfaces!.filter(
            (surface) => surface.beyond !== id && !(surface.in !== undefined && gone.has(surface.in)),
          ),
        }),
        ...(leaks && { leakageTo: room.leakageTo!.filter(({ zone }) => zone !== id) }),
      };
    }),
  ...(job.zones && {
    zones: job.zones
      .filter((zone) => zone.id !== id)
      .map((zone) =>
        zone.surfaces?.some((surface) => surface.beyond === id)
          ? { ...zone, surfaces: zone.surfaces.filter((surface) => surface.beyond !== id) }
          : zone,
      ),
  }),
  ...(job.doors && { doors: job.doors.filter((door) => !door.between.includes(id)) }),
  ...(job.transfers && { transfers: job.transfers.filter((each) => !each.between.includes(id)) }),
  ...(job.ventilators && { ventilators: job.ventilators.filter((each) => each.room !== id) }),
});

/** What keeps a room or zone: the ducts and equipment in it, in words. */
export const heldBy = (job: Job, id: string): readonly string[] =>
  (job.systems ?? []).flatMap((system) => [
    ...(system.thermostatRoom === id ? [`the thermostat of ${system.id}`] : []),
    ...(system.airHandler.zone === id ? [`the air handler of ${system.id}`] : []),
    ...system.parts.filter((part) => part.zone === id).map((part) => part.id),
    ...[...system.parts, system.airHandler].flatMap((holder) =>
      (holder.leaks ?? []).filter((leak) => leak.zone === id).map(() => 'a leak into it'),
    ),
  ]);

/**
 * A room less, with its doors, partitions, transfer grilles and ventilators. Its registers go with their runs when
 * `withRegisters` says so. Refused for the last room, and while a thermostat, an air handler or ducts stand in it.
 */
export const deleteRoom = (
  job: Job,
  id: string,
  { withRegisters = false, ...writing }: Writing & { readonly withRegisters?: boolean },
): Job => {
  roomOf(job, id);
  if (job.rooms.length === 1) throw new EditRefused('A house needs a room: draw another one first.');
  const held = [...new Set(heldBy(job, id))];
  if (held.length > 0) throw new EditRefused(`"${id}" holds ${held.join(', ')}: move or delete that first.`);
  const served = (job.systems ?? []).flatMap((system) =>
    system.parts
      .filter((part) => part.terminal?.room === id)
      .map((part) => ({ system: system.id, part: part.id })),
  );
  if (served.length > 0 && !withRegisters)
    throw new EditRefused(
      `"${id}" has the registers of ${served.map(({ part }) => part).join(', ')}: delete these runs with it, or move their registers first.`,
    );
  const without = served.reduce(
    (now, { system, part }) => deletePart(now, system, part, { children: 'rejoin', units: writing.units }),
    job,
  );
  return redraw(withoutSpace(without, id), writing);
};
