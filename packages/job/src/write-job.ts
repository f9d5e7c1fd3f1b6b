import type { Job } from './schema/job-schema.ts';

const widest = 110;

const write = (value: unknown, indent: string, room: number): string => {
  if (typeof value !== 'object' || value === null) return JSON.stringify(value);
  const entries = Array.isArray(value)
    ? value.map((item): [string, unknown] => ['', item])
    : Object.entries(value)
        .filter(([, item]) => item !== undefined)
        .map(([key, item]): [string, unknown] => [`${JSON.stringify(key)}: `, item]);
  const [open, close] = Array.isArray(value) ? ['[', ']'] : ['{ ', ' }'];
  if (entries.length === 0) return Array.isArray(value) ? '[]' : '{}';
  const line = `${open}${entries.map(([key, item]) => key + write(item, '', Number.POSITIVE_INFINITY)).join(', ')}${close}`;
  if (line.length <= room) return line;
  const inner = `${indent}  `;
  const lines = entries.map(
    ([key, item]) => `${inner}${key}${write(item, inner, widest - inner.length - key.length - 1)}`,
  );
  return `${open.trim()}\n${lines.join(',\n')}\n${indent}${close.trim()}`;
};

/** Job as text for its file: fields in the order they stand, typed values untouched, short records on one line. */
export const writeJob = (job: Job): string => `${write(job, '', 0)}\n`;
