/** A plain record anywhere in a job. */
export type Plain = Readonly<Record<string, unknown>>;

export const isPlain = (value: unknown): value is Plain =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/**
 * The name of a list's record: its id, or for a change of a state what it addresses.
 * Slashes become dots, so that a name is one segment of a path.
 */
export const nameOf = (item: unknown): string | undefined => {
  if (!isPlain(item)) return undefined;
  const { id, set, remove, add } = item;
  if (typeof id === 'string' && id !== '') return id;
  const at = set ?? remove;
  if (typeof at === 'string') return at.replaceAll('/', '.');
  const added = nameOf(item.item);
  return typeof add === 'string' && added !== undefined
    ? `added.${add.replaceAll('/', '.')}.${added}`
    : undefined;
};

/** Names of a list whose items all have one of their own; undefined for any other list, which is one value. */
export const namesOf = (list: readonly unknown[]): readonly string[] | undefined => {
  const names = list.map(nameOf);
  return names.every((name) => name !== undefined) && new Set(names).size === names.length
    ? names
    : undefined;
};

/** A typed quantity with how it is known, and a change of a state, are one value: their halves mean nothing alone. */
const isWhole = (record: Plain): boolean =>
  'value' in record || 'set' in record || 'remove' in record || 'add' in record;

/** How a value is compared: item by item, field by field, or as one. */
export const shapeOf = (value: unknown): 'list' | 'record' | 'value' => {
  if (Array.isArray(value)) return namesOf(value) ? 'list' : 'value';
  return isPlain(value) && !isWhole(value) ? 'record' : 'value';
};

export const isEmpty = (value: unknown): boolean =>
  Array.isArray(value) ? value.length === 0 : isPlain(value) && Object.keys(value).length === 0;

/** The field of a record or the named item of a list. */
export const childOf = (holder: unknown, name: string): unknown => {
  if (Array.isArray(holder)) return holder.find((item) => nameOf(item) === name);
  return isPlain(holder) && Object.hasOwn(holder, name) ? holder[name] : undefined;
};

/** Same content, whatever the order of fields; a field of undefined is an absent one. */
export const same = (a: unknown, b: unknown): boolean => {
  if (Object.is(a, b)) return true;
  if (Array.isArray(a))
    return Array.isArray(b) && a.length === b.length && a.every((item, i) => same(item, b[i]));
  if (!isPlain(a) || !isPlain(b)) return false;
  const keys = new Set([...Object.keys(a), ...Object.keys(b)]);
  return [...keys].every((key) => same(childOf(a, key), childOf(b, key)));
};

/** Names in both lists as the first has them, then those that only the second has. */
export const joinNames = (first: readonly string[], second: readonly string[]): readonly string[] => {
  const wanted = new Set(second);
  const known = new Set(first);
  return [...first.filter((name) => wanted.has(name)), ...second.filter((name) => !known.has(name))];
};
