import { describeDiff, type Job, type MergeClash } from '@airledger/job';

/** Where a clash is, in words. */
export const clashPlace = ({ path }: MergeClash, job: Job | undefined): string => {
  if (path === '') return 'The whole house: both changes do not fit together';
  const [line = path] = describeDiff([{ path, from: 'a', to: 'b' }], job);
  return line.replace(/ from a to b$/, '');
};

const longest = 40;

/** One side of a clash as a short text. */
export const clashValue = (value: unknown): string => {
  if (value === undefined) return 'taken away';
  if (typeof value === 'string') return value;
  if (typeof value !== 'object' || value === null) return String(value);
  if ('value' in value) return String(value.value);
  if ('name' in value && typeof value.name === 'string') return value.name;
  const text = JSON.stringify(value);
  return text.length > longest ? `${text.slice(0, longest)} …` : text;
};
