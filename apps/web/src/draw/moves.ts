import type { PlanPoint } from '@airledger/engine';
import {
  addPartPoint,
  addRoomCorner,
  counterClockwise,
  deletePartPoint,
  deleteRoomCorner,
  EditRefused,
  edgesOf,
  type Job,
  movePart,
  movePartPoint,
  moveRoom,
  moveRoomCorner,
  moveRoomEdge,
  moveZone,
  nearestOnPath,
  outlineOf,
  planPathOf,
  pointText,
  resizeRoom,
  roomsBeside,
  setZoneOutline,
  type Writing,
  wallAt,
} from '@airledger/job';
import type { Handle } from './handles.ts';
import { airHandlersOn, openingsOn, partOfRegister, systemOfPart } from './scene.ts';
import { isSame, type Selected } from './selection.ts';
import { moveAirHandler } from './tools/air-handler.ts';

/** A rectangle stays one when a corner or a side of it is pulled to a place; least side in m. */
const least_m = 0.3;

const stretchedRectangle = (job: Job, id: string, handle: Handle, to: PlanPoint, writing: Writing): Job => {
  const outline = outlineOf(job.rooms.find((room) => room.id === id)!);
  const [[west, south], , [east, north]] = [outline[0]!, outline[1]!, outline[2]!];
  // Sides counter-clockwise from the south, corners from the south-west.
  const { part, index } = handle;
  const pulls = {
    south: part === 'side' ? index === 0 : index < 2,
    east: part === 'side' ? index === 1 : index === 1 || index === 2,
    north: part === 'side' ? index === 2 : index >= 2,
    west: part === 'side' ? index === 3 : index === 0 || index === 3,
  };
  const box = {
    west: pulls.west ? Math.min(to[0], east - least_m) : west,
    east: pulls.east ? Math.max(to[0], west + least_m) : east,
    south: pulls.south ? Math.min(to[1], north - least_m) : south,
    north: pulls.north ? Math.max(to[1], south + least_m) : north,
  };
  const sized = resizeRoom(
    job,
    id,
    { width_m: box.east - box.west, depth_m: box.north - box.south },
    writing,
  );
  return box.west === west && box.south === south
    ? sized
    : moveRoom(sized, id, [box.west - west, box.south - south], writing);
};

/** Way of a side pulled to a place, square to it. */
const squareTo = ([a, b]: readonly [PlanPoint, PlanPoint], to: PlanPoint): PlanPoint => {
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]) || 1;
  const normal: PlanPoint = [(b[1] - a[1]) / length, -(b[0] - a[0]) / length];
  const out = (to[0] - a[0]) * normal[0] + (to[1] - a[1]) * normal[1];
  return [normal[0] * out, normal[1] * out];
};

/** The job with a handle pulled to a place. */
export const pullHandle = (job: Job, handle: Handle, to: PlanPoint, writing: Writing): Job => {
  const { of, part, index } = handle;
  if (of.kind === 'room') {
    const room = job.rooms.find(({ id }) => id === of.id)!;
    if (room.size !== undefined) return stretchedRectangle(job, of.id, handle, to, writing);
    if (part === 'corner') return moveRoomCorner(job, of.id, index, to, writing);
    return moveRoomEdge(job, of.id, index, squareTo(edgesOf(outlineOf(room))[index]!, to), writing);
  }
  if (of.kind === 'zone') {
    const outline = outlineOf(job.zones!.find(({ id }) => id === of.id)!);
    if (part === 'corner') return setZoneOutline(job, of.id, outline.with(index, to), writing);
    const by = squareTo(edgesOf(outline)[index]!, to);
    const next = (index + 1) % outline.length;
    const moved = ([x, y]: PlanPoint): PlanPoint => [x + by[0], y + by[1]];
    return setZoneOutline(
      job,
      of.id,
      outline.with(index, moved(outline[index]!)).with(next, moved(outline[next]!)),
      writing,
    );
  }
  const system = systemOfPart(job, of.id)!;
  if (part === 'corner') return movePartPoint(job, system, of.id, index, to, writing);
  const path = planPathOf(
    job.systems!.find(({ id }) => id === system)!.parts.find(({ id }) => id === of.id)!,
  );
  const by = squareTo([path[index]!, path[index + 1]!], to);
  const shifted = [index, index + 1].filter((i) => i > 0 || path.length === 2);
  return shifted.reduce(
    (now, i) => movePartPoint(now, system, of.id, i, [path[i]![0] + by[0], path[i]![1] + by[1]], writing),
    job,
  );
};

/** A corner or bend more at the middle of a side, or the corner or bend of the handle less. */
export const splitOrJoin = (job: Job, { of, part, index, at }: Handle, writing: Writing): Job => {
  if (of.kind === 'room')
    return part === 'side'
      ? addRoomCorner(job, of.id, index, at, writing)
      : deleteRoomCorner(job, of.id, index, writing);
  if (of.kind === 'zone') {
    const outline = outlineOf(job.zones!.find(({ id }) => id === of.id)!);
    return setZoneOutline(
      job,
      of.id,
      part === 'side' ? outline.toSpliced(index + 1, 0, at) : outline.toSpliced(index, 1),
      writing,
    );
  }
  const system = systemOfPart(job, of.id)!;
  return part === 'side'
    ? addPartPoint(job, system, of.id, index, at, writing)
    : deletePartPoint(job, system, of.id, index, writing);
};

/** A door, transfer path or window at another place of a wall; the first two go between the rooms that are there. */
const moveOpening = (job: Job, item: Selected, to: PlanPoint, storey: number, writing: Writing): Job => {
  const spot = openingsOn(job, storey).find((each) => isSame(each.item, item));
  if (!spot) return job;
  if (item.kind === 'door' || item.kind === 'transfer') {
    const between = roomsBeside(job, to, storey, 0.6);
    const moved = <T extends { readonly id: string }>(each: T): T =>
      each.id === item.id
        ? { ...each, spot: pointText(to, writing.units), ...(between && { between: [...between] }) }
        : each;
    return item.kind === 'door'
      ? { ...job, doors: job.doors!.map(moved) }
      : { ...job, transfers: job.transfers!.map(moved) };
  }
  const room = job.rooms.find(({ id }) => id === item.room)!;
  const wall = edgesOf(counterClockwise(outlineOf(room)))
    .map((edge) => nearestOnPath(to, edge))
    .sort((a, b) => a.away_m - b.away_m)[0]!;
  if (roomsBeside(job, wall.point, storey, 0.1))
    throw new EditRefused('A window needs the outdoors behind it.');
  const host = wallAt(job, room.id, wall.point);
  return {
    ...job,
    rooms: job.rooms.map((each) =>
      each === room
        ? {
            ...room,
            surfaces: room.surfaces!.map((surface) =>
              surface.id === item.id
                ? { ...surface, spot: pointText(wall.point, writing.units), ...(host && { in: host }) }
                : surface,
            ),
          }
        : each,
    ),
  };
};

/** The job with what is selected moved; `to` is where the hand is, for what slides along walls. */
export const moveItems = (
  job: Job,
  items: readonly Selected[],
  by: PlanPoint,
  to: PlanPoint,
  storey: number,
  writing: Writing,
): Job =>
  items.reduce((now, item) => {
    switch (item.kind) {
      case 'room':
        return moveRoom(now, item.id, by, writing);
      case 'zone':
        return moveZone(now, item.id, by, writing);
      case 'part':
        return movePart(now, systemOfPart(now, item.id)!, item.id, by, writing);
      case 'register': {
        const part = partOfRegister(now, item.id);
        if (!part || items.some((each) => each.kind === 'part' && each.id === part.id)) return now;
        const end = planPathOf(part).at(-1)!;
        const point: PlanPoint = [end[0] + by[0], end[1] + by[1]];
        return movePartPoint(
          now,
          systemOfPart(now, part.id)!,
          part.id,
          part.path!.length - 1,
          point,
          writing,
        );
      }
      case 'airHandler': {
        const at = airHandlersOn(now, storey).find(({ system }) => system === item.id)?.at;
        return at ? moveAirHandler(now, item.id, [at[0] + by[0], at[1] + by[1]], storey, writing) : now;
      }
      case 'door':
      case 'transfer':
      case 'window':
        return moveOpening(now, item, to, storey, writing);
      default:
        return now;
    }
  }, job);
