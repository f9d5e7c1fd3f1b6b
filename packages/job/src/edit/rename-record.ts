import type { Change, Job } from '../schema/job-schema.ts';
import { EditRefused } from './edit-refused.ts';
import { idFrom } from './unique-id.ts';

/** Fields that name a record of a list elsewhere, by the list; `of`, `to` and `except` are those of readings. */
const references: Readonly<Record<string, readonly string[]>> = {
  rooms: ['room', 'thermostatRoom', 'zone', 'beyond', 'between', 'of', 'to'],
  zones: ['zone', 'beyond', 'between', 'of', 'to'],
  surfaces: ['in'],
  parts: ['joins', 'endsOn', 'returnPart', 'of'],
  terminal: ['of', 'except'],
  systems: ['system', 'of'],
};

/** A reading names things of several kinds, so that one name of two kinds leaves it alone. */
const ofReadings = new Set(['of', 'to', 'except']);

type Renaming = {
  readonly path: string;
  readonly renamed: string;
  readonly from: string;
  readonly to: string;
  readonly fields: readonly string[];
  /** Where references count: ids of surfaces are names within their room. */
  readonly within: string;
};

const isRecord = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const joined = (path: string, key: string): string => (path === '' ? key : `${path}/${key}`);

/** A path with the record on its way, or at its end, under its new name. */
const repathed = (path: string, { path: before, renamed }: Renaming): string =>
  path === before || path.startsWith(`${before}/`) ? `${renamed}${path.slice(before.length)}` : path;

/** A value with new names in it; `path` is where it stands, by ids, and `field` the name of its field. */
const walked = (value: unknown, path: string, field: string, renaming: Renaming): unknown => {
  const { from, to, fields, within } = renaming;
  if (typeof value === 'string') {
    if (value === from && fields.includes(field) && path.startsWith(within)) return to;
    // What a photo shows is a path.
    return field === 'of' ? repathed(value, renaming) : value;
  }
  if (Array.isArray(value))
    return value.map((item, i) => {
      const id = isRecord(item) && typeof item.id === 'string' ? item.id : String(i);
      return walked(item, joined(path, id), field, renaming);
    });
  if (!isRecord(value)) return value;
  const entries = Object.entries(value).map(([key, item]) => [
    key,
    walked(item, joined(path, key), key, renaming),
  ]);
  const record = Object.fromEntries(entries);
  return path === renaming.path && value.id === from ? { ...record, id: to } : record;
};

/** Name of the field at the end of a path; a place in a list is of the field that holds the list. */
const fieldAt = (path: string): string =>
  path
    .split('/')
    .filter((segment) => !/^\d+$/.test(segment))
    .at(-1) ?? '';

const changed = (change: Change, renaming: Renaming): Change => {
  if ('remove' in change) return { ...change, remove: repathed(change.remove, renaming) };
  if ('add' in change) {
    const id = isRecord(change.item) ? String(change.item.id) : '';
    return {
      ...change,
      add: repathed(change.add, renaming),
      item: walked(change.item, joined(change.add, id), fieldAt(change.add), renaming),
    };
  }
  return {
    ...change,
    set: repathed(change.set, renaming),
    to: walked(change.to, change.set, fieldAt(change.set), renaming),
  };
};

/** How often an id is given in a value, to records of any kind. */
const given = (value: unknown, id: string): number =>
  typeof value !== 'object' || value === null
    ? 0
    : Object.values(value).reduce<number>(
        (sum, item) => sum + given(item, id),
        (value as { id?: unknown }).id === id ? 1 : 0,
      );

/**
 * The whole job with another id, `to`, for the record at `path` (by ids) that is called `from` now, in all its states:
 * what refers to the record follows, and so does every change, photo and reading of it. Also the path at which it
 * stands from now on. Refused for an id that is none; a second record of that name is found on reading the job.
 */
export const renameRecord = (
  job: Job,
  path: string,
  from: string,
  to: string,
): { readonly job: Job; readonly path: string } => {
  if (idFrom(to) !== to)
    throw new EditRefused(
      `"${to}" is no id: write small letters and digits with single hyphens, as "${idFrom(to)}".`,
    );
  const segments = path.split('/');
  // The one record that is no item of a list: no path has its id.
  const isTerminal = segments.at(-1) === 'terminal';
  const list = isTerminal ? 'terminal' : segments.at(-2)!;
  const { states, ...house } = job;
  const shared = given(house, from) > 1;
  const renaming: Renaming = {
    path,
    renamed: isTerminal ? path : [...segments.slice(0, -1), to].join('/'),
    from,
    to,
    fields: (references[list] ?? []).filter((field) => !shared || !ofReadings.has(field)),
    within: list === 'surfaces' ? segments.slice(0, -2).join('/') : '',
  };
  return {
    path: renaming.renamed,
    job: {
      ...(walked(house, '', '', renaming) as Job),
      ...(states && {
        states: states.map((state) => ({
          ...state,
          changes: state.changes.map((change) => changed(change, renaming)),
        })),
      }),
    },
  };
};
