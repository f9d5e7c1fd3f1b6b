import type { Job } from '../schema/job-schema.ts';
import { at } from './apply-diff.ts';
import type { Difference, JobDiff } from './diff-jobs.ts';
import { isEmpty, isPlain } from './shape.ts';

const kinds: Readonly<Record<string, string>> = {
  rooms: 'room',
  zones: 'zone',
  surfaces: 'surface',
  doors: 'door',
  transfers: 'transfer path',
  systems: 'system',
  parts: 'duct',
  leaks: 'leak',
  ventilators: 'ventilator',
  leakageTests: 'leakage test',
  states: 'state',
  photos: 'photo',
};

/** A field name as words: "floorArea" is "floor area". */
const words = (field: string): string => field.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);

const fieldOf = (path: string): string => path.slice(path.lastIndexOf('/') + 1);

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

const titled = (record: unknown, kind: string, id: string): string =>
  isPlain(record) && typeof record.name === 'string' && record.name !== '' ? record.name : `${kind} ${id}`;

/** A path as a reader would name the place; records by the names they have in the job. */
const placeOf = (path: string, job: unknown): string => {
  const segments = path.split('/');
  const places: string[] = [];
  for (let i = 0; i < segments.length; i++) {
    const kind = kinds[segments[i]!];
    const id = segments[i + 1];
    if (kind === undefined || id === undefined) {
      places.push(words(segments[i]!));
      continue;
    }
    i++;
    // A duct is named without its system, as ids of ducts are unique in the house.
    if (kind === 'system' && segments[i + 1] === 'parts') continue;
    places.push(titled(at(job, segments.slice(0, i + 1).join('/')), kind, id));
  }
  return places.join(', ');
};

/** A value in words; `kind` is what one entry of a list is called. */
const valueText = (value: unknown, kind = 'value'): string => {
  if (value === undefined) return 'nothing';
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (Array.isArray(value))
    return value.every((item) => typeof item === 'string') && value.length <= 3
      ? value.join('; ') || 'none'
      : `${value.length} ${kind}${value.length === 1 ? '' : 's'}`;
  if (!isPlain(value)) return String(value);
  if ('value' in value)
    return `${valueText(value.value)}${typeof value.known === 'string' ? ` (${value.known})` : ''}`;
  return titled(value, '', String(value.id ?? 'an entry')).trim();
};

/** What a state's own change does. */
const changeText = (change: unknown, job: unknown): string | undefined => {
  if (!isPlain(change)) return undefined;
  if (typeof change.set === 'string') {
    const verb = Array.isArray(change.to) ? 'become' : 'becomes';
    return `${placeOf(change.set, job)} ${verb} ${valueText(change.to, kinds[fieldOf(change.set)])}`;
  }
  if (typeof change.remove === 'string') return `without ${placeOf(change.remove, job)}`;
  if (typeof change.add === 'string') return `with ${valueText(change.item)} added`;
  return undefined;
};

const isNamedItem = (path: string): boolean => kinds[path.split('/').at(-2) ?? ''] !== undefined;

const lineOf = (each: Difference, job: unknown): string | undefined => {
  const { path } = each;
  if ('order' in each)
    return each.order.from.length === each.order.to.length
      ? `${placeOf(path, job)}: in another order`
      : undefined;
  const { from, to } = each;
  const state = /^states\/([^/]+)\/changes\//.exec(path)?.[1];
  if (state !== undefined) {
    const place = titled(at(job, `states/${state}`), 'state', state);
    if (to === undefined) return `${place}: taken back: ${changeText(from, job) ?? 'a change'}`;
    return `${place}: ${changeText(to, job) ?? 'a change'}`;
  }
  if (isEmpty(from) || isEmpty(to)) if (from === undefined || to === undefined) return undefined;
  if (isNamedItem(path) && (from === undefined || to === undefined)) {
    const [kind, id] = path.split('/').slice(-2) as [string, string];
    const holder = path.split('/').slice(0, -2);
    const inside = holder.length === 0 || kind === 'parts' ? '' : `${placeOf(holder.join('/'), job)}: `;
    return `${inside}${titled(from ?? to, kinds[kind]!, id)} ${to === undefined ? 'removed' : 'added'}`;
  }
  const field = fieldOf(path);
  const kind = kinds[field];
  const holder = path.slice(0, Math.max(path.length - field.length - 1, 0));
  const place = holder === '' ? '' : `${placeOf(holder, job)}: `;
  if (to === undefined) return `${place}${words(field)} taken away, was ${valueText(from, kind)}`;
  if (from === undefined) return `${place}${words(field)} ${valueText(to, kind)}`;
  return `${place}${words(field)} from ${valueText(from, kind)} to ${valueText(to, kind)}`;
};

/** A diff in plain words, one line for each thing that changed; records by the names they have in `job`. */
export const describeDiff = (diff: JobDiff, job?: Job): readonly string[] =>
  diff.flatMap((each) => {
    const line = lineOf(each, job);
    return line === undefined ? [] : [capital(line)];
  });

/** A diff in one line. */
export const summariseDiff = (diff: JobDiff, job?: Job): string => {
  const lines = describeDiff(diff, job);
  if (lines.length === 0) return diff.length === 0 ? 'Nothing changed' : 'Kept in order';
  return lines.length === 1 ? lines[0]! : `${lines[0]} and ${lines.length - 1} more`;
};
