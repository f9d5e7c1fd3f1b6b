import { type Account, account, type Mode, modes, parseQuantity, type UnitSystem } from '@airledger/engine';
import { computeLoads } from '@airledger/engine/loads/compute-loads';
import { EditRefused } from '../edit/index.ts';
import type { Job } from '../schema/job-schema.ts';
import { surveyOf } from '../survey/survey-of.ts';
import { named, stations } from '../survey/tables.ts';
import { assumed } from './assumed.ts';
import { equipmentFor, type Kind, loadOf, type RoomLoads } from './equipment-for.ts';
import { ductKind, layDucts, type PlannedRun, registerPlaces, type SystemPlan } from './lay-ducts.ts';
import { type LaidRoom, type Layout, layOut, leastRoomsPerStorey, mostRooms } from './layout.ts';
import { roomId, shellOf } from './shell.ts';
import { roundSize_in } from './size-duct.ts';
import { vintageOf } from './vintage.ts';

/** The short form from which a whole plausible house follows. */
export type QuickStart = {
  readonly name: string;
  /** Conditioned floor area as typed, "1500 ft²" or "140 m²". */
  readonly floorArea: string;
  /** 1 or 2. */
  readonly storeys: number;
  readonly yearBuilt: number;
  /** Id of a station of the climate table. */
  readonly station: string;
  readonly ductPlace: 'attic' | 'basement' | 'crawlspace' | 'inside';
  /** All but the halls. */
  readonly rooms: number;
  readonly equipment: Kind;
  readonly units?: UnitSystem;
};

/** A run carries this much at most; a room that needs more gets several. */
const mostPerRun_m3s = 0.065;
const mostRunsPerRoom = 5;
/** A run that carries less is not short of size: something else holds its room back, as a shut door does. */
const leastToSplit_m3s = 0.05;
/** Rooms with less of the load than this need no register of their own. */
const leastShare = 0.03;
/** A room that gets less of its need has its runs enlarged, one that gets more reduced. */
const enough = 0.85;
const plenty = 1.3;
const rounds = 7;
const largestRun_in = 9;
/** Equipment that cannot hold its rooms by more than this is taken larger. */
const adrift_K = 0.3;
const larger = 1.15;
const mostEnlargements = 3;
/** A room behind a door with more air than this has a return of its own; a gap under a door passes less. */
const mostUnderDoor_m3s = 0.04;
const leastPerRoom_m2 = 5;

/** What keeps the form from giving a house, in words; undefined when nothing does. */
export const quickStartProblem = (start: QuickStart): string | undefined => {
  const area = parseQuantity(start.floorArea, 'area');
  if ('problem' in area) return `The floor area ${area.problem}: write it like "1500 ft²" or "140 m²".`;
  if (area.value < 30 || area.value > 1500)
    return 'The floor area has to be from 30 to 1500 m² (320 to 16,000 ft²).';
  if (start.storeys !== 1 && start.storeys !== 2)
    return 'Quick start knows houses of one or two storeys: draw further ones afterwards.';
  if (!Number.isInteger(start.rooms) || start.rooms > mostRooms)
    return `The number of rooms has to be a whole number up to ${mostRooms}.`;
  if (start.rooms < leastRoomsPerStorey * start.storeys)
    return `The number of rooms has to be at least ${leastRoomsPerStorey * start.storeys}, ${leastRoomsPerStorey} for each storey.`;
  if (area.value / start.rooms < leastPerRoom_m2)
    return `${start.rooms} rooms do not fit into ${start.floorArea}: take fewer rooms or more floor.`;
  if (!named(stations, start.station)) return `There is no station "${start.station}" in the climate table.`;
  if (!Number.isInteger(start.yearBuilt) || start.yearBuilt < 1600 || start.yearBuilt > 2100)
    return 'The year built has to be from 1600 to 2100.';
  return undefined;
};

type Served = {
  readonly storey: number;
  readonly id: string;
  readonly name: string;
  readonly rooms: readonly LaidRoom[];
};

/** Rooms by the system that serves them: one, or one for each storey where the upper one has its ducts in the attic. */
const servedBy = (start: QuickStart, layout: Layout): readonly Served[] => {
  const split = start.storeys === 2 && start.ductPlace === 'attic';
  const storeys = split ? [1, 2] : [start.ductPlace === 'attic' ? start.storeys : 1];
  return storeys.map((storey) => ({
    storey,
    id: split ? (storey === 1 ? 'lower' : 'upper') : 'main',
    name: split ? (storey === 1 ? 'Lower system' : 'Upper system') : 'System',
    rooms: layout.rooms.filter((room) => !split || room.storey === storey),
  }));
};

/** Zone of a system's ducts, and of its air handler: a closet off the hall where the ducts are inside. */
const placeOf = (start: QuickStart, storey: number): readonly [ducts: string, airHandler: string] => {
  if (start.ductPlace === 'basement' || start.ductPlace === 'crawlspace')
    return [start.ductPlace, start.ductPlace];
  if (start.ductPlace === 'attic' && storey === start.storeys) return ['attic', 'attic'];
  return [start.storeys > 1 ? 'between-floors' : 'hall', 'hall'];
};

/** Share of the air of a system that a room needs in the mode that asks for more of it. */
const needOf = (
  room: LaidRoom,
  loads: RoomLoads,
  rooms: ReadonlySet<string>,
  served: readonly Mode[],
): number =>
  Math.max(
    ...served.map((mode) => {
      const load = loads[mode].rooms.find((each) => each.room === roomId(room))!.sensible_W;
      const total = loadOf(loads, mode, rooms);
      return total > 0 ? Math.max(0, load) / total : 0;
    }),
  );

const modesOf = (kind: Kind): readonly Mode[] =>
  modes.filter((mode) => (mode === 'heating' ? kind !== 'air conditioner' : kind !== 'furnace'));

const runsFor = (room: LaidRoom, count: number, flow_m3s: number, size_in: number): readonly PlannedRun[] =>
  registerPlaces(room, count).map((end, i) => ({
    id: `run-${roomId(room)}${count > 1 ? `-${String.fromCharCode(97 + i)}` : ''}`,
    room,
    end,
    flow_m3s: flow_m3s / count,
    size_in,
  }));

/** Grilles in the halls, and in large bedrooms. */
const returnsFor = (
  rooms: readonly LaidRoom[],
  needs: readonly { readonly room: LaidRoom; readonly share: number }[],
  airflow_m3s: number,
): SystemPlan['returns'] => {
  const total = needs.reduce((sum, { share }) => sum + share, 0);
  const own = needs
    .map(({ room, share }) => ({ room, flow_m3s: (share / total) * airflow_m3s }))
    .filter(({ room, flow_m3s }) => room.use === 'bedroom' && flow_m3s > mostUnderDoor_m3s);
  const halls = rooms.filter((room) => room.side === 'hall');
  const rest_m3s = airflow_m3s - own.reduce((sum, { flow_m3s }) => sum + flow_m3s, 0);
  return [...halls.map((room) => ({ room, flow_m3s: rest_m3s / halls.length })), ...own];
};

const planSystem = (
  start: QuickStart,
  { storey, id, name, rooms }: Served,
  loads: RoomLoads,
  margin: number,
): SystemPlan => {
  const vintage = vintageOf(start.yearBuilt);
  const ids = new Set(rooms.map(roomId));
  const { equipment, airflow_m3s } = equipmentFor(start.equipment, loads, ids, margin);
  const [zone, airHandlerZone] = placeOf(start, storey);
  const kind = ductKind(start.ductPlace, vintage);
  const served = modesOf(start.equipment);
  const needs = rooms
    .map((room) => ({ room, share: needOf(room, loads, ids, served) }))
    .filter(({ share }) => share >= leastShare);
  const runs = needs.flatMap(({ room, share }) => {
    const flow_m3s = share * airflow_m3s;
    const count = Math.ceil(flow_m3s / mostPerRun_m3s);
    const size = {
      flow_m3s: flow_m3s / count,
      material: kind.run,
      slack: kind.slack,
      side: 'supply',
    } as const;
    return runsFor(room, count, flow_m3s, roundSize_in(size, 4, largestRun_in));
  });
  return {
    id,
    name,
    equipment,
    airflow_m3s,
    thermostatRoom: roomId(rooms.find((room) => room.side === 'hall')!),
    zone,
    airHandlerZone,
    storey,
    runs,
    returns: returnsFor(rooms, needs, airflow_m3s),
  };
};

/** Least share of its needed air that each room gets, over the modes. */
const shares = (accounts: readonly Account[]): ReadonlyMap<string, readonly number[]> => {
  const found = new Map<string, number[]>();
  for (const { rooms } of accounts)
    for (const { room, needed_m3s, delivered_m3s } of rooms)
      if (needed_m3s > 0) found.set(room, [...(found.get(room) ?? []), delivered_m3s / needed_m3s]);
  return found;
};

/** Runs a size larger, or one more, where their room gets too little; a size smaller where it gets far too much. */
const tuned = (plan: SystemPlan, got: ReadonlyMap<string, readonly number[]>): SystemPlan => {
  const rooms = [...new Set(plan.runs.map((run) => run.room))];
  const runs = rooms.flatMap((room): readonly PlannedRun[] => {
    const own = plan.runs.filter((run) => run.room === room);
    const least = Math.min(...(got.get(roomId(room)) ?? [1]));
    const { size_in } = own[0]!;
    const flow_m3s = own.reduce((sum, run) => sum + run.flow_m3s, 0);
    if (least < enough && size_in < largestRun_in)
      return own.map((run) => ({ ...run, size_in: size_in + 1 }));
    if (least < enough && own.length < mostRunsPerRoom && flow_m3s / own.length > leastToSplit_m3s)
      return runsFor(room, own.length + 1, flow_m3s, size_in - 1);
    if (least > plenty && size_in > 4) return own.map((run) => ({ ...run, size_in: size_in - 1 }));
    return own;
  });
  return runs.length === plan.runs.length && runs.every((run, i) => run === plan.runs[i])
    ? plan
    : { ...plan, runs };
};

/** Systems that run all the time and still let their thermostat's room drift away. */
const tooSmall = (accounts: readonly Account[]): ReadonlySet<string> =>
  new Set(
    accounts.flatMap(({ mode, survey, systems, rooms }) =>
      systems.flatMap(({ system, runFraction }) => {
        const thermostat = survey.systems.find((each) => each.id === system)!.thermostatRoom;
        const room = rooms.find((each) => each.room === thermostat)!;
        const adrift = (mode === 'heating' ? -1 : 1) * (room.predicted_C - room.setPoint_C);
        return runFraction > 0.99 && adrift > adrift_K ? [system] : [];
      }),
    ),
  );

/**
 * A whole plausible house from the short form: rooms around a hall, windows on every side, what its year usually built,
 * equipment sized by its own computed load, ducts sized by friction and then by its own account. Every value says that
 * it is assumed. Throws `EditRefused` when the form cannot be met (`quickStartProblem`).
 */
export const quickStart = (start: QuickStart): Job => {
  const problem = quickStartProblem(start);
  if (problem !== undefined) throw new EditRefused(problem);
  const area = parseQuantity(start.floorArea, 'area') as { readonly value: number };
  const vintage = vintageOf(start.yearBuilt);
  const layout = layOut(area.value, start.storeys, start.rooms);
  const shell: Job = shellOf(start, layout);
  const survey = surveyOf(shell);
  const loads = { heating: computeLoads(survey, 'heating'), cooling: computeLoads(survey, 'cooling') };
  const build = (plans: readonly SystemPlan[]): Job =>
    plans.reduce((job, plan) => layDucts(job, layout, plan, start, vintage), shell);
  const solved = (job: Job): readonly Account[] => {
    const surveyed = surveyOf(job);
    return modesOf(start.equipment).map((mode) => account(surveyed, mode));
  };
  const served = servedBy(start, layout);
  const margins = served.map(() => 1);
  const planned = (): readonly SystemPlan[] =>
    served.map((each, i) => planSystem(start, each, loads, margins[i]!));
  let plans = planned();
  let job = build(plans);
  for (let round = 0; round < mostEnlargements; round++) {
    const small = tooSmall(solved(job));
    if (small.size === 0) break;
    for (const [i, { id }] of served.entries()) if (small.has(id)) margins[i] = margins[i]! * larger;
    plans = planned();
    job = build(plans);
  }
  for (let round = 0; round < rounds; round++) {
    const got = shares(solved(job));
    const next = plans.map((plan) => tuned(plan, got));
    if (next.every((plan, i) => plan === plans[i])) break;
    plans = next;
    job = build(plans);
  }
  return {
    ...job,
    house: { ...job.house, floorArea: assumed(start.floorArea) },
    states: [{ id: 'as-found', name: 'As found', changes: [] }],
  };
};
