import type { PlanPoint } from '@airledger/engine';
import { addRoom, type Floor, type Job, uniqueId } from '@airledger/job';
import type { Deed, Tool, ToolContext } from '../tool.ts';

/** A room smaller than this either way is a slip of the hand, m. */
const least_m = 0.3;

export type RectangleState = { readonly corner?: PlanPoint };

/** Id of a room of a use: the first has no number, the next one more than any before it. */
const idFor = (job: Job, use: string): string => {
  const stem = use === 'other' ? 'room' : use;
  const numbers = job.rooms.flatMap(({ id }) => {
    const found = new RegExp(`^${stem}(?:-(\\d+))?$`).exec(id);
    return found ? [Number(found[1] ?? 1)] : [];
  });
  return uniqueId(job, numbers.length === 0 ? stem : `${stem}-${Math.max(...numbers) + 1}`);
};

/** Words of a use and the number behind its id: "Bedroom 2". */
const nameOf = (use: string, id: string): string => {
  const number = /-(\d+)$/.exec(id)?.[1];
  const word = use === 'other' ? 'Room' : use[0]!.toUpperCase() + use.slice(1);
  return number ? `${word} ${number}` : word;
};

/** A deed that adds a room with this floor, of the use in hand, on the storey in view. */
export const roomDeed = (floor: Floor, { job, storey, options, writing }: ToolContext): Deed => {
  const id = idFor(job, options.use);
  const name = nameOf(options.use, id);
  return {
    label: `Draw ${name}`,
    change: (now) =>
      addRoom(now, { id, name, use: options.use, ...(storey !== 1 && { storey }), floor }, writing),
    select: [{ kind: 'room', id }],
  };
};

const floorBetween = ([x1, y1]: PlanPoint, [x2, y2]: PlanPoint): Floor => ({
  corner_m: [Math.min(x1, x2), Math.min(y1, y2)],
  width_m: Math.abs(x2 - x1),
  depth_m: Math.abs(y2 - y1),
});

const isLarge = ([x1, y1]: PlanPoint, [x2, y2]: PlanPoint): boolean =>
  Math.abs(x2 - x1) >= least_m && Math.abs(y2 - y1) >= least_m;

/** A room from corner to corner: two clicks, one drag, or a corner and a typed width and depth. */
export const roomRectangle: Tool<RectangleState> = {
  start: {},
  on: (state, event, context) => {
    const { corner } = state;
    if (event.kind === 'cancel' || event.kind === 'back') return { state: {} };
    if (event.kind === 'typed') {
      const [first, second] = event.values;
      if (!corner)
        return first === undefined || second === undefined
          ? { state, note: 'Type both distances from the origin.' }
          : { state: { corner: [first, second] } };
      // What is not typed is as far as the pointer.
      const [dx, dy] = [event.place.at[0] - corner[0], event.place.at[1] - corner[1]];
      const width = Math.abs(first ?? dx);
      const depth = Math.abs(second ?? dy);
      if (width < least_m || depth < least_m) return { state, note: 'A room is at least a foot either way.' };
      const to: PlanPoint = [corner[0] + (dx < 0 ? -width : width), corner[1] + (dy < 0 ? -depth : depth)];
      return { state: {}, deed: roomDeed(floorBetween(corner, to), context) };
    }
    const { at } = event.place;
    if (event.kind === 'press' && !corner) return { state: { corner: at } };
    if (event.kind !== 'move' && corner && isLarge(corner, at))
      return { state: {}, deed: roomDeed(floorBetween(corner, at), context) };
    return { state };
  },
  preview: ({ corner }, place) => {
    if (!corner || !place) return {};
    const [[x1, y1], [x2, y2]] = [corner, place.at];
    return {
      outline: [corner, [x2, y1], place.at, [x1, y2]],
      measures: [
        { from: corner, to: [x2, y1] },
        { from: [x2, y1], to: place.at },
      ],
    };
  },
  hint: ({ corner }) =>
    corner ? 'Click the opposite corner, or type width, Tab, depth, Enter.' : 'Click or drag from a corner.',
  fields: ({ corner }) =>
    corner
      ? [
          { label: 'Width', dimension: 'length' },
          { label: 'Depth', dimension: 'length' },
        ]
      : [
          { label: 'East', dimension: 'length' },
          { label: 'North', dimension: 'length' },
        ],
  from: () => undefined,
  last: ({ corner }) => corner,
};
