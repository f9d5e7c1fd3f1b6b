import { type Complain, collect, placed } from '../checks/complaints.ts';
import { isLoose, type Loose, recordsAt, textAt } from '../checks/loose.ts';
import { houseOf } from '../checks/state-errors.ts';
import type { JobError } from '../job-error.ts';
import { suggestion } from '../suggestion.ts';
import { readingKindRows } from './reading-tables.ts';

const values = ['flow', 'points', 'pressure', 'temperature', 'power', 'rise', 'plenum'] as const;

/** What is there to be read in a house, by what a reading may name. */
type Places = Readonly<Record<'system' | 'part' | 'terminal' | 'room' | 'space', ReadonlySet<string>>>;

const ids = (records: readonly Loose[]): ReadonlySet<string> =>
  new Set(records.flatMap((record) => textAt(record, 'id') ?? []));

const placesOf = (house: Loose): Places => {
  const systems = recordsAt(house, 'systems');
  const parts = systems.flatMap((system) => recordsAt(system, 'parts'));
  const rooms = recordsAt(house, 'rooms');
  return {
    system: ids(systems),
    part: ids(parts),
    terminal: ids(parts.flatMap(({ terminal }) => (isLoose(terminal) ? [terminal] : []))),
    room: ids(rooms),
    space: ids([...rooms, ...recordsAt(house, 'zones')]),
  };
};

const called: Readonly<Record<keyof Places, string>> = {
  system: 'a system',
  part: 'a duct part',
  terminal: 'a register or grille',
  room: 'a room',
  space: 'a room or zone',
};

/** Longest list of names that an error spells out. */
const few = 12;

const refer = (complain: Complain, path: string, id: unknown, what: string, known: ReadonlySet<string>) => {
  if (typeof id !== 'string' || known.has(id)) return;
  const names = [...known];
  const listed = names.slice(0, few).map((name) => `"${name}"`);
  const more = names.length > few ? ` and ${names.length - few} more` : '';
  const otherwise = names.length === 0 ? 'There is none.' : `There is ${listed.join(', ')}${more}.`;
  complain(path, `"${id}"`, `the id of ${what}`, suggestion(id, names, otherwise));
};

/**
 * What readings break beyond their schema: names that lead nowhere in the state they were taken in, and fields that
 * their kind does not have. What is left blank, or can not be true, is no error: it is kept and doubted.
 */
export const readingErrors = (job: unknown): readonly JobError[] => {
  if (!isLoose(job)) return [];
  const states = recordsAt(job, 'states').flatMap((state) => textAt(state, 'id') ?? []);
  const known = new Set(states.length === 0 ? ['as-found'] : states);
  const places = new Map<string | undefined, Places>();
  const placesIn = (state: string | undefined): Places => {
    const before = places.get(state);
    if (before) return before;
    const found = placesOf(houseOf(job, state));
    places.set(state, found);
    return found;
  };
  return collect((complain) => {
    for (const { path, record } of placed(job, '', 'readings')) {
      const state = textAt(record, 'state');
      refer(complain, `${path}/state`, record.state, 'a state', known);
      if (state === undefined || known.has(state)) checkReading(complain, path, record, placesIn(state));
    }
  });
};

const checkReading = (complain: Complain, path: string, reading: Loose, places: Places): void => {
  const row = readingKindRows.find(({ kind }) => kind === reading.kind);
  if (!row) return;
  if (row.of) refer(complain, `${path}/of`, reading.of, called[row.of], places[row.of]);
  else refuse(complain, path, reading, 'of', `no place: ${row.kind} is of the whole house`);
  if (row.at) choose(complain, path, reading, 'at', row.at);
  else refuse(complain, path, reading, 'at', `no place of the probe with ${row.kind}`);
  if (row.to?.includes('space'))
    refer(
      complain,
      `${path}/to`,
      reading.to,
      'a room or zone, or outdoors',
      new Set([...places.space, 'outdoors']),
    );
  else if (row.to) choose(complain, path, reading, 'to', row.to);
  else refuse(complain, path, reading, 'to', `nothing with ${row.kind}`);
  const own = fieldsOf(row);
  for (const field of values)
    if (!own.includes(field)) refuse(complain, path, reading, field, `${own.join(' or ')} with ${row.kind}`);
  if (isLoose(reading.rise) && Object.keys(reading.rise).length > 0) {
    for (const field of ['flow', 'plenum'])
      refuse(complain, path, reading, field, 'no other value beside a temperature rise');
    if (reading.rise.gas !== undefined)
      refuse(complain, `${path}/rise`, reading.rise, 'output', 'either the output or the gas clocked');
  }
  const setup = isLoose(reading.setup) ? reading.setup : {};
  const except = Array.isArray(setup.except) ? setup.except : [];
  for (const [i, id] of except.entries())
    refer(complain, `${path}/setup/except/${i}`, id, called.terminal, places.terminal);
};

/** Fields that hold the value of a kind, or what it is worked out from. */
const fieldsOf = ({ kind, value }: (typeof readingKindRows)[number]): readonly string[] => {
  if (kind === 'fan flow') return ['flow', 'rise', 'plenum'];
  return /leakage/.test(kind) ? ['flow', 'points'] : [value];
};

const refuse = (complain: Complain, path: string, reading: Loose, field: string, expected: string): void => {
  if (reading[field] !== undefined)
    complain(`${path}/${field}`, `"${field}"`, expected, 'Take it away, or choose another kind of reading.');
};

const choose = (
  complain: Complain,
  path: string,
  reading: Loose,
  field: string,
  words: readonly string[],
): void => {
  const word = reading[field];
  if (typeof word !== 'string' || words.includes(word)) return;
  const listed = words.map((each) => `"${each}"`).join(', ');
  complain(
    `${path}/${field}`,
    `"${word}"`,
    `one of ${listed}`,
    suggestion(word, words, 'Pick the one that fits.'),
  );
};
