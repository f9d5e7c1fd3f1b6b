/** A field name or id as words: "airHandler" → "air handler", "run-bedroom-3" → "run bedroom 3". */
export const words = (id: string): string =>
  id
    .replace(/([a-z])([A-Z])/g, '$1 $2')
    .replaceAll('-', ' ')
    .toLowerCase();

/** A typed value of a job as words: quantities as typed, records and lists field by field. */
export const typedText = (value: unknown): string => {
  if (value === undefined || value === null) return 'not stated';
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (Array.isArray(value)) return value.length === 0 ? 'none' : value.map(typedText).join('; ');
  if (typeof value !== 'object') return String(value);
  const record = value as Readonly<Record<string, unknown>>;
  if ('value' in record) return typedText(record.value);
  if ('place' in record)
    return [record.place, record.flow ?? record.tightness].filter(Boolean).map(typedText).join(' ');
  const { id, kind, between, ...rest } = record;
  return [
    ...(kind === undefined ? [id].filter(Boolean).map((one) => words(String(one))) : [String(kind)]),
    ...(Array.isArray(between) ? [`between ${between.map((one) => words(String(one))).join(' and ')}`] : []),
    ...Object.entries(rest).map(([key, item]) => `${words(key)} ${typedText(item)}`),
  ].join(', ');
};
