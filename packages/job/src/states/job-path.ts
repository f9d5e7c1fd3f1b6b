/** A record or list anywhere in a job. */
export type Branch = Record<string, unknown> | readonly unknown[];

const isBranch = (value: unknown): value is Branch => typeof value === 'object' && value !== null;

const isList = (value: unknown): value is readonly unknown[] => Array.isArray(value);

/**
 * Place of `segment` in a record or list: a field name, the id of a list's record, or a list position.
 * Undefined when a list has no such record; a record may lack the field.
 */
const keyOf = (branch: Branch, segment: string): string | number | undefined => {
  if (!isList(branch)) return segment;
  for (let i = 0; i < branch.length; i++)
    if ((branch[i] as { id?: unknown } | null)?.id === segment) return i;
  const position = /^\d+$/.test(segment) ? Number(segment) : -1;
  return position >= 0 && position < branch.length ? position : undefined;
};

/** How a path names one item of a record or list: list records by id, where that leads to them. */
export const segmentOf = (branch: unknown, key: string | number): string => {
  const item = isList(branch) ? branch[Number(key)] : undefined;
  const id = isBranch(item) && !isList(item) ? item.id : undefined;
  return typeof id === 'string' && id !== '' && keyOf(branch as Branch, id) === Number(key)
    ? id
    : String(key);
};

export const splitPath = (path: string): readonly string[] => path.split('/');

/** Value at a path, undefined where nothing stands. */
export const valueAt = (root: unknown, path: string): unknown => {
  let value: unknown = root;
  for (const segment of splitPath(path)) {
    if (!isBranch(value)) return undefined;
    const key = keyOf(value, segment);
    if (key === undefined) return undefined;
    value = (value as Record<string | number, unknown>)[key];
  }
  return value;
};

/** First segment of a path that leads nowhere, for messages; undefined when the parent of its end exists. */
export const brokenAt = (root: unknown, path: string): string | undefined => {
  let value: unknown = root;
  const segments = splitPath(path);
  for (const [i, segment] of segments.entries()) {
    if (!isBranch(value)) return segment;
    const key = keyOf(value, segment);
    if (key === undefined) return segment;
    if (i === segments.length - 1) return undefined;
    value = (value as Record<string | number, unknown>)[key];
  }
  return undefined;
};

/** Copy of `root` with `change` applied to the holder of the path's end; only branches on the way are copied. */
export const changedAt = (
  root: Branch,
  segments: readonly string[],
  change: (holder: Branch, key: string | number | undefined) => Branch,
): Branch => {
  const [segment = '', ...rest] = segments;
  const key = keyOf(root, segment);
  if (rest.length === 0) return change(root, key);
  const child = key === undefined ? undefined : (root as Record<string | number, unknown>)[key];
  if (key === undefined || !isBranch(child)) throw new Error(`Nothing stands at "${segment}".`);
  return withItem(root, key, changedAt(child, rest, change));
};

export const withItem = (branch: Branch, key: string | number, item: unknown): Branch =>
  isList(branch) ? branch.with(Number(key), item) : { ...branch, [key]: item };

export const withoutItem = (branch: Branch, key: string | number): Branch => {
  if (isList(branch)) return branch.toSpliced(Number(key), 1);
  const { [key]: _, ...rest } = branch;
  return rest;
};
