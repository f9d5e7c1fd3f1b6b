import { type PlanPoint, toSi } from '@airledger/engine';
import { addPart, addSystem, insertOnTrunk, type NewPart, setRegister } from '../edit/index.ts';
import type { Job, JobSystem } from '../schema/job-schema.ts';
import { assumed } from './assumed.ts';
import type { LaidRoom, Layout } from './layout.ts';
import type { QuickStart } from './quick-start.ts';
import { roomId } from './shell.ts';
import { grilleFace, plenumSection, registerFace, trunkSection } from './size-duct.ts';
import type { Vintage } from './vintage.ts';

const ft = toSi('length', 1, 'ft');
/** Height from one storey's ducts to the next. */
const storeyRise_m = 9 * ft;
/** Registers stand this far from the outside wall. */
const inset_m = 2 * ft;
/** Supply and return run side by side over the hall. */
const apart_m = 0.8 * ft;

/** One run to lay: its room, its size in inches and the air it is meant to carry. */
export type PlannedRun = {
  readonly id: string;
  readonly room: LaidRoom;
  readonly end: PlanPoint;
  readonly flow_m3s: number;
  readonly size_in: number;
};

export type SystemPlan = {
  readonly id: string;
  readonly name: string;
  readonly equipment: JobSystem['equipment'];
  readonly airflow_m3s: number;
  readonly thermostatRoom: string;
  /** Where its ducts and its air handler are. */
  readonly zone: string;
  readonly airHandlerZone: string;
  /** Storey that its trunk lies under (below the floor) or over (above the ceiling). */
  readonly storey: number;
  readonly runs: readonly PlannedRun[];
  /** Rooms that air returns from, and how much of it. */
  readonly returns: readonly { readonly room: LaidRoom; readonly flow_m3s: number }[];
};

/** What the ducts of a place are made of (common practice, no source). */
export const ductKind = (place: QuickStart['ductPlace'], vintage: Vintage) =>
  place === 'basement'
    ? { run: 'galvanized', slack: 0, insulation: 'R-0' }
    : place === 'inside'
      ? { run: 'galvanized', slack: 0, insulation: 'R-0' }
      : { run: 'flex', slack: 0.06, insulation: vintage.ductInsulation };

/** Places for registers along the outside wall of a room. */
export const registerPlaces = (room: LaidRoom, count: number): readonly PlanPoint[] => {
  const [x, y] = room.corner_m;
  return Array.from({ length: count }, (_, i): PlanPoint => {
    const share = (i + 0.5) / count;
    if (room.side === 'west') return [x + inset_m, y + room.depth_m * share];
    const across = x + room.width_m * share;
    if (room.side === 'hall') return [across, y + room.depth_m / 2];
    return [across, room.side === 'south' ? y + inset_m : y + room.depth_m - inset_m];
  });
};

/** The whole of one system laid out over the hall and written into the job. */
export const layDucts = (
  job: Job,
  layout: Layout,
  plan: SystemPlan,
  start: QuickStart,
  vintage: Vintage,
): Job => {
  const writing = { units: start.units ?? 'ip', known: 'assumed' } as const;
  const kind = ductKind(start.ductPlace, vintage);
  const hall = layout.rooms.find((room) => room.side === 'hall' && room.storey === plan.storey)!;
  const [hallX, hallWidth] = [hall.corner_m[0], hall.width_m];
  const middle: PlanPoint = [hallX + hallWidth / 2, layout.axis_m + apart_m];
  const around = {
    zone: plan.zone,
    storey: plan.storey,
    insulation: assumed(kind.insulation, vintage.source),
    ...(kind.insulation === 'R-0' && { jacket: 'bare metal' as const }),
  };
  const id = (name: string): string => (plan.id === 'main' ? name : `${plan.id}-${name}`);
  const put = (next: Job, part: NewPart): Job => addPart(next, plan.id, part, writing);

  let next = addSystem(job, {
    id: plan.id,
    name: plan.name,
    thermostatRoom: plan.thermostatRoom,
    airflow: {
      heating: assumed(airflowText(plan.airflow_m3s)),
      cooling: assumed(airflowText(plan.airflow_m3s)),
    },
    equipment: plan.equipment,
    airHandler: {
      zone: plan.airHandlerZone,
      fan: { motor: vintage.motor as 'PSC' },
      filter: { name: 'none' },
    },
    parts: [],
    leakage: (['supply', 'return'] as const).map((side) => ({
      side,
      flow: assumed(
        airflowText(plan.airflow_m3s * share(vintage.ductLeakage)),
        `${vintage.ductLeakage} of the airflow: ${vintage.source}`,
      ),
    })),
  });

  const plenum = id('supply-plenum');
  next = put(next, {
    ...around,
    id: plenum,
    name: 'Supply plenum',
    side: 'supply',
    role: 'plenum',
    joins: 'air-handler',
    section: plenumSection(plan.airflow_m3s),
    material: 'galvanized',
    path_m: [middle, [middle[0] - 3 * ft, middle[1]]],
    fittings: [],
  });

  // Each run leaves the trunk of its side of the air handler square to it.
  for (const side of ['west', 'east'] as const) {
    const from = side === 'west' ? middle[0] - 3 * ft : middle[0] - 1.5 * ft;
    const runs = plan.runs.filter(({ end }) => (side === 'west' ? end[0] <= middle[0] : end[0] > middle[0]));
    if (runs.length === 0) continue;
    const reach = runs.map(({ end }) =>
      Math.min(Math.max(end[0], hallX + 0.5 * ft), hallX + hallWidth - 0.5 * ft),
    );
    const far = side === 'west' ? Math.min(...reach, from - 1 * ft) : Math.max(...reach, from + 1 * ft);
    const trunk = id(`trunk-${side}`);
    const flow_m3s = runs.reduce((sum, run) => sum + run.flow_m3s, 0);
    next = put(next, {
      ...around,
      id: trunk,
      name: side === 'west' ? 'West trunk' : 'East trunk',
      side: 'supply',
      role: 'trunk',
      joins: plenum,
      section: trunkSection({ flow_m3s, material: 'galvanized', slack: 0, side: 'supply' }),
      material: 'galvanized',
      path_m: [
        [from, middle[1]],
        [far, middle[1]],
      ],
      fittings: [side === 'west' ? 'transition, gradual' : 'wye 45°, plain'],
    });
    for (const [i, run] of runs.entries())
      next = layRun(next, plan, run, [reach[i]!, middle[1]], { around, kind, trunk, writing });
  }
  return layReturns(next, plan, middle, { around, writing, id });
};

type Around = Pick<NewPart, 'zone' | 'storey' | 'insulation' | 'jacket'>;
type Way = {
  readonly around: Around;
  readonly kind: ReturnType<typeof ductKind>;
  readonly writing: { readonly units: 'ip' | 'si'; readonly known: 'assumed' };
};

const layRun = (
  job: Job,
  plan: SystemPlan,
  run: PlannedRun,
  takeoff: PlanPoint,
  { around, kind, trunk, writing }: Way & { readonly trunk: string },
): Job => {
  // Ducts below the storey rise to the floor register of the storey above them, stack by stack.
  const rises_m = Math.max(0, run.room.storey - plan.storey) * storeyRise_m + 2 * ft;
  const part: NewPart = {
    ...around,
    id: run.id,
    name: run.room.name,
    side: 'supply',
    role: 'run',
    joins: trunk,
    section: `${run.size_in} in`,
    material: kind.run,
    ...(kind.slack > 0 && { slack: assumed(`${Math.round(kind.slack * 100)} % (3 to 15 %)`) }),
    storey: run.room.storey,
    path_m: [takeoff, ...bentTo(takeoff, run.end)],
    rises_m,
  };
  const laid = insertOnTrunk(job, plan.id, part, writing);
  return setRegister(laid, plan.id, run.id, {
    id: run.id.replace(/run-/, 'register-'),
    room: roomId(run.room),
    face: registerFace(run.flow_m3s),
  });
};

/** Square to the trunk, then along to the register where that lies beyond the hall. */
const bentTo = (from: PlanPoint, to: PlanPoint): readonly PlanPoint[] =>
  Math.abs(from[0] - to[0]) < 0.3 ? [[from[0], to[1]]] : [[from[0] + (to[0] - from[0]) / 3, to[1]], to];

const layReturns = (
  job: Job,
  plan: SystemPlan,
  middle: PlanPoint,
  { around, writing, id }: Omit<Way, 'kind'> & { readonly id: (name: string) => string },
): Job => {
  const start: PlanPoint = [middle[0] + 2 * ft, middle[1] - 2 * apart_m];
  const plenum = id('return-plenum');
  let next = addPart(
    job,
    plan.id,
    {
      ...around,
      id: plenum,
      name: 'Return plenum',
      side: 'return',
      role: 'plenum',
      joins: 'air-handler',
      section: plenumSection(plan.airflow_m3s),
      material: 'galvanized',
      path_m: [start, [start[0] + 3 * ft, start[1]]],
      fittings: [],
    },
    writing,
  );
  const end: PlanPoint = [start[0] + 3 * ft, start[1]];
  for (const { room, flow_m3s } of plan.returns) {
    const run = id(`return-${roomId(room)}`);
    next = addPart(
      next,
      plan.id,
      {
        ...around,
        id: run,
        name: `Return, ${room.name.toLowerCase()}`,
        side: 'return',
        role: 'run',
        joins: plenum,
        section: trunkSection({ flow_m3s, material: 'galvanized', slack: 0, side: 'return' }),
        material: 'galvanized',
        storey: room.storey,
        path_m: [end, ...returnWay(room, end)],
        rises_m: Math.max(0, room.storey - plan.storey) * storeyRise_m + 2 * ft,
      },
      writing,
    );
    next = setRegister(next, plan.id, run, {
      id: run.replace(/return-/, 'grille-'),
      room: roomId(room),
      face: grilleFace(flow_m3s),
      filter: { name: '1 in MERV 8' },
    });
  }
  return next;
};

/** To a grille in the hall close by, or along the hall and into the room. */
const returnWay = (room: LaidRoom, [x, y]: PlanPoint): readonly PlanPoint[] => {
  if (room.side === 'hall') return [[Math.min(x + 5 * ft, room.corner_m[0] + room.width_m - 1 * ft), y]];
  const inside: PlanPoint = [room.corner_m[0] + room.width_m - inset_m, room.corner_m[1] + room.depth_m / 2];
  return room.side === 'west'
    ? [
        [x, y - apart_m],
        [inside[0], y - apart_m],
      ]
    : [[inside[0], y], inside];
};

const airflowText = (flow_m3s: number): string =>
  `${Math.round(flow_m3s / toSi('airflow', 5, 'cfm')) * 5} cfm`;
const share = (text: string): number => Number.parseFloat(text) / 100;
