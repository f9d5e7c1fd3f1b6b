import type { Job } from '../schema/job-schema.ts';

const reserved = ['outdoors', 'ground', 'air-handler'];

/** Every id that a new record must not repeat. */
const idsIn = (value: unknown, found: Set<string>): Set<string> => {
  if (typeof value !== 'object' || value === null) return found;
  const { id } = value as { id?: unknown };
  if (typeof id === 'string') found.add(id);
  for (const item of Object.values(value)) idsIn(item, found);
  return found;
};

/** `text` as an id: lower-case letters and digits with single hyphens between. */
export const idFrom = (text: string): string =>
  text
    .normalize('NFKD')
    .replace(/[\u0300-\u036f]/g, '')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '') || 'item';

/**
 * A readable id that nothing in the job has yet, in no state of it: `base` itself, or the first free number behind
 * it ("bedroom-2" after "bedroom", "bedroom-3" after "bedroom-2"). `taken` are further ids to keep clear of.
 */
export const uniqueId = (job: Job, base: string, taken: Iterable<string> = []): string => {
  const ids = idsIn(job, new Set([...reserved, ...taken]));
  const wanted = idFrom(base);
  if (!ids.has(wanted)) return wanted;
  const [, stem = wanted, number = '1'] = /^(.+?)(?:-(\d+))?$/.exec(wanted) ?? [];
  let next = Number(number) + 1;
  while (ids.has(`${stem}-${next}`)) next++;
  return `${stem}-${next}`;
};
