import type { UnitSystem } from '@airledger/engine';
import { type Job, valueAt } from '@airledger/job';
import { countOf } from '../forms/count-of.ts';
import { optionsOf } from '../forms/references.ts';
import { retyped, typedQuantity, withUnit } from '../forms/typed-quantity.ts';
import type { Column } from './table-kinds.ts';

/** What a cell offers while it is typed: names of records, words, names of a table. */
export const offered = (job: Job, path: string, { pattern, kind }: Column): readonly string[] => {
  const options = optionsOf(job, path, pattern);
  if (options) return options.map(({ words }) => words);
  if (kind.kind === 'word') return kind.words;
  if (kind.kind === 'named') return kind.names;
  return kind.kind === 'flag' ? ['yes', 'no'] : [];
};

/** A field of a record as a cell shows it; empty where nothing is typed. */
export const cellText = (job: Job, path: string, { pattern, kind }: Column): string => {
  const value = valueAt(job, path);
  if (value === undefined || value === null) return '';
  if (kind.kind === 'quantity') return typedQuantity(value).text;
  if (Array.isArray(value)) return value.map(itemName).join('; ');
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  return optionsOf(job, path, pattern)?.find((option) => option.value === value)?.words ?? String(value);
};

/** What a text typed into a cell stands for in the job; nonsense stays text, so that the job says what is wrong. */
export const cellValue = (
  job: Job,
  path: string,
  { pattern, kind }: Column,
  text: string,
  units: UnitSystem,
): unknown => {
  const typed = text.trim();
  if (typed === '') return undefined;
  if (kind.kind === 'quantity')
    return retyped(typedQuantity(valueAt(job, path)), withUnit(typed, kind.dimension, units));
  if (kind.kind === 'count') return countOf(typed);
  if (kind.kind === 'lines') return listOf(valueAt(job, path), typed);
  const lower = typed.toLowerCase();
  if (kind.kind === 'flag')
    return ['yes', 'y', 'true', 'x'].includes(lower)
      ? true
      : ['no', 'n', 'false'].includes(lower)
        ? false
        : typed;
  const option = optionsOf(job, path, pattern)?.find(
    ({ value, words }) => value === typed || words.toLowerCase() === lower,
  );
  if (option) return option.value;
  const names = kind.kind === 'word' ? kind.words : kind.kind === 'named' ? kind.names : [];
  return names.find((name) => name.toLowerCase() === lower) ?? typed;
};

const itemName = (item: unknown): string =>
  typeof item === 'object' && item !== null ? String((item as { name?: unknown }).name) : String(item);

/** Items of a list with semicolons between; one that is there with figures of its own keeps them. */
const listOf = (before: unknown, typed: string): readonly unknown[] =>
  typed
    .split(';')
    .map((name) => name.trim())
    .filter(Boolean)
    .map((name) => (Array.isArray(before) ? before : []).find((item) => itemName(item) === name) ?? name);
