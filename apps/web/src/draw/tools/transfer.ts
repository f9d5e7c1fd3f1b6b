import type { PlanPoint } from '@airledger/engine';
import { addTransfer, type JobTransfer, pointText, roomsBeside, uniqueId } from '@airledger/job';
import { wallBetween } from '../scene.ts';
import type { Deed, Place, Tool, ToolContext } from '../tool.ts';
import { placing } from './placing.ts';

/** The two rooms on both sides of the wall near a point. */
const roomsAt = ({ job, storey, reach_m }: ToolContext, { raw, at }: Place) => {
  const within_m = Math.max(2 * reach_m, 0.3);
  return roomsBeside(job, raw, storey, within_m) ?? roomsBeside(job, at, storey, within_m);
};

const transferDeed = (between: readonly [string, string], at: PlanPoint, context: ToolContext): Deed => {
  const { job, writing, options } = context;
  const { transferKind: kind, transferFace: face, jumpDiameter: diameter } = options;
  const id = uniqueId(job, `${between[0]}-${kind === 'jump duct' ? 'jump-duct' : 'transfer'}`);
  const names = between.map((room) => job.rooms.find((each) => each.id === room)?.name ?? room);
  const transfer: JobTransfer = {
    id,
    kind,
    between: [...between],
    spot: pointText(at, writing.units),
    ...(kind === 'jump duct' ? { diameter } : { face }),
  };
  return {
    label: `Draw ${kind} between ${names.join(' and ')}`,
    change: (now) => addTransfer(now, transfer),
    select: [{ kind: 'transfer', id }],
  };
};

/** A transfer grille or jump duct: a way back for the air of a room whose door is shut. */
export const transfer: Tool<Record<string, never>> = placing({
  start: {},
  on: (state, event, context) => {
    if (event.kind !== 'press') return { state };
    const between = roomsAt(context, event.place);
    return between
      ? { state, deed: transferDeed(between, event.place.at, context) }
      : { state, note: 'Click on a wall with a room on each side.' };
  },
  preview: (_, place, context) => {
    const between = place && roomsAt(context, place);
    const rooms = between?.map((id) => context.job.rooms.find((room) => room.id === id)!);
    const wall = rooms && wallBetween(rooms[0]!, rooms[1]!);
    return wall ? { line: wall, dots: [place!.at] } : {};
  },
  hint: () => 'Click on the wall between two rooms: air finds its way back there when the door is shut.',
});
