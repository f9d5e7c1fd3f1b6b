import type { Job, JobPart } from '../schema/job-schema.ts';
import { EditRefused } from './edit-refused.ts';
import { partOf, systemOf, withParts } from './in-job.ts';

/** Ducts that leave a part, and theirs in turn. */
export const branchesOf = (parts: readonly JobPart[], id: string): readonly JobPart[] =>
  parts.filter((part) => part.joins === id).flatMap((part) => [part, ...branchesOf(parts, part.id)]);

/**
 * A part less. With ducts on it: refused, or they go too ('delete'), or they join what it joined ('rejoin').
 * Bypasses that end on it go with it, and so do ventilators tied to it.
 */
export const deletePart = (
  job: Job,
  systemId: string,
  partId: string,
  { children = 'refuse' }: { readonly children?: 'refuse' | 'delete' | 'rejoin' } = {},
): Job => {
  const part = partOf(job, systemId, partId);
  const branches = branchesOf(systemOf(job, systemId).parts, partId);
  if (branches.length > 0 && children === 'refuse')
    throw new EditRefused(
      `${branches.map((each) => each.id).join(', ')} ${branches.length === 1 ? 'hangs' : 'hang'} on "${partId}": delete them with it, or let them join "${part.joins}".`,
    );
  const gone = new Set([partId, ...(children === 'delete' ? branches.map((each) => each.id) : [])]);
  const without = withParts(job, systemId, (parts) =>
    parts
      .filter((each) => !gone.has(each.id) && !(each.endsOn !== undefined && gone.has(each.endsOn)))
      .map((each) => {
        if (each.joins !== partId) return each;
        const { at: _, ...rest } = each;
        return {
          ...rest,
          joins: part.joins,
          ...(part.at !== undefined && part.joins !== 'air-handler' && { at: part.at }),
        };
      }),
  );
  if (!without.ventilators) return without;
  return {
    ...without,
    ventilators: without.ventilators.filter(
      ({ returnPart }) => returnPart === undefined || !gone.has(returnPart),
    ),
  };
};
