import { type Job, uniqueId, valueAt } from '@airledger/job';
import { type FieldKind, fieldKind } from '../forms/field-kind.ts';
import { fieldLabel, fieldPath } from '../forms/forms.ts';

export type Column = {
  /** Path from the record. */
  readonly key: string;
  readonly label: string;
  readonly pattern: string;
  readonly kind: FieldKind;
};

export type Row = {
  readonly path: string;
  readonly id: string;
  /** What it belongs to, of records that belong to another: a room, a duct. */
  readonly owner?: string;
};

export type TableKind = {
  readonly title: string;
  /** Head of the column of what a row belongs to. */
  readonly ownerLabel?: string;
  readonly columns: readonly Column[];
  readonly rows: (job: Job) => readonly Row[];
  /** Where a new row would stand and what it begins with; absent where rows come from elsewhere. */
  readonly begin?: (job: Job, name: string, owner: string | undefined) => Begun | undefined;
};

export type Begun = { readonly list: string; readonly record: Readonly<Record<string, unknown>> };

type Named = { readonly id: string; readonly name?: string };

const columns = (
  pattern: string,
  fields: readonly (string | readonly [string, string])[],
): readonly Column[] =>
  fields.map((field) => {
    const key = fieldPath(field);
    const at = `${pattern}/${key}`.replace(/between\/\d$/, 'between');
    return { key, label: fieldLabel(field), pattern: at, kind: fieldKind(at) };
  });

const rowsOf = (base: string, items: readonly Named[] | undefined, owner?: Named): readonly Row[] =>
  (items ?? []).map(({ id }) => ({
    path: `${base}/${id}`,
    id,
    ...(owner && { owner: owner.name ?? owner.id }),
  }));

const partsOf = (job: Job) =>
  (job.systems ?? []).flatMap(({ id, parts }) =>
    parts.map((part) => ({ part, path: `systems/${id}/parts/${part.id}` })),
  );

/** Record that somebody names by its id or its name. */
const byName = <T extends Named>(
  items: readonly T[] | undefined,
  text: string | undefined,
): T | undefined => {
  const wanted = text?.trim().toLowerCase();
  return items?.find(({ id, name }) => id === wanted || name?.toLowerCase() === wanted);
};

const plain =
  (list: string, stem: string, record: (job: Job) => Readonly<Record<string, unknown>> = () => ({})) =>
  (job: Job, name: string): Begun => ({
    list,
    record: { id: uniqueId(job, name || stem), ...record(job) },
  });

export const tableKinds = {
  rooms: {
    title: 'Rooms',
    columns: columns('rooms/*', [
      'name',
      'use',
      'storey',
      'floorArea',
      ['size', 'Width x depth'],
      'height',
      ['airflow/cooling', 'Airflow, cooling'],
      ['airflow/heating', 'Airflow, heating'],
      ['leakageShare', 'Leakage share'],
    ]),
    rows: (job) => rowsOf('rooms', job.rooms),
    begin: plain('rooms', 'room'),
  },
  zones: {
    title: 'Zones',
    columns: columns('zones/*', [
      'name',
      'kind',
      'storey',
      'floorArea',
      'volume',
      'vented',
      ['insideEnvelope', 'Inside the envelope'],
      ['airChangeHeating', 'Air change, heating'],
      ['airChangeCooling', 'Air change, cooling'],
    ]),
    rows: (job) => rowsOf('zones', job.zones),
    begin: plain('zones', 'zone'),
  },
  surfaces: {
    title: 'Surfaces',
    ownerLabel: 'Room or zone',
    columns: columns('rooms/*/surfaces/*', [
      'kind',
      ['beyond', 'On the other side'],
      'area',
      ['size', 'Width x height'],
      'count',
      ['in', 'Sits in'],
      'facing',
      'assembly',
      ['u', 'U'],
      ['solarHeatGain', 'Solar gain'],
      'overhangDepth',
      ['overhangAbove', 'Overhang above the head'],
      ['cover', 'Carpet or floor'],
    ]),
    rows: (job) => [
      ...job.rooms.flatMap((room) => rowsOf(`rooms/${room.id}/surfaces`, room.surfaces, room)),
      ...(job.zones ?? []).flatMap((zone) => rowsOf(`zones/${zone.id}/surfaces`, zone.surfaces, zone)),
    ],
    begin: (job, name, owner) => {
      const room = byName(job.rooms, owner);
      const zone = room ? undefined : byName(job.zones, owner);
      const holder = room ?? zone;
      if (!holder) return undefined;
      const id = uniqueId(job, `${holder.id}-${name || 'surface'}`);
      return { list: `${room ? 'rooms' : 'zones'}/${holder.id}/surfaces`, record: { id } };
    },
  },
  doors: {
    title: 'Doors',
    columns: columns('doors/*', [
      ['between/0', 'From'],
      ['between/1', 'To'],
      ['open', 'Standing open'],
      ['opening', 'Without a leaf'],
      ['size', 'Width x height'],
      'undercut',
      ['shutArea', 'Gaps when shut'],
    ]),
    rows: (job) => rowsOf('doors', job.doors),
    begin: plain('doors', 'door', () => ({ between: [] })),
  },
  ducts: {
    title: 'Ducts',
    columns: columns('systems/*/parts/*', [
      'name',
      'side',
      'role',
      'joins',
      ['at', 'Takeoff at'],
      'section',
      'length',
      'material',
      'slack',
      'insulation',
      'zone',
      ['damper', 'Damper open'],
      'fittings',
      ['terminal/room', 'Register in'],
      ['terminal/face', 'Register face'],
    ]),
    rows: (job) =>
      (job.systems ?? []).flatMap((system) => rowsOf(`systems/${system.id}/parts`, system.parts)),
    begin: (job, name) => {
      const system = job.systems?.[0];
      if (!system) return undefined;
      const plenum = system.parts.find(({ side, role }) => side === 'supply' && role === 'plenum');
      return {
        list: `systems/${system.id}/parts`,
        record: {
          id: uniqueId(job, name || 'run'),
          side: 'supply',
          role: 'run',
          joins: plenum?.id ?? 'air-handler',
          zone: plenum?.zone ?? system.airHandler.zone,
        },
      };
    },
  },
  registers: {
    title: 'Registers',
    ownerLabel: 'At the end of',
    columns: columns('systems/*/parts/*/terminal', [
      'name',
      ['room', 'Opens into'],
      ['face', 'Face size'],
      ['open', 'Louvre open'],
      'freeArea',
      ['lossCoefficient', 'Loss coefficient'],
    ]),
    rows: (job) =>
      partsOf(job)
        .filter(({ part }) => part.terminal)
        .map(({ part, path }) => ({
          path: `${path}/terminal`,
          id: part.terminal!.id,
          owner: part.name ?? part.id,
        })),
  },
  leaks: {
    title: 'Leaks',
    ownerLabel: 'Duct',
    columns: columns('systems/*/parts/*/leaks/*', [
      'place',
      ['flow', 'Flow at 25 Pa'],
      'tightness',
      ['at', 'Where along'],
      ['zone', 'Opens to'],
      'exponent',
    ]),
    rows: (job) => [
      ...(job.systems ?? []).flatMap((system) =>
        leakRows(
          `systems/${system.id}/airHandler`,
          system.airHandler.leaks,
          `${system.name ?? system.id}: air handler`,
        ),
      ),
      ...partsOf(job).flatMap(({ part, path }) => leakRows(path, part.leaks, part.name ?? part.id)),
    ],
    begin: (job, _name, owner) => {
      const parts = partsOf(job);
      const part = byName(
        parts.map(({ part: each }) => each),
        owner,
      );
      const path = parts.find((each) => each.part === part)?.path;
      return path === undefined ? undefined : { list: `${path}/leaks`, record: {} };
    },
  },
  tests: {
    title: 'Leakage tests',
    columns: columns('leakageTests/*', [
      'system',
      'stage',
      ['place', 'Leakage to'],
      'side',
      ['flow', 'Flow at 25 Pa'],
      'known',
    ]),
    rows: (job) => rowsOf('leakageTests', job.leakageTests),
    begin: plain('leakageTests', 'test', (job) => ({ system: job.systems?.[0]?.id })),
  },
  ventilators: {
    title: 'Ventilators',
    columns: columns('ventilators/*', [
      'kind',
      'room',
      'flow',
      ['running', 'Runs in the design hour'],
      ['sensibleRecovery', 'Heat recovered'],
      ['latentRecovery', 'Moisture recovered'],
    ]),
    rows: (job) => rowsOf('ventilators', job.ventilators),
    begin: plain('ventilators', 'fan'),
  },
} as const satisfies Record<string, TableKind>;

export type TableName = keyof typeof tableKinds;

const leakRows = (
  path: string,
  leaks: readonly { readonly place: string }[] | undefined,
  owner: string,
): readonly Row[] => (leaks ?? []).map(({ place }, i) => ({ path: `${path}/leaks/${i}`, id: place, owner }));

/** Name by which a pasted row finds its record. */
export const rowName = (job: Job, { path, id }: Row): string =>
  String((valueAt(job, path) as { name?: string } | undefined)?.name ?? id);
