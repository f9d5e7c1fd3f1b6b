import type { PlanPoint } from '@airledger/engine';
import type { Job, JobPart } from '../schema/job-schema.ts';
import { EditRefused } from './edit-refused.ts';
import { nearestOnPath, pathLength } from './geometry.ts';
import { partOf, pathOf, systemOf, withParts } from './in-job.ts';
import { onPath } from './parts.ts';
import type { Writing } from './walls-from-outline.ts';

/** Ducts that leave a part, and theirs in turn. */
export const branchesOf = (parts: readonly JobPart[], id: string): readonly JobPart[] =>
  parts.filter((part) => part.joins === id).flatMap((part) => [part, ...branchesOf(parts, part.id)]);

/** Line of a part from its start to the point where another line leaves it. */
const wayTo = (path: readonly PlanPoint[], start: PlanPoint): readonly PlanPoint[] => {
  const { along_m, point } = nearestOnPath(start, path);
  return [...path.filter((_, i) => pathLength(path.slice(0, i + 1)) < along_m), point];
};

/** A branch that joins what the part it hung on joined: its duct comes the way that the part came. */
const rejoined = (branch: JobPart, part: JobPart, units: Writing['units']): JobPart => {
  const { at: _, ...rest } = branch;
  const moved: JobPart = {
    ...rest,
    joins: part.joins,
    ...(part.at !== undefined && part.joins !== 'air-handler' && { at: part.at }),
  };
  const [way, own] = [pathOf(part), pathOf(branch)];
  const [start, ...further] = own;
  return start === undefined || way.length === 0
    ? moved
    : onPath(moved, [...wayTo(way, start), ...further], units);
};

/**
 * A part less. With ducts on it: refused, or they go too ('delete'), or they join what it joined ('rejoin'), drawn on
 * along its line. Bypasses that end on it go with it, and so do ventilators tied to it.
 */
export const deletePart = (
  job: Job,
  systemId: string,
  partId: string,
  {
    children = 'refuse',
    units = 'ip',
  }: { readonly children?: 'refuse' | 'delete' | 'rejoin'; readonly units?: Writing['units'] } = {},
): Job => {
  const part = partOf(job, systemId, partId);
  const { parts } = systemOf(job, systemId);
  const joined = parts.find(({ id }) => id === part.joins);
  const branches = branchesOf(parts, partId);
  if (branches.length > 0 && children === 'refuse')
    throw new EditRefused(
      `${branches.map((each) => each.name ?? each.id).join(', ')} ${branches.length === 1 ? 'hangs' : 'hang'} on ${part.name ?? partId}: delete them with it, or let them join ${joined?.name ?? joined?.id ?? 'the air handler'}.`,
    );
  const gone = new Set([partId, ...(children === 'delete' ? branches.map((each) => each.id) : [])]);
  const without = withParts(job, systemId, (parts) =>
    parts
      .filter((each) => !gone.has(each.id) && !(each.endsOn !== undefined && gone.has(each.endsOn)))
      .map((each) => (each.joins === partId ? rejoined(each, part, units) : each)),
  );
  if (!without.ventilators) return without;
  return {
    ...without,
    ventilators: without.ventilators.filter(
      ({ returnPart }) => returnPart === undefined || !gone.has(returnPart),
    ),
  };
};
