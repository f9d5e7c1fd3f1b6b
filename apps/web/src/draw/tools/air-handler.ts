import type { PlanPoint } from '@airledger/engine';
import {
  addSystem,
  type Job,
  type JobSystem,
  movePartPoint,
  outlineOf,
  planPathOf,
  pointText,
  polygonArea,
  roomAt,
  uniqueId,
  type Writing,
} from '@airledger/job';
import { airHandlersOn } from '../scene.ts';
import type { Deed, Tool, ToolContext } from '../tool.ts';
import { placing } from './placing.ts';

/** Ducts that begin this near to an air handler move with it, m. */
const joined_m = 0.6;

/** Floor area for each ton of cooling, and heat for each area, to begin with: common practice, no source. */
const areaForTon_m2 = 55;
const heating_W_m2 = 80;

const sizesFor = (job: Job): JobSystem['equipment'] => {
  const area = job.rooms.reduce((sum, room) => sum + polygonArea(outlineOf(room)), 0);
  const tons = Math.min(5, Math.max(1.5, Math.round((area / areaForTon_m2) * 2) / 2));
  const kBtuh = Math.max(40, Math.ceil((area * heating_W_m2) / 293.071 / 20) * 20);
  const note = 'by floor area, until the load is known; common practice, no source';
  return {
    kind: 'furnace with air conditioner',
    heating: { output: { value: `${kBtuh} kBtu/h`, known: 'assumed', note } },
    cooling: { total: { value: `${tons} tons`, known: 'assumed', note } },
  };
};

/** Zone or room that ducts and equipment stand in: the one chosen, else an attic or the like, else the room there. */
export const spaceFor = ({ job, storey, options }: ToolContext, at: PlanPoint): string => {
  const spaces = [...(job.zones ?? []), ...job.rooms].map(({ id }) => id);
  if (spaces.includes(options.ductZone)) return options.ductZone;
  const zones = job.zones ?? [];
  const usual = ['attic', 'basement', 'crawlspace'].flatMap((kind) =>
    zones.filter((zone) => zone.kind === kind),
  );
  return usual[0]?.id ?? roomAt(job, at, storey)?.id ?? job.rooms[0]!.id;
};

/** The air handler of a system put elsewhere; ducts that begin at it go with it. */
export const moveAirHandler = (
  job: Job,
  id: string,
  to: PlanPoint,
  storey: number,
  writing: Writing,
): Job => {
  const before = airHandlersOn(job, storey).find((each) => each.system === id)?.at;
  const placed: Job = {
    ...job,
    systems: (job.systems ?? []).map((system) =>
      system.id === id
        ? {
            ...system,
            airHandler: {
              ...system.airHandler,
              spot: pointText(to, writing.units),
              ...(storey !== 1 && { storey }),
            },
          }
        : system,
    ),
  };
  if (!before) return placed;
  const starting = placed
    .systems!.find((system) => system.id === id)!
    .parts.filter((part) => part.joins === 'air-handler' && (part.path?.length ?? 0) >= 2)
    .map((part) => ({ id: part.id, start: planPathOf(part)[0]! }))
    .filter(({ start }) => Math.hypot(start[0] - before[0], start[1] - before[1]) <= joined_m);
  return starting.reduce(
    (now, { id: part, start }) =>
      movePartPoint(now, id, part, 0, [start[0] + to[0] - before[0], start[1] + to[1] - before[1]], writing),
    placed,
  );
};

const newSystem = (at: PlanPoint, context: ToolContext): Deed => {
  const { job, storey, writing } = context;
  const id = uniqueId(job, 'main');
  return {
    label: 'Draw air handler',
    change: (now) =>
      addSystem(now, {
        id,
        thermostatRoom: roomAt(now, at, storey)?.id ?? now.rooms[0]!.id,
        equipment: sizesFor(now),
        airHandler: {
          zone: spaceFor(context, at),
          spot: pointText(at, writing.units),
          ...(storey !== 1 && { storey }),
        },
        parts: [],
      }),
    select: [{ kind: 'airHandler', id }],
  };
};

/** Places the air handler of a new system; one that is not drawn yet takes its place first. */
export const airHandler: Tool<Record<string, never>> = placing({
  start: {},
  on: (state, event, context) => {
    if (event.kind !== 'press') return { state };
    const { at } = event.place;
    const { job, storey, writing } = context;
    const drawn = new Set(
      [0, 1, 2, 3, -1, 4, 5, 6, 7].flatMap((each) => airHandlersOn(job, each)).map(({ system }) => system),
    );
    const waiting = job.systems?.find(({ id }) => !drawn.has(id));
    if (!waiting) return { state, deed: newSystem(at, context) };
    return {
      state,
      deed: {
        label: `Place air handler of ${waiting.id}`,
        change: (now) => moveAirHandler(now, waiting.id, at, storey, writing),
        select: [{ kind: 'airHandler', id: waiting.id }],
      },
    };
  },
  preview: (_, place) => (place ? { dots: [place.at] } : {}),
  hint: () => 'Click where the air handler stands. Its sizes are assumed until you type them.',
});
