import type { JobError } from '../job-error.ts';
import { suggestion } from '../suggestion.ts';
import { assemblies, filters, fittings, materials, named, stations } from '../survey/tables.ts';
import { type Complain, collect, placed } from './complaints.ts';
import { isLoose, type Loose, recordAt, recordsAt, textAt } from './loose.ts';

const idsOf = (records: readonly Loose[]): ReadonlySet<string> =>
  new Set(records.flatMap((record) => textAt(record, 'id') ?? []));

/** Longest list of names that an error spells out. */
const few = 12;
const listed = (known: Iterable<string>): string => {
  const names = [...known];
  const shown = names.slice(0, few).map((name) => `"${name}"`);
  return `${shown.join(', ')}${names.length > few ? ` and ${names.length - few} more` : ''}`;
};

/** `known` is undefined where the list itself is missing, which the schema has told. */
const refer = (
  complain: Complain,
  path: string,
  id: unknown,
  what: string,
  known: ReadonlySet<string> | undefined,
): void => {
  if (typeof id !== 'string' || known === undefined || known.has(id)) return;
  const otherwise = known.size === 0 ? 'There is none yet; add it.' : `There is ${listed(known)}.`;
  complain(path, `"${id}"`, `the id of ${what}`, suggestion(id, known, otherwise));
};

const nameFrom = (
  complain: Complain,
  path: string,
  name: unknown,
  table: ReadonlyMap<string, { readonly name: string }>,
  what: string,
  otherwise = '',
): void => {
  if (typeof name !== 'string' || named(table, name)) return;
  const names = [...table.values()].map((row) => row.name);
  complain(
    path,
    `"${name}"`,
    `the name of ${what}`,
    `${suggestion(name, names, `There is ${listed(names)}.`)}${otherwise}`,
  );
};

const checkSurfaces = (complain: Complain, holder: Loose, path: string, spaces: Spaces): void => {
  const beyond = spaces && new Set([...spaces, 'outdoors', 'ground']);
  const walls = idsOf(
    recordsAt(holder, 'surfaces').filter(
      (surface) => !['window', 'door', 'skylight'].includes(String(surface.kind)),
    ),
  );
  for (const { path: at, record } of placed(holder, path, 'surfaces')) {
    refer(complain, `${at}/beyond`, record.beyond, 'a room or zone, or outdoors, or ground', beyond);
    refer(complain, `${at}/in`, record.in, 'a wall, roof or ceiling of the same room', walls);
    const assembly = textAt(record, 'assembly');
    const row = assembly === undefined ? undefined : named(assemblies, assembly);
    if (row && !row.kinds.some((kind) => kind === record.kind))
      complain(
        `${at}/assembly`,
        `"${row.name}", which is for a ${row.kinds.join(' or ')}`,
        `an assembly for a ${String(record.kind)}`,
        'Choose another assembly, or type u.',
      );
    nameFrom(
      complain,
      `${at}/assembly`,
      assembly,
      assemblies,
      'an assembly of the table',
      ' Or type u instead.',
    );
  }
};

const checkPart = (
  complain: Complain,
  part: Loose,
  at: string,
  known: Known,
  parts: ReadonlySet<string>,
): void => {
  refer(
    complain,
    `${at}/joins`,
    part.joins,
    'a part of this system, or air-handler',
    new Set([...parts, 'air-handler']),
  );
  refer(complain, `${at}/endsOn`, part.endsOn, 'a part of this system', parts);
  refer(complain, `${at}/zone`, part.zone, 'a room or zone', known.spaces);
  nameFrom(complain, `${at}/material`, part.material, materials, 'a material of the table');
  const list = Array.isArray(part.fittings) ? part.fittings : [];
  for (const [i, fitting] of list.entries()) {
    const own =
      isLoose(fitting) && (fitting.lossCoefficient !== undefined || fitting.equivalentLength !== undefined);
    if (!own)
      nameFrom(
        complain,
        `${at}/fittings/${i}`,
        isLoose(fitting) ? fitting.name : fitting,
        fittings,
        'a fitting of the table',
        ' Or give it a loss of its own.',
      );
  }
  checkLeaks(complain, part, at, known);
  const terminal = recordAt(part, 'terminal');
  refer(complain, `${at}/terminal/room`, terminal.room, 'a room', known.rooms);
  nameFrom(
    complain,
    `${at}/terminal/filter/name`,
    recordAt(terminal, 'filter').name,
    filters,
    'a filter of the table',
  );
};

const checkLeaks = (complain: Complain, holder: Loose, path: string, known: Known): void => {
  for (const { path: at, record } of placed(holder, path, 'leaks'))
    refer(
      complain,
      `${at}/zone`,
      record.zone,
      'a room or zone, or outdoors',
      known.spaces && new Set([...known.spaces, 'outdoors']),
    );
};

type Spaces = ReadonlySet<string> | undefined;
type Known = { readonly rooms: Spaces; readonly spaces: Spaces };

/** Ids and names that lead nowhere. */
export const referenceErrors = (job: Loose): readonly JobError[] =>
  collect((complain) => {
    const roomIds = idsOf(recordsAt(job, 'rooms'));
    const rooms = roomIds.size > 0 ? roomIds : undefined;
    const zones = idsOf(recordsAt(job, 'zones'));
    const spaces = rooms && new Set([...rooms, ...zones]);
    const known = { rooms, spaces };

    const station = textAt(recordAt(job, 'site'), 'station');
    if (station !== undefined && !named(stations, station))
      complain(
        'site/station',
        `"${station}"`,
        'a station of the climate table',
        `${suggestion(station, stations.keys(), `There is ${listed(stations.keys())}.`)} Or type the design temperatures.`,
      );

    for (const list of ['rooms', 'zones'])
      for (const { path, record } of placed(job, '', list)) {
        checkSurfaces(complain, record, path, spaces);
        for (const { path: at, record: leak } of placed(record, path, 'leakageTo'))
          refer(complain, `${at}/zone`, leak.zone, 'a zone', zones);
      }

    for (const list of ['doors', 'transfers'])
      for (const { path, record } of placed(job, '', list)) {
        const between = Array.isArray(record.between) ? record.between : [];
        for (const [i, id] of between.entries())
          refer(complain, `${path}/between/${i}`, id, 'a room or zone', spaces);
        if (between.length === 2 && between[0] === between[1])
          complain(
            `${path}/between`,
            `"${String(between[0])}" twice`,
            'two different spaces',
            'Name the space on the other side.',
          );
      }

    const systems = placed(job, '', 'systems');
    const allParts = systems.flatMap(({ record }) => recordsAt(record, 'parts'));
    for (const { path, record } of placed(job, '', 'ventilators')) {
      refer(complain, `${path}/room`, record.room, 'a room', rooms);
      refer(
        complain,
        `${path}/returnPart`,
        record.returnPart,
        'a return part',
        idsOf(allParts.filter((part) => part.side === 'return')),
      );
    }
    for (const { path, record } of placed(job, '', 'leakageTests'))
      refer(
        complain,
        `${path}/system`,
        record.system,
        'a system',
        idsOf(systems.map((system) => system.record)),
      );

    for (const { path, record } of systems) {
      refer(complain, `${path}/thermostatRoom`, record.thermostatRoom, 'a room', rooms);
      const handler = recordAt(record, 'airHandler');
      refer(complain, `${path}/airHandler/zone`, handler.zone, 'a room or zone', spaces);
      nameFrom(
        complain,
        `${path}/airHandler/filter/name`,
        recordAt(handler, 'filter').name,
        filters,
        'a filter of the table',
      );
      checkLeaks(complain, handler, `${path}/airHandler`, known);
      const parts = idsOf(recordsAt(record, 'parts'));
      for (const { path: at, record: part } of placed(record, path, 'parts'))
        checkPart(complain, part, at, known, parts);
    }
  });
