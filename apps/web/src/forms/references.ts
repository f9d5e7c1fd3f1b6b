import { type Job, kindRow, placesFor, stateOfReading } from '@airledger/job';
import { useWorkbench } from '../state/store.ts';

/** A record that a field may name. */
export type Option = { readonly value: string; readonly words: string };

type Named = { readonly id: string; readonly name?: string };

const option = ({ id, name }: Named): Option => ({ value: id, words: name ?? id.replaceAll('-', ' ') });

const all = (lists: readonly (readonly Named[] | undefined)[]): readonly Option[] =>
  lists.flatMap((list) => list ?? []).map(option);

const partsOf = (job: Job, path: string, side?: 'supply' | 'return') => {
  const [, system] = path.split('/');
  const inSystem = path.startsWith('systems/');
  return (job.systems ?? [])
    .filter(({ id }) => !inSystem || id === system)
    .flatMap(({ parts }) => parts)
    .filter((part) => side === undefined || part.side === side);
};

const sideOf = (job: Job, path: string): 'supply' | 'return' | undefined => {
  const id = path.split('/')[3];
  return partsOf(job, path).find((part) => part.id === id)?.side;
};

const stations = (names: readonly string[]): readonly Option[] =>
  names.map((name) => ({ value: name, words: name.replaceAll('-', ' ') }));

/** What a reading may be read at, by its kind. */
const readingOptions = (path: string, key: string): readonly Option[] | undefined => {
  const { typed } = useWorkbench.getState();
  const reading = typed?.readings?.find(({ id }) => id === path.split('/')[1]);
  if (!typed || !reading) return undefined;
  const { of, at, to } = kindRow(reading.kind);
  const places = (what: NonNullable<typeof of>) => placesFor(typed, stateOfReading(typed, reading), what);
  switch (key) {
    case 'state':
      return (typed.states ?? []).map(option);
    case 'of':
      return of && all([places(of)]);
    case 'at':
      return at && stations(at);
    case 'to':
      return (
        to && [
          ...stations(to.filter((word) => word !== 'space')),
          ...all([to.includes('space') ? places('space') : []]),
        ]
      );
    default:
      return undefined;
  }
};

/** Records that a field of the schema may refer to, by the end of its pattern; undefined for other fields. */
export const optionsOf = (job: Job, path: string, pattern: string): readonly Option[] | undefined => {
  const key = pattern.split('/').at(-1)!;
  if (pattern.startsWith('readings/')) return readingOptions(path, key);
  if (key === 'between') return all([job.rooms, job.zones]);
  if (key === 'thermostatRoom' || (key === 'room' && /terminal|ventilators/.test(pattern)))
    return all([job.rooms]);
  if (pattern.endsWith('leakageTo/*/zone')) return all([job.zones]);
  if (key === 'zone') return all([job.zones, job.rooms]);
  if (key === 'system') return all([job.systems]);
  if (key === 'endsOn' || key === 'returnPart') return all([partsOf(job, path, 'return')]);
  if (key === 'joins') {
    const own = path.split('/')[3];
    const parts = partsOf(job, path, sideOf(job, path)).filter(({ id }) => id !== own);
    return [{ value: 'air-handler', words: 'the air handler' }, ...all([parts])];
  }
  if (key === 'beyond') return [...stations(['outdoors', 'ground']), ...all([job.zones, job.rooms])];
  if (key === 'in') {
    const [list, owner] = path.split('/');
    const records = (list === 'zones' ? job.zones : job.rooms) ?? [];
    return all([
      records
        .find(({ id }) => id === owner)
        ?.surfaces?.filter(({ kind }) => !/window|door|skylight/.test(kind)),
    ]);
  }
  return undefined;
};
