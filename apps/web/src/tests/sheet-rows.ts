import { displayUnit, type UnitSystem } from '@airledger/engine';
import {
  type Job,
  type JobReading,
  kindRow,
  placesFor,
  type ReadingKind,
  readingDimension,
  stateOfReading,
} from '@airledger/job';

/** One line of a reading sheet: a place that can be read, with the reading that was taken there. */
export type SheetRow = {
  readonly key: string;
  readonly label: string;
  /** What a reading begun on this line says of its place. */
  readonly place: Pick<JobReading, 'of' | 'at' | 'to' | 'setup'>;
  readonly reading?: JobReading;
};

type Place = SheetRow['place'];
type Named = { readonly id: string; readonly name?: string };

const sentence = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

const nameOf = ({ id, name }: Named): string => name ?? id.replaceAll('-', ' ');

/** Lines of a kind before anything was read: every place that is usually read, named with its house. */
const usualLines = (job: Job, state: string, kind: ReadingKind): readonly Omit<SheetRow, 'reading'>[] => {
  const { of, at } = kindRow(kind);
  const line = (label: string, place: Place) => ({
    key: JSON.stringify(place),
    label: sentence(label),
    place,
  });
  if (of === undefined) return [line('The house', {})];
  const places = placesFor(job, state, of);
  const several = places.length > 1;
  if (kind === 'duct leakage')
    return places.flatMap((system) => {
      const within = several ? `${nameOf(system)}: ` : '';
      return [
        line(`${within}total`, { of: system.id, to: 'total' }),
        line(`${within}to outdoors`, { of: system.id, to: 'outdoors' }),
        line(`${within}supply side, total`, { of: system.id, to: 'total', setup: { side: 'supply' } }),
        line(`${within}return side, total`, { of: system.id, to: 'total', setup: { side: 'return' } }),
      ];
    });
  if (kind === 'duct static')
    return places.map((part) => line(`${nameOf(part)}: far end`, { of: part.id, at: 'end' }));
  if (kind === 'room pressure')
    return places.flatMap((room) => [line(`${nameOf(room)} to outdoors`, { of: room.id, to: 'outdoors' })]);
  if (at)
    return places.flatMap((system) =>
      at.map((spot) =>
        line(several ? `${nameOf(system)}: ${spot}` : spot, {
          of: system.id,
          at: spot,
        }),
      ),
    );
  return places.map((place) => line(nameOf(place), { of: place.id }));
};

const matches = (reading: JobReading, { of, at, to, setup }: Place): boolean =>
  reading.of === of &&
  reading.at === at &&
  reading.to === to &&
  (reading.setup?.side ?? 'both') === (setup?.side ?? 'both');

/** Lines of the sheet of a kind: the usual places in order, each with its reading, then readings of other places. */
export const sheetRows = (job: Job, state: string, kind: ReadingKind): readonly SheetRow[] => {
  const own = (job.readings ?? []).filter(
    (reading) => reading.kind === kind && stateOfReading(job, reading) === state,
  );
  const taken = new Set<string>();
  const usual = usualLines(job, state, kind).flatMap((line): readonly SheetRow[] => {
    const here = own.filter((reading) => !taken.has(reading.id) && matches(reading, line.place));
    for (const { id } of here) taken.add(id);
    if (here.length === 0) return [line];
    return here.map((reading, i) => ({
      ...line,
      key: i === 0 ? line.key : reading.id,
      label: i === 0 ? line.label : `${line.label}, again`,
      reading,
    }));
  });
  const others = own
    .filter(({ id }) => !taken.has(id))
    .map((reading) => ({
      key: reading.id,
      label:
        [reading.of, reading.at, reading.to && `to ${reading.to}`].filter(Boolean).join(' ') || reading.id,
      place: {},
      reading,
    }));
  return [...usual, ...others];
};

/** What a reading of a kind says, as it was typed. */
export const typedReading = (kind: ReadingKind, reading: JobReading | undefined): string => {
  if (!reading) return '';
  if (reading.points && reading.points.length > 0) return reading.points.join('; ');
  const value = reading[kindRow(kind).value];
  if (value === undefined) return '';
  return typeof value === 'object' ? String(value.value) : String(value);
};

/** Unit that a bare number gets: gauges show small pressures in Pa in either system. */
export const sheetUnit = (kind: ReadingKind, units: UnitSystem): string =>
  kind === 'pressure pan' || kind === 'room pressure' || kind === 'duct static'
    ? 'Pa'
    : displayUnit(readingDimension[kindRow(kind).value], units);

/** Fields that a typed text goes to: several points of a leakage test, or the one value. */
export const readingFields = (
  kind: ReadingKind,
  text: string,
  units: UnitSystem,
): Partial<Pick<JobReading, 'points' | 'flow' | 'pressure' | 'temperature' | 'power'>> => {
  const typed = text.trim();
  const field = kindRow(kind).value;
  if (typed === '') return { [field]: undefined, points: undefined };
  if (/leakage/.test(kind) && /;|\n| at | @ /i.test(typed))
    return {
      flow: undefined,
      points: typed
        .split(/[;\n]/)
        .map((point) => point.trim())
        .filter(Boolean),
    };
  const bare = /^[-+−]?[\d.,]+$/.test(typed);
  return { [field]: bare ? `${typed} ${sheetUnit(kind, units)}` : typed, points: undefined };
};
