type Branch = Record<string, unknown> | readonly unknown[];

const isBranch = (value: unknown): value is Branch => typeof value === 'object' && value !== null;

/** Place of a segment in a list: that of the record with this id, else the position it spells. */
const placeIn = (list: readonly unknown[], segment: string): number => {
  const at = list.findIndex((item) => (item as { id?: unknown } | null)?.id === segment);
  return at >= 0 ? at : /^\d+$/.test(segment) ? Number(segment) : -1;
};

/**
 * A copy of `root` with `value` at a path by ids; records on the way are made where they are missing. `undefined`
 * takes the field away, and a record that is left empty by it. Throws where a list has no such record.
 */
export const setValue = <T>(root: T, path: string, value: unknown): T =>
  setIn(root as Branch, path.split('/'), value) as T;

const setIn = (branch: Branch, [segment = '', ...rest]: readonly string[], value: unknown): Branch => {
  if (Array.isArray(branch)) {
    const at = placeIn(branch, segment);
    if (at < 0 || at > branch.length) throw new Error(`Nothing stands at "${segment}".`);
    const item = rest.length === 0 ? value : setIn((branch[at] ?? {}) as Branch, rest, value);
    return item === undefined ? branch.toSpliced(at, 1) : branch.toSpliced(at, 1, item);
  }
  const record = branch as Record<string, unknown>;
  const item = rest.length === 0 ? value : setIn(child(record[segment]), rest, value);
  const { [segment]: _, ...others } = record;
  // A quantity that says how it is known is one value; only records of fields are dropped when empty.
  const gone = item === undefined || (rest.length > 0 && value === undefined && isEmpty(item));
  return gone ? others : { ...record, [segment]: item };
};

const child = (value: unknown): Branch => (isBranch(value) ? value : {});

const isEmpty = (value: unknown): boolean =>
  isBranch(value) && !Array.isArray(value) && Object.keys(value).length === 0;
