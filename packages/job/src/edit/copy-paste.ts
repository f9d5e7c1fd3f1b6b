import type { PlanPoint } from '@airledger/engine';
import type { Job, JobPart, JobRoom } from '../schema/job-schema.ts';
import { outlineOf } from '../survey/plan.ts';
import { drawn, knownOf } from './drawn.ts';
import { EditRefused } from './edit-refused.ts';
import { moved } from './geometry.ts';
import { partOf, pathOf, roomAt, roomOf, systemOf, withParts } from './in-job.ts';
import type { JobDoor } from './openings.ts';
import { takeoffAt } from './parts.ts';
import { redraw } from './redraw.ts';
import { lengthText, pointText } from './typed-text.ts';
import { uniqueId } from './unique-id.ts';
import type { Writing } from './walls-from-outline.ts';

/** What was copied, as plain data: it may come from another job, or through the clipboard as text. */
export type Clip = {
  readonly rooms: readonly JobRoom[];
  readonly doors: readonly JobDoor[];
  readonly parts: readonly JobPart[];
};

/** Rooms with the doors between them, and ducts, for `paste`. */
export const copy = (
  job: Job,
  {
    rooms = [],
    system,
    parts = [],
  }: { readonly rooms?: readonly string[]; readonly system?: string; readonly parts?: readonly string[] },
): Clip => ({
  rooms: rooms.map((id) => roomOf(job, id)),
  doors: (job.doors ?? []).filter((door) => door.between.every((id) => rooms.includes(id))),
  parts: parts.map((id) => partOf(job, system ?? '', id)),
});

/** New ids for all that is pasted, by the old ones. */
const renaming = (job: Job, ids: readonly string[]): ReadonlyMap<string, string> => {
  const names = new Map<string, string>();
  for (const id of ids) names.set(id, uniqueId(job, id, names.values()));
  return names;
};

const pastedRoom = (
  room: JobRoom,
  names: ReadonlyMap<string, string>,
  by: PlanPoint,
  { units }: Writing,
): JobRoom => {
  const corners = outlineOf(room).map((corner) => pointText(moved(corner, by), units));
  const leads = (to: string | undefined): boolean => to === undefined || !names.has(to);
  return {
    ...room,
    id: names.get(room.id)!,
    ...(room.name !== undefined && { name: renumbered(room.name, room.id, names.get(room.id)!) }),
    ...(room.outline && { outline: corners }),
    ...(room.corner !== undefined && corners[0] !== undefined && { corner: corners[0] }),
    ...(room.surfaces && {
      surfaces: room.surfaces
        .filter((surface) => surface.kind !== 'partition' || !leads(surface.beyond))
        .map((surface) =>
          leads(surface.beyond) ? surface : { ...surface, beyond: names.get(surface.beyond!)! },
        ),
    }),
  };
};

/** "Bedroom 2" as "Bedroom 3" when its id goes from bedroom-2 to bedroom-3. */
const renumbered = (name: string, before: string, now: string): string => {
  const number = /-(\d+)$/.exec(now)?.[1];
  const bare = /-\d+$/.test(before) ? name.replace(/\s*\d+$/, '') : name;
  return number === undefined ? name : `${bare} ${number}`;
};

const pastedPart = (
  job: Job,
  systemId: string,
  part: JobPart,
  names: ReadonlyMap<string, string>,
  by: PlanPoint,
  { units }: Writing,
): JobPart => {
  const joins = names.get(part.joins) ?? part.joins;
  const isOld = joins === part.joins && joins !== 'air-handler';
  if (isOld && !systemOf(job, systemId).parts.some((each) => each.id === joins))
    throw new EditRefused(`"${part.id}" joins "${joins}", which "${systemId}" does not have: copy it too.`);
  const path = pathOf(part).map((point) => moved(point, by));
  const takeoff = isOld && path[0] ? takeoffAt(job, systemId, joins, path[0]) : undefined;
  const { at, ...rest } = part;
  const end = path.at(-1);
  const under = end && roomAt(job, end, part.storey ?? 1)?.id;
  const line = takeoff ? [takeoff.point, ...path.slice(1)] : path;
  return {
    ...rest,
    id: names.get(part.id)!,
    ...(part.name !== undefined && { name: renumbered(part.name, part.id, names.get(part.id)!) }),
    joins,
    ...(takeoff
      ? !takeoff.atEnd && { at: drawn(lengthText(takeoff.at_m, units), knownOf(at)) }
      : at !== undefined && { at }),
    ...(part.path && { path: line.map((point) => pointText(point, units)) }),
    ...(part.terminal && {
      terminal: {
        ...part.terminal,
        id: names.get(part.terminal.id)!,
        room: names.get(part.terminal.room) ?? under ?? part.terminal.room,
      },
    }),
  };
};

/**
 * What was copied once more, moved by `by`, under new ids; what refers to a copied thing refers to its copy. A duct
 * joins the part that the copied one joined, at the place nearest to its start; its register opens into the room under it.
 */
export const paste = (
  job: Job,
  clip: Clip,
  { by, system, ...writing }: Writing & { readonly by: PlanPoint; readonly system?: string },
): Job => {
  const names = renaming(job, [
    ...clip.rooms.map(({ id }) => id),
    ...clip.doors.map(({ id }) => id),
    ...clip.parts.flatMap(({ id, terminal }) => (terminal ? [id, terminal.id] : [id])),
  ]);
  const withRooms =
    clip.rooms.length === 0
      ? job
      : redraw(
          {
            ...job,
            rooms: [...job.rooms, ...clip.rooms.map((room) => pastedRoom(room, names, by, writing))],
            ...(clip.doors.length > 0 && {
              doors: [
                ...(job.doors ?? []),
                ...clip.doors.map((door) => ({
                  ...door,
                  id: names.get(door.id)!,
                  between: door.between.map((id) => names.get(id)!),
                })),
              ],
            }),
          },
          writing,
        );
  if (clip.parts.length === 0) return withRooms;
  if (system === undefined) throw new EditRefused('Say into which system the ducts go.');
  return withParts(withRooms, system, (parts) => [
    ...parts,
    ...clip.parts.map((part) => pastedPart(withRooms, system, part, names, by, writing)),
  ]);
};
