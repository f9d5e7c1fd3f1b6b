import type { PlanPoint } from '@airledger/engine';
import {
  addPart,
  insertOnTrunk,
  type Job,
  type NewPart,
  nearestPart,
  roomAt,
  siOf,
  uniqueId,
} from '@airledger/job';
import { airHandlersOn } from '../scene.ts';
import type { Deed, Step, Tool, ToolContext } from '../tool.ts';
import { spaceFor } from './air-handler.ts';
import { type LineState, lineFields, linePreview, onLine } from './outline.ts';

/** A line that begins this near to an air handler begins at it, m. */
const airHandler_m = 0.6;

/** What a line begins on: the air handler or a part, of which system and on which side. */
type Root = { readonly system: string; readonly joins: string; readonly side: 'supply' | 'return' };

const rootAt = (point: PlanPoint, { job, storey, reach_m, options }: ToolContext): Root | undefined => {
  const handler = airHandlersOn(job, storey)
    .map(({ system, at }) => ({ system, away: Math.hypot(at[0] - point[0], at[1] - point[1]) }))
    .filter(({ away }) => away <= Math.max(reach_m, airHandler_m))
    .sort((a, b) => a.away - b.away)[0];
  if (handler) return { system: handler.system, joins: 'air-handler', side: options.side };
  const within = { within_m: Math.max(reach_m, 0.2) };
  // A part of the side in hand is meant first; another says itself which side it is on.
  const near = nearestPart(job, point, { ...within, side: options.side }) ?? nearestPart(job, point, within);
  const part =
    near && job.systems!.find(({ id }) => id === near.system)!.parts.find(({ id }) => id === near.part);
  return near && part ? { system: near.system, joins: near.part, side: part.side } : undefined;
};

const runIds = { supply: 'run', return: 'return' } as const;

const partFor = (
  role: 'plenum' | 'trunk' | 'run',
  side: 'supply' | 'return',
  path_m: readonly PlanPoint[],
  context: ToolContext,
): Omit<NewPart, 'joins'> => {
  const { job, storey, options } = context;
  const end = path_m.at(-1)!;
  const room = roomAt(job, end, storey);
  const base = role === 'run' ? (room ? `${room.id}-${runIds[side]}` : runIds[side]) : `${side}-${role}`;
  const id = uniqueId(job, base);
  const rises_m = role === 'run' ? (siOf(options.rises, 'length') ?? 0) : 0;
  return {
    id,
    side,
    role,
    section:
      role !== 'run' ? options.trunkSection : side === 'return' ? options.returnSection : options.runSection,
    ...(role === 'run' && { material: options.runMaterial }),
    insulation: options.insulation,
    zone: spaceFor(context, end),
    ...(storey !== 1 && { storey }),
    path_m,
    rises_m,
    ...(role === 'run' &&
      room && {
        terminal: {
          id: uniqueId(job, `${room.id}-${side === 'supply' ? 'register' : 'grille'}`, [id]),
          room: room.id,
          face: side === 'supply' ? options.registerFace : options.grilleFace,
        },
      }),
  } as Omit<NewPart, 'joins'>;
};

/** A deed that draws a duct along some points; a line that ends on a duct instead of beginning there is turned round. */
export const ductDeed = (
  role: 'plenum' | 'trunk' | 'run',
  points: readonly PlanPoint[],
  context: ToolContext,
): Deed | string => {
  const { job, options, writing } = context;
  if (!job.systems?.length) return 'Place the air handler first (A).';
  const forward = rootAt(points[0]!, context);
  const root = forward ?? rootAt(points.at(-1)!, context);
  const path_m = forward || !root ? points : points.toReversed();
  const side = root?.side ?? options.side;
  const part = partFor(role, side, path_m, context);
  if (role === 'run' && !part.terminal) return 'A run ends in a room, where its register is: draw it to one.';
  const system = root?.system ?? job.systems[0]!.id;
  const change = (now: Job): Job => {
    if (root) return addPart(now, root.system, { ...part, joins: root.joins } as NewPart, writing);
    return insertOnTrunk(now, system, toTrunk(now, system, part), writing);
  };
  return {
    label: `Draw ${part.id}`,
    change,
    select: [{ kind: 'part', id: part.id }],
    confirm: { system, part: part.id },
  };
};

/** A run that begins beside its trunk reaches it by the shortest way: its own first point becomes a bend. */
const toTrunk = (job: Job, system: string, part: Omit<NewPart, 'joins'>): Omit<NewPart, 'joins'> => {
  const start = part.path_m[0]!;
  const trunk = nearestPart(job, start, { system, side: part.side, roles: ['trunk', 'plenum'] });
  const bends = part.path_m.filter(
    (point, i, all) => i === 0 || Math.hypot(point[0] - all[i - 1]![0], point[1] - all[i - 1]![1]) > 0,
  );
  return trunk && trunk.away_m > 0.05 ? { ...part, path_m: [start, ...bends] } : part;
};

const ductTool = (
  role: (context: ToolContext) => 'plenum' | 'trunk' | 'run',
  hint: string,
): Tool<LineState> => ({
  start: { points: [] },
  on: (state, event, context) =>
    onLine(state, event, false, (points): Step<LineState> => {
      if (points.length < 2) return { state, note: 'It takes two points at least.' };
      const deed = ductDeed(role(context), points, context);
      return typeof deed === 'string' ? { state, note: deed } : { state: { points: [] }, deed };
    }),
  preview: (state, place) => linePreview(state, place?.at),
  hint: ({ points }) =>
    points.length === 0
      ? hint
      : points.length === 1
        ? 'Click the next bend, or the end.'
        : 'Click the last point once more, or press Enter on it, to finish. Backspace takes it back.',
  fields: lineFields,
  from: ({ points }) => points.at(-1),
  last: ({ points }) => points.at(-1),
});

/** A trunk or plenum from the air handler, or from another trunk. */
export const trunk = ductTool(
  ({ options }) => options.trunkRole,
  'Click the air handler or a trunk, then each bend.',
);

/** A run from a trunk or plenum to the register in a room; a return likewise, to its grille. */
export const run = ductTool(() => 'run', 'Click a trunk, each bend, then where the register is.');
