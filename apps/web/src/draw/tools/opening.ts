import type { PlanPoint } from '@airledger/engine';
import {
  addDoor,
  addWindow,
  edgesOf,
  nearestOnPath,
  outlineOf,
  pointText,
  roomsBeside,
  uniqueId,
  wallAt,
} from '@airledger/job';
import { roomsOn } from '../scene.ts';
import type { Deed, Place, Step, Tool, ToolContext } from '../tool.ts';
import { placing } from './placing.ts';

type Wall = { readonly room: string; readonly edge: readonly [PlanPoint, PlanPoint]; readonly at: PlanPoint };
type State = Record<string, never>;

/** Wall of a room nearest to a point, within reach. */
const wallNear = ({ job, storey, reach_m }: ToolContext, point: PlanPoint): Wall | undefined =>
  roomsOn(job, storey)
    .flatMap((room) =>
      edgesOf(outlineOf(room)).map((edge) => ({ room: room.id, edge, ...nearestOnPath(point, edge) })),
    )
    .filter(({ away_m }) => away_m <= Math.max(2 * reach_m, 0.3))
    .map(({ room, edge, point: at, away_m }) => ({ room, edge, at, away_m }))
    .sort((a, b) => a.away_m - b.away_m)[0];

const betweenRooms = ({ job, storey, reach_m }: ToolContext, point: PlanPoint) =>
  roomsBeside(job, point, storey, Math.max(2 * reach_m, 0.3));

/** A window or outside door in the wall of a room at a point. */
const inWall = (
  wall: Wall,
  kind: 'window' | 'door',
  { job, writing, options }: ToolContext,
): Deed | undefined => {
  const host = wallAt(job, wall.room, wall.at);
  if (host === undefined) return undefined;
  const room = job.rooms.find(({ id }) => id === wall.room)!;
  const taken = (room.surfaces ?? []).map(({ id }) => id);
  let id: string = kind;
  for (let n = 2; taken.includes(id); n++) id = `${kind}-${n}`;
  return {
    label: `Draw ${kind} in ${room.name ?? room.id}`,
    change: (now) =>
      addWindow(now, wall.room, {
        id,
        kind,
        in: host,
        size: kind === 'window' ? options.windowSize : '3 ft x 6 ft 8 in',
        spot: pointText(wall.at, writing.units),
        ...(kind === 'window' && options.windowAssembly && { assembly: options.windowAssembly }),
      }),
    select: [{ kind: 'window', id, room: wall.room }],
  };
};

const doorDeed = (between: readonly [string, string], at: PlanPoint, context: ToolContext): Deed => {
  const { job, writing, options } = context;
  const id = uniqueId(job, `${between[1]}-door`);
  return {
    label: `Draw door between ${between.join(' and ')}`,
    change: (now) =>
      addDoor(now, {
        id,
        between: [...between],
        spot: pointText(at, writing.units),
        ...(options.door === 'opening'
          ? { opening: true, size: '3 ft x 6 ft 8 in' }
          : { open: options.door === 'open', size: '32 in x 80 in', undercut: options.undercut }),
      }),
    select: [{ kind: 'door', id }],
  };
};

const tool = (hint: string, place: (wall: Wall, context: ToolContext) => Step<State>): Tool<State> =>
  placing({
    start: {},
    on: (state, event, context) => {
      if (event.kind !== 'press') return { state };
      const wall = wallNear(context, event.place.raw) ?? wallNear(context, event.place.at);
      return wall ? place(wall, context) : { state, note: 'Click on a wall.' };
    },
    preview: (_, pointer: Place | undefined, context) => {
      const wall = pointer && (wallNear(context, pointer.raw) ?? wallNear(context, pointer.at));
      return wall
        ? {
            line: wall.edge,
            dots: [wall.at],
            measures: [
              { from: wall.edge[0], to: wall.at },
              { from: wall.at, to: wall.edge[1] },
            ],
          }
        : {};
    },
    hint: () => hint,
  });

/** A door in the wall between two rooms, or an outside door in one that has nothing beyond. */
export const door = tool('Click on a wall: between two rooms for an inner door.', (wall, context) => {
  const between = betweenRooms(context, wall.at);
  if (context.options.door === 'outside' || !between) {
    if (between) return { state: {}, note: 'Rooms lie on both sides of that wall: choose an inner door.' };
    if (context.options.door !== 'outside')
      return { state: {}, note: 'Nothing lies beyond that wall: choose an outside door.' };
    const deed = inWall(wall, 'door', context);
    return deed ? { state: {}, deed } : { state: {}, note: 'That wall has no outside.' };
  }
  return { state: {}, deed: doorDeed(between, wall.at, context) };
});

/** A window in an outside wall; it faces where its wall faces. */
export const windowTool = tool('Click on an outside wall.', (wall, context) => {
  if (betweenRooms(context, wall.at))
    return { state: {}, note: 'Rooms lie on both sides of that wall: a window needs the outdoors.' };
  const deed = inWall(wall, 'window', context);
  return deed
    ? { state: {}, deed }
    : { state: {}, note: 'That room has no outside wall there: its walls were typed by hand.' };
});
