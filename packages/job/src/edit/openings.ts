import type { PlanPoint } from '@airledger/engine';
import type { z } from 'zod';
import type { doorSchema, transferSchema, ventilatorSchema } from '../schema/house-schema.ts';
import type { Job, JobRoom, JobSurface } from '../schema/job-schema.ts';
import { outlineOf } from '../survey/plan.ts';
import { EditRefused } from './edit-refused.ts';
import { counterClockwise, edgesOf, nearestOnSegment, sharedStretches } from './geometry.ts';
import { found, roomOf, storeyOfRoom, withRoom } from './in-job.ts';

/** A door or opening between two spaces, as typed. */
export type JobDoor = z.infer<typeof doorSchema>;
/** A transfer grille or jump duct, as typed. */
export type JobTransfer = z.infer<typeof transferSchema>;
/** A ventilator, as typed. */
export type JobVentilator = z.infer<typeof ventilatorSchema>;

/** The two rooms of a storey whose common wall is nearest to a point, within `within_m`; for a door clicked on the plan. */
export const roomsBeside = (
  job: Job,
  point: PlanPoint,
  storey: number,
  within_m = 0.5,
): readonly [string, string] | undefined => {
  const rooms = job.rooms
    .filter((room) => storeyOfRoom(room) === storey && outlineOf(room).length >= 3)
    .map((room) => ({ id: room.id, outline: counterClockwise(outlineOf(room)) }));
  let best: { readonly pair: readonly [string, string]; readonly away_m: number } | undefined;
  for (const [i, room] of rooms.entries())
    for (const [a, b] of edgesOf(room.outline)) {
      const { along_m, away_m } = nearestOnSegment(point, a, b);
      if (away_m > within_m || away_m >= (best?.away_m ?? Number.POSITIVE_INFINITY)) continue;
      const other = rooms.find(
        (each, j) =>
          j !== i &&
          sharedStretches([a, b], each.outline).some(
            ({ from_m, to_m }) => from_m <= along_m && along_m <= to_m,
          ),
      );
      if (other) best = { pair: [room.id, other.id], away_m };
    }
  return best?.pair;
};

const added = <K extends 'doors' | 'transfers' | 'ventilators'>(
  job: Job,
  list: K,
  item: NonNullable<Job[K]>[number],
): Job => {
  if (job[list]?.some((each) => each.id === item.id))
    throw new EditRefused(`There is a "${item.id}" already.`);
  return { ...job, [list]: [...(job[list] ?? []), item] };
};

/** A door or opening between two spaces. An outside door is a surface: see `addSurface`. */
export const addDoor = (job: Job, door: JobDoor): Job => added(job, 'doors', door);
/** A transfer grille or jump duct between two rooms. */
export const addTransfer = (job: Job, transfer: JobTransfer): Job => added(job, 'transfers', transfer);
/** A ventilator more. */
export const addVentilator = (job: Job, ventilator: JobVentilator): Job =>
  added(job, 'ventilators', ventilator);

/** A door, transfer path or ventilator less. */
export const deleteOpening = (job: Job, list: 'doors' | 'transfers' | 'ventilators', id: string): Job => {
  found<{ readonly id: string }>(job[list], id, list.replace(/s$/, ''));
  return { ...job, [list]: (job[list] as readonly { id: string }[]).filter((each) => each.id !== id) };
};

/** Wall of a room nearest to a point of the plan, by the direction it faces or the zone it leads to. */
export const wallAt = (job: Job, roomId: string, point: PlanPoint): string | undefined => {
  const room = roomOf(job, roomId);
  const edges = edgesOf(counterClockwise(outlineOf(room)));
  const nearest = edges
    .map((edge) => ({ edge, away_m: nearestOnSegment(point, ...edge).away_m }))
    .sort((a, b) => a.away_m - b.away_m)[0]?.edge;
  if (!nearest) return undefined;
  const [[x1, y1], [x2, y2]] = nearest;
  const outwards = ((Math.atan2(y2 - y1, -(x2 - x1)) * 180) / Math.PI + 360) % 360;
  const turned = (surface: JobSurface): number => {
    const away = Math.abs(facingDegrees(surface) - outwards) % 360;
    return Math.min(away, 360 - away);
  };
  return (room.surfaces ?? [])
    .filter((surface) => surface.kind === 'wall' && surface.facing !== undefined)
    .sort((a, b) => turned(a) - turned(b))[0]?.id;
};

const winds = ['north', 'northeast', 'east', 'southeast', 'south', 'southwest', 'west', 'northwest'];
const facingDegrees = (surface: JobSurface): number => {
  const text = String(typeof surface.facing === 'object' ? surface.facing.value : surface.facing);
  const wind = winds.indexOf(text.toLowerCase());
  return wind >= 0 ? wind * 45 : Number.parseFloat(text);
};

/** A surface more in a room or zone; its id has to be free there. */
export const addSurface = (job: Job, spaceId: string, surface: JobSurface): Job => {
  const add = <T extends { readonly id: string; readonly surfaces?: readonly JobSurface[] | undefined }>(
    space: T,
  ): T => {
    if (space.surfaces?.some((each) => each.id === surface.id))
      throw new EditRefused(`There is a surface "${surface.id}" in "${space.id}" already.`);
    return { ...space, surfaces: [...(space.surfaces ?? []), surface] };
  };
  if (job.rooms.some((room) => room.id === spaceId)) return withRoom(job, spaceId, add<JobRoom>);
  found(job.zones, spaceId, 'room or zone');
  return { ...job, zones: job.zones!.map((zone) => (zone.id === spaceId ? add(zone) : zone)) };
};

/** A window (or skylight, or outside door) in a wall of its room. */
export const addWindow = (
  job: Job,
  roomId: string,
  window: Omit<JobSurface, 'kind' | 'in'> & {
    readonly in: string;
    readonly kind?: 'window' | 'skylight' | 'door';
  },
): Job => {
  const wall = roomOf(job, roomId).surfaces?.find((surface) => surface.id === window.in);
  if (!wall) throw new EditRefused(`"${roomId}" has no wall "${window.in}".`);
  return addSurface(job, roomId, { ...window, kind: window.kind ?? 'window' });
};

/** A surface less, with the windows and doors in it. */
export const deleteSurface = (job: Job, spaceId: string, surfaceId: string): Job => {
  const less = <T extends { readonly surfaces?: readonly JobSurface[] | undefined }>(space: T): T => {
    found(space.surfaces, surfaceId, 'surface');
    return {
      ...space,
      surfaces: space.surfaces!.filter((each) => each.id !== surfaceId && each.in !== surfaceId),
    };
  };
  if (job.rooms.some((room) => room.id === spaceId)) return withRoom(job, spaceId, less<JobRoom>);
  found(job.zones, spaceId, 'room or zone');
  return { ...job, zones: job.zones!.map((zone) => (zone.id === spaceId ? less(zone) : zone)) };
};
