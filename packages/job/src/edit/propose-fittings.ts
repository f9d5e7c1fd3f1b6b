import type { PlanPoint } from '@airledger/engine';
import { parseSection } from '../compound.ts';
import type { Job, JobPart } from '../schema/job-schema.ts';
import { materials, named } from '../survey/tables.ts';
import { angleBetween, nearestOnPath, pointAlong, turnsOf } from './geometry.ts';
import { partOf, pathOf, systemOf } from './in-job.ts';

/** A fitting that the drawing speaks for, to be confirmed: a name of the table of fittings and the reason. */
export type ProposedFitting = { readonly name: string; readonly count: number; readonly why: string };

/** How a part leaves the one it joins. */
export type Takeoff = {
  /** Plenum, trunk, a run, or the air handler itself. */
  readonly from: JobPart['role'] | 'air-handler';
  /** Between the directions of the two, degrees; 0 straight on, 90 square off. */
  readonly angle: number;
  /** At the far end of the joined part. */
  readonly atEnd: boolean;
};

type ProposalInput = {
  readonly path: readonly PlanPoint[];
  readonly section: string;
  readonly material?: string | undefined;
  readonly role: JobPart['role'];
  readonly side: JobPart['side'];
  readonly takeoff?: Takeoff;
  /** What its far end opens into, and whether it gets there by a rise in a wall or floor. */
  readonly terminal?: { readonly rises: boolean };
};

/** Turns smaller than this are a gentle sweep. */
const leastTurn = 20;
/** Two straight pieces closer to one line than this are in line. */
const inLine = 30;

const elbowName = (section: string, material: string): string => {
  if (named(materials, material)?.flexible) return 'elbow 90° flex, smooth, r/D 1 to 1.5';
  const shape = parseSection(section);
  return 'shape' in shape && shape.shape !== 'rectangular'
    ? 'elbow 90° round, 4 or 5 gores, r/D 1.0'
    : 'elbow 90° square, no vanes';
};

const takeoffOf = ({ role, side, takeoff, section }: ProposalInput): ProposedFitting | undefined => {
  if (!takeoff || takeoff.from === 'air-handler' || side === 'return') return undefined;
  const degrees = `${Math.round(takeoff.angle)}°`;
  const one = (name: string, why: string): ProposedFitting => ({ name, count: 1, why });
  if (takeoff.from === 'plenum' && role === 'run')
    return takeoff.atEnd && takeoff.angle < inLine
      ? one('round takeoff from plenum end, straight', 'leaves the end of the plenum straight on')
      : one('round takeoff from plenum side or top', 'leaves the plenum at its side');
  if (takeoff.angle < inLine)
    return takeoff.atEnd
      ? one('transition, gradual', 'goes on straight from the end of the one it joins')
      : one('wye 45°, plain', `leaves at ${degrees}`);
  if (role === 'run')
    return takeoff.angle <= 60
      ? one('45° entry takeoff', `leaves at ${degrees}`)
      : one('plain takeoff 90°', `leaves at ${degrees}`);
  return takeoff.angle <= 60
    ? one('wye 45°, plain', `leaves at ${degrees}`)
    : one(
        takeoff.atEnd ? elbowName(section, 'galvanized') : 'tee 90°, conical and tapered into body',
        `leaves at ${degrees}`,
      );
};

/**
 * Fittings that a drawn part most likely has: how it leaves the one it joins, an elbow for each quarter turn of its
 * bends, and the boot at its register. Names of the table of fittings; which of several kinds stands there, the drawing
 * cannot know, so they are proposals to confirm.
 */
export const proposeFittings = (input: ProposalInput): readonly ProposedFitting[] => {
  const { path, section, role, side, terminal } = input;
  const material = input.material ?? (role === 'run' ? 'flex' : 'galvanized');
  const bends = turnsOf(path).filter((turn) => turn >= leastTurn);
  const quarters = Math.round(bends.reduce((sum, turn) => sum + turn, 0) / 90);
  const takeoff = takeoffOf(input);
  return [
    ...(takeoff ? [takeoff] : []),
    ...(quarters > 0
      ? [
          {
            name: elbowName(section, material),
            count: quarters,
            why: `${bends.length === 1 ? 'a bend' : `${bends.length} bends`} of ${bends.map((turn) => `${Math.round(turn)}°`).join(', ')}`,
          },
        ]
      : []),
    ...(terminal
      ? [
          side === 'return'
            ? { name: 'return boot', count: 1, why: 'a grille at its end' }
            : terminal.rises
              ? { name: 'boot, stack head or register boot', count: 1, why: 'rises to its register' }
              : { name: 'boot, straight', count: 1, why: 'a register at its end' },
        ]
      : []),
  ];
};

/** How a part leaves the one it joins, as drawn; undefined when either has no line on the plan. */
const takeoffOn = (
  job: Job,
  systemId: string,
  part: Pick<JobPart, 'joins'>,
  path: readonly PlanPoint[],
): Takeoff | undefined => {
  if (part.joins === 'air-handler') return { from: 'air-handler', angle: 0, atEnd: true };
  const joined = systemOf(job, systemId).parts.find((each) => each.id === part.joins);
  const line = joined ? pathOf(joined) : [];
  if (!joined || line.length < 2 || path.length < 2) return undefined;
  const { along_m } = nearestOnPath(path[0]!, line);
  const { direction } = pointAlong(line, along_m);
  const end = nearestOnPath(line.at(-1)!, line).along_m;
  const leaving: PlanPoint = [path[1]![0] - path[0]![0], path[1]![1] - path[0]![1]];
  return { from: joined.role, angle: angleBetween(direction, leaving), atEnd: end - along_m < 0.3 };
};

/** Fittings that the drawing of a part in the job speaks for. */
export const fittingsFor = (job: Job, systemId: string, partId: string): readonly ProposedFitting[] => {
  const part = partOf(job, systemId, partId);
  const path = pathOf(part);
  const takeoff = takeoffOn(job, systemId, part, path);
  const ground = (job.zones ?? []).find((zone) => zone.id === part.zone)?.kind;
  return proposeFittings({
    path,
    section: part.section,
    material: part.material,
    role: part.role,
    side: part.side,
    ...(takeoff && { takeoff }),
    ...(part.terminal && { terminal: { rises: ground !== undefined && ground !== 'attic' } }),
  });
};

/** Proposals as a part lists them: a name, or a record when there are several of the same. */
export const asFittings = (proposed: readonly ProposedFitting[]): NonNullable<JobPart['fittings']> =>
  proposed.map(({ name, count }) => (count === 1 ? name : { name, count }));
