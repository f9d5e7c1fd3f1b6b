import type { Job, JobRoom, JobSurface } from '../schema/job-schema.ts';
import { isDrawn, knownOf } from './drawn.ts';
import { siOf } from './typed-text.ts';
import {
  ceilingsFromOutline,
  floorsFromOutline,
  type Writing,
  wallsFromOutline,
} from './walls-from-outline.ts';

const enclosing = new Set<JobSurface['kind']>([
  'wall',
  'ceiling',
  'floor',
  'slab',
  'below-grade wall',
  'below-grade floor',
  'partition',
]);

const same = (a: number | undefined, b: number | undefined): boolean =>
  a !== undefined && b !== undefined && Math.abs(a - b) <= 1e-3 * Math.max(a, b);

/** A surface measured anew: everything that was said of it stays, and so does a figure that has not changed. */
const remeasured = (before: JobSurface, now: JobSurface): JobSurface => {
  const edge = isDrawn(before.edge) ? now.edge : before.edge;
  const isSame =
    same(siOf(before.area, 'area'), siOf(now.area, 'area')) &&
    (edge === before.edge || siOf(before.edge, 'length') === siOf(edge, 'length')) &&
    before.beyond === now.beyond &&
    before.facing === now.facing &&
    before.kind === now.kind;
  if (isSame) return before;
  const keepKnown = (typed: JobSurface['area']): JobSurface['area'] =>
    typeof typed === 'object' ? { ...typed, known: knownOf(before.area) ?? typed.known } : typed;
  return {
    ...before,
    ...now,
    area: keepKnown(now.area),
    ...(edge !== undefined && { edge: keepKnown(edge) }),
  };
};

/** What is said of the other surfaces of this kind, towards the same side. */
const likeOthers = (job: Job, room: JobRoom, surface: JobSurface): JobSurface => {
  const outside = surface.beyond ?? '';
  const other = [room, ...job.rooms]
    .flatMap((each) => each.surfaces ?? [])
    .find(
      (each) =>
        each.kind === surface.kind &&
        (each.beyond ?? '') === outside &&
        (each.assembly !== undefined || each.u !== undefined),
    );
  if (!other || surface.u !== undefined) return surface;
  return {
    ...surface,
    ...(other.assembly !== undefined && { assembly: other.assembly }),
    ...(other.u !== undefined && { u: other.u }),
  };
};

/** True for a room whose surfaces follow its outline: none was typed by hand in their stead. */
const followsOutline = (room: JobRoom): boolean =>
  (room.outline !== undefined || (room.size !== undefined && room.corner !== undefined)) &&
  ((room.surfaces ?? []).length === 0 || room.surfaces!.some((surface) => isDrawn(surface.area)));

const redrawnRoom = (job: Job, room: JobRoom, writing: Writing): JobRoom => {
  const before = room.surfaces ?? [];
  const typed = before.filter((surface) => enclosing.has(surface.kind) && !isDrawn(surface.area));
  const taken = new Set(typed.map((surface) => surface.id));
  const now = [
    ...wallsFromOutline(job, room, writing),
    ...ceilingsFromOutline(job, room, writing),
    ...floorsFromOutline(job, room, writing),
  ]
    .filter((surface) => !taken.has(surface.id))
    .map((surface) => {
      const old = before.find((each) => each.id === surface.id && enclosing.has(each.kind));
      return old ? remeasured(old, surface) : likeOthers(job, room, surface);
    });
  const walls = new Set([...now, ...typed].map((surface) => surface.id));
  // A window goes with its wall: there is nothing for it to look out of.
  const openings = before.filter(
    (surface) => !enclosing.has(surface.kind) && (surface.in === undefined || walls.has(surface.in)),
  );
  const surfaces = [...now, ...typed, ...openings];
  const unchanged =
    surfaces.length === before.length && surfaces.every((surface) => before.includes(surface));
  return unchanged ? room : { ...room, surfaces };
};

/**
 * The job with walls, ceilings and floors measured anew in every room that follows its outline. What is said of a
 * surface (assembly, U, how it is known) stays with it; rooms with surfaces typed by hand are left as they are.
 */
export const redraw = (job: Job, writing: Writing): Job => {
  const rooms = job.rooms.map((room) => (followsOutline(room) ? redrawnRoom(job, room, writing) : room));
  return rooms.every((room, i) => room === job.rooms[i]) ? job : { ...job, rooms };
};
