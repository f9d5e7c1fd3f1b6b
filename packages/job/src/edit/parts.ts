import type { PlanPoint, UnitSystem } from '@airledger/engine';
import type { Job, JobPart, JobSystem } from '../schema/job-schema.ts';
import type { JobTerminal } from '../schema/system-schema.ts';
import type { Typed } from '../typed.ts';
import { drawn, isDrawn, knownOf, risesOf } from './drawn.ts';
import { EditRefused } from './edit-refused.ts';
import { distance, nearestOnPath, pathLength, pointAlong } from './geometry.ts';
import { partOf, pathOf, roomAt, systemOf, withPart, withParts } from './in-job.ts';
import { asFittings, fittingsFor } from './propose-fittings.ts';
import { lengthText, pointText, siOf } from './typed-text.ts';
import type { Writing } from './walls-from-outline.ts';

/** Shorter than this no duct is (the schema asks for an inch). */
const shortest_m = 0.0254;
/** A takeoff this near to the far end is at the far end. */
const end_m = 0.05;

/** A duct to draw: its line on the plan from the joined part outwards, and what it climbs or drops beside it. */
export type NewPart = Omit<JobPart, 'path' | 'length' | 'at'> & {
  readonly path_m: readonly PlanPoint[];
  readonly rises_m?: number;
  /** Typed by the user, instead of measured on the drawing. */
  readonly length?: Typed;
};

/** A system to begin ducts with. */
export const addSystem = (job: Job, system: JobSystem): Job => {
  if (job.systems?.some((each) => each.id === system.id))
    throw new EditRefused(`There is a system "${system.id}" already.`);
  return { ...job, systems: [...(job.systems ?? []), system] };
};

/** A system less, with all its ducts and its leakage tests. */
export const deleteSystem = (job: Job, id: string): Job => {
  const { parts } = systemOf(job, id);
  const gone = new Set(parts.map((part) => part.id));
  return {
    ...job,
    systems: job.systems!.filter((system) => system.id !== id),
    ...(job.leakageTests && { leakageTests: job.leakageTests.filter((test) => test.system !== id) }),
    ...(job.ventilators && {
      ventilators: job.ventilators.filter(
        ({ returnPart }) => returnPart === undefined || !gone.has(returnPart),
      ),
    }),
  };
};

const measuredLength = (path: readonly PlanPoint[], rises_m: number, { units, known }: Writing): Typed =>
  drawn(lengthText(Math.max(pathLength(path) + rises_m, shortest_m), units), known, { rises_m, units });

/** Place on a part where a line from `point` would leave it: distance along its installed length, and the point. */
export const takeoffAt = (
  job: Job,
  systemId: string,
  partId: string,
  point: PlanPoint,
): { readonly at_m: number; readonly point: PlanPoint; readonly atEnd: boolean } | undefined => {
  const part = partOf(job, systemId, partId);
  const path = pathOf(part);
  if (path.length === 0) return undefined;
  const { along_m, point: on } = nearestOnPath(point, path);
  const line_m = pathLength(path);
  const length_m = siOf(part.length, 'length') ?? line_m;
  const at_m = line_m === 0 ? length_m : (along_m / line_m) * length_m;
  return { at_m, point: on, atEnd: line_m - along_m < end_m };
};

/** Point of the plan at which a part leaves the one it joins; undefined when that has no line. */
const startOf = (job: Job, systemId: string, part: JobPart): PlanPoint | undefined => {
  if (part.joins === 'air-handler') return undefined;
  const joined = systemOf(job, systemId).parts.find((each) => each.id === part.joins);
  const path = joined ? pathOf(joined) : [];
  if (!joined || path.length === 0) return undefined;
  const length_m = siOf(joined.length, 'length') ?? pathLength(path);
  const at_m = siOf(part.at, 'length') ?? length_m;
  return pointAlong(path, (at_m / length_m) * pathLength(path)).point;
};

/** Part nearest to a point of the plan, to join or to select; those without a line are not on it. */
export const nearestPart = (
  job: Job,
  point: PlanPoint,
  {
    system,
    side,
    roles,
    within_m = Number.POSITIVE_INFINITY,
  }: {
    readonly system?: string;
    readonly side?: JobPart['side'];
    readonly roles?: readonly JobPart['role'][];
    readonly within_m?: number;
  } = {},
): { readonly system: string; readonly part: string; readonly away_m: number } | undefined =>
  (job.systems ?? [])
    .filter((each) => system === undefined || each.id === system)
    .flatMap((each) =>
      each.parts
        .filter(
          (part) =>
            (part.path?.length ?? 0) > 0 &&
            (side === undefined || part.side === side) &&
            (roles === undefined || roles.includes(part.role)),
        )
        .map((part) => ({
          system: each.id,
          part: part.id,
          away_m: nearestOnPath(point, pathOf(part)).away_m,
        })),
    )
    .filter(({ away_m }) => away_m <= within_m)
    .sort((a, b) => a.away_m - b.away_m)[0];

/**
 * A duct more. Its line starts where it leaves the part it joins: the first point is drawn onto that part's line and
 * gives `at`. The length is measured on the drawing plus its rises, unless typed; fittings are proposed from bends and
 * takeoff, unless given.
 */
export const addPart = (job: Job, systemId: string, part: NewPart, writing: Writing): Job => {
  const { path_m, rises_m = 0, length, ...said } = part;
  const parts = (job.systems ?? []).flatMap((system) => system.parts);
  if (parts.some((each) => each.id === part.id))
    throw new EditRefused(`There is a part "${part.id}" already.`);
  if (path_m.length < 2 && length === undefined)
    throw new EditRefused('A duct needs a line of two points, or a length.');
  const takeoff =
    said.joins === 'air-handler' || path_m.length === 0
      ? undefined
      : takeoffAt(job, systemId, said.joins, path_m[0]!);
  const path = takeoff ? [takeoff.point, ...path_m.slice(1)] : path_m;
  const added: JobPart = {
    ...said,
    ...(takeoff && !takeoff.atEnd && { at: drawn(lengthText(takeoff.at_m, writing.units), writing.known) }),
    length: length ?? measuredLength(path, rises_m, writing),
    path: path.map((point) => pointText(point, writing.units)),
  };
  const withIt = withParts(job, systemId, (before) => [...before, added]);
  if (said.fittings !== undefined) return withIt;
  const fittings = asFittings(fittingsFor(withIt, systemId, part.id));
  return withPart(withIt, systemId, part.id, (each) => ({ ...each, fittings }));
};

/** A run or branch put on the part of its side nearest to where its line starts. */
export const insertOnTrunk = (
  job: Job,
  systemId: string,
  part: Omit<NewPart, 'joins'>,
  writing: Writing,
): Job => {
  const start = part.path_m[0];
  const trunk =
    start && nearestPart(job, start, { system: systemId, side: part.side, roles: ['trunk', 'plenum'] });
  if (!trunk) throw new EditRefused(`There is no ${part.side} trunk or plenum to put it on: draw one first.`);
  return addPart(job, systemId, { ...part, joins: trunk.part } as NewPart, writing);
};

/** The part on another line; a drawn length is measured anew, a typed one stays. */
export const onPath = (part: JobPart, path: readonly PlanPoint[], units: UnitSystem): JobPart => {
  const before = pathOf(part);
  const known = knownOf(part.length);
  const text = (point: PlanPoint): string => {
    const same = before.findIndex(([x, y]) => x === point[0] && y === point[1]);
    return part.path?.[same] ?? pointText(point, units);
  };
  return {
    ...part,
    path: path.map(text),
    ...(isDrawn(part.length) && {
      length: measuredLength(path, risesOf(part.length), { units, ...(known && { known }) }),
    }),
  };
};

/** Ducts that leave a part start where it now runs; a drawn takeoff keeps its share of the way. */
const withFollowers = (
  job: Job,
  systemId: string,
  partId: string,
  before: JobPart,
  units: UnitSystem,
): Job => {
  const now = partOf(job, systemId, partId);
  const [old_m, new_m] = [siOf(before.length, 'length'), siOf(now.length, 'length')];
  return systemOf(job, systemId).parts.reduce((next, child) => {
    if (child.joins !== partId) return next;
    const at_m = siOf(child.at, 'length');
    const share =
      at_m !== undefined && old_m !== undefined && old_m > 0 ? Math.min(at_m / old_m, 1) : undefined;
    const stretched =
      share === undefined || new_m === undefined || new_m === old_m
        ? child
        : { ...child, at: drawn(lengthText(share * new_m, units), knownOf(child.at)) };
    const start = startOf(next, systemId, stretched);
    const path = pathOf(child);
    if (!start || path.length === 0 || (stretched === child && distance(start, path[0]!) < 0.003))
      return stretched === child ? next : withPart(next, systemId, child.id, () => stretched);
    const moved = onPath(stretched, [start, ...path.slice(1)], units);
    return withFollowers(
      withPart(next, systemId, child.id, () => moved),
      systemId,
      child.id,
      child,
      units,
    );
  }, job);
};

/** Register at the far end of a part goes with it into the room now under it. */
const inRoomUnder = (job: Job, systemId: string, partId: string): Job => {
  const part = partOf(job, systemId, partId);
  const end = pathOf(part).at(-1);
  if (!part.terminal || !end) return job;
  const room = roomAt(job, end, part.storey ?? 1);
  if (!room || room.id === part.terminal.room) return job;
  return withPart(job, systemId, partId, (each) => ({
    ...each,
    terminal: { ...each.terminal!, room: room.id },
  }));
};

const rerouted = (
  job: Job,
  systemId: string,
  partId: string,
  change: (path: readonly PlanPoint[]) => readonly PlanPoint[],
  { units }: Writing,
): Job => {
  const before = partOf(job, systemId, partId);
  const path = change(pathOf(before));
  if (path.length < 2) throw new EditRefused('A duct needs a line of two points.');
  const first = path[0]!;
  const sameStart = before.path !== undefined && distance(first, pathOf(before)[0] ?? first) < 1e-9;
  const takeoff =
    before.joins === 'air-handler' || sameStart ? undefined : takeoffAt(job, systemId, before.joins, first);
  const moved = onPath(before, takeoff ? [takeoff.point, ...path.slice(1)] : path, units);
  const { at: _, ...ending } = moved;
  const placed: JobPart = !takeoff
    ? moved
    : takeoff.atEnd
      ? ending
      : { ...moved, at: drawn(lengthText(takeoff.at_m, units), knownOf(before.at)) };
  const withIt = withPart(job, systemId, partId, () => placed);
  return inRoomUnder(withFollowers(withIt, systemId, partId, before, units), systemId, partId);
};

/**
 * One point of a duct's line dragged. The first slides along the part it joins and moves the takeoff; ducts that leave
 * this one follow; a register at its end goes into the room under it. Only drawn lengths are measured anew.
 */
export const movePartPoint = (
  job: Job,
  systemId: string,
  partId: string,
  index: number,
  to: PlanPoint,
  writing: Writing,
): Job =>
  rerouted(
    job,
    systemId,
    partId,
    (path) => {
      if (path[index] === undefined) throw new EditRefused(`There is no point ${index + 1} on its line.`);
      return path.with(index, to);
    },
    writing,
  );

/** A bend more, behind point `index`. */
export const addPartPoint = (
  job: Job,
  systemId: string,
  partId: string,
  index: number,
  at: PlanPoint,
  writing: Writing,
): Job => rerouted(job, systemId, partId, (path) => path.toSpliced(index + 1, 0, at), writing);

/** Point `index` of a duct less. */
export const deletePartPoint = (
  job: Job,
  systemId: string,
  partId: string,
  index: number,
  writing: Writing,
): Job => rerouted(job, systemId, partId, (path) => path.toSpliced(index, 1), writing);

/** A whole duct moved; its takeoff stays on the part it joins. */
export const movePart = (job: Job, systemId: string, partId: string, by: PlanPoint, writing: Writing): Job =>
  rerouted(job, systemId, partId, (path) => path.map(([x, y]) => [x + by[0], y + by[1]] as const), writing);

/** Rises of a duct beside its line on the plan; its length is measured from now on. */
export const setRises = (
  job: Job,
  systemId: string,
  partId: string,
  rises_m: number,
  writing: Writing,
): Job =>
  withPart(job, systemId, partId, (part) => ({
    ...part,
    length: measuredLength(pathOf(part), rises_m, writing),
  }));

/** Register or grille at the end of a part, a new one with its boot; its room is the one under that end, unless it names one. */
export const setRegister = (
  job: Job,
  systemId: string,
  partId: string,
  terminal: Omit<JobTerminal, 'room'> & { readonly room?: string },
): Job => {
  const part = partOf(job, systemId, partId);
  const end = pathOf(part).at(-1);
  const room = terminal.room ?? (end && roomAt(job, end, part.storey ?? 1)?.id);
  if (room === undefined)
    throw new EditRefused('No room lies under the end of this duct: move its end, or name the room.');
  const withIt = withPart(job, systemId, partId, (each) => ({ ...each, terminal: { ...terminal, room } }));
  if (part.terminal || part.fittings === undefined) return withIt;
  // A new register brings its boot.
  const boot = fittingsFor(withIt, systemId, partId).filter(({ name }) => /boot/.test(name));
  return withPart(withIt, systemId, partId, (each) => ({
    ...each,
    fittings: [...each.fittings!, ...asFittings(boot)],
  }));
};
