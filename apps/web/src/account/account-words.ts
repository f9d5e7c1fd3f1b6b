import type { Account, Dimension } from '@airledger/engine';
import type { Format } from '../figure/format.ts';
import type { Streams } from './streams.ts';

/** Words at the source of the flow: what it is, what it gives, at what pressure or with what help. */
export const sourceWords = (
  account: Account,
  streams: Streams,
  dimension: Dimension,
  format: Format,
): string[] => {
  const title = account.systems.length > 1 ? 'Air handlers' : 'Air handler';
  const given = format.full(streams.given, dimension, 0);
  if (dimension !== 'airflow')
    return [
      title,
      given,
      ...streams.gains.map(({ name, value }) => `${format.bare(value, dimension, 0)} from ${name}`),
    ];
  const drawnIn = account.systems.reduce((sum, system) => sum + Math.max(0, system.returnLeak_m3s), 0);
  return [
    title,
    given,
    ...account.systems.map((system) => format.full(system.externalStatic_Pa, 'pressure', 2)),
    `${format.bare(drawnIn, dimension, 0)} drawn in`,
  ];
};

/** Places that are named; the rest are summed up. */
const most = 2;

/** "Lost to the attic: 181 cfm." */
export const lossSentence = (
  account: Account,
  streams: Streams,
  dimension: Dimension,
  format: Format,
): string => {
  const places = streams.lostTo.filter(({ value }) => format.bare(value, dimension, 0) !== '0' && value > 0);
  if (places.length === 0) return 'Nothing is lost on the way out.';
  const names = places
    .slice(0, most)
    .map(({ place, value }) => `${placeName(account, place)} ${format.full(value, dimension, 0)}`);
  const rest = places.slice(most).reduce((sum, { value }) => sum + value, 0);
  if (rest > 0) names.push(`elsewhere ${format.full(rest, dimension, 0)}`);
  return `Lost on the way to rooms: ${names.join(', ')}`;
};

/** Name of a room, zone or other place of the ledger. */
export const placeName = (account: Account, id: string): string =>
  [...account.survey.rooms, ...account.survey.zones].find((place) => place.id === id)?.name ?? id;
