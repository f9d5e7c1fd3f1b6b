import type { PathLoss, RoomStanding, Survey, UnitSystem } from '@airledger/engine';
import { columnNumber } from '@airledger/report/column-number';
import {
  airSplit,
  capital,
  heatSplit,
  heatWord,
  imbalanceSplit,
  type Split,
  type SplitPart,
  serviceWord,
} from '@airledger/report/explanation-words';
import { nameOf } from '@airledger/report/place-names';
import type { Explained, ExplainedImbalance } from './explain.ts';
import { paint } from './paint.ts';
import { left, right, table } from './table.ts';
import { unitHeads } from './unit-heads.ts';
import { wrap } from './wrap.ts';

/**
 * Why rooms are short of air and heat and where the house is uneven: for each a sentence, a bar for each cause (they add
 * up to the whole), and what the ledger has on the way to the room.
 */
export const explanationText = (
  survey: Survey,
  rooms: readonly Explained[],
  imbalances: readonly ExplainedImbalance[],
  units: UnitSystem,
): string =>
  [
    paint('bold', `${survey.name} · ${survey.state}`),
    ...(rooms.length === 0 ? ['Every room gets the air that it needs.'] : []),
    ...rooms.flatMap((one) => [
      paint('bold', `${one.name}, ${one.mode} day`),
      splitText(airSplit(one.air, one.name, units), units),
      splitText(heatSplit(one.heat, one.name, one.mode, units), units),
      ledgerText(survey, one, units),
    ]),
    ...imbalances.flatMap(({ mode, between, imbalance }) => [
      paint('bold', `${capital(serviceWord(imbalance.of, mode))} between ${between}, ${mode} day`),
      splitText(imbalanceSplit(imbalance, mode, units), units),
    ]),
  ].join('\n\n');

/** Characters of the longest bar. */
const wide = 20;

const splitText = ({ sentence, parts, whole, dimension }: Split, units: UnitSystem): string => {
  const digits = dimension === 'airflow' ? 1 : 0;
  const number = (value: number) => columnNumber(value, dimension, units, digits);
  const most = Math.max(...parts.map(({ value }) => Math.abs(value)), Number.MIN_VALUE);
  // What helps the room is drawn light: it takes off from the shortage.
  const bar = (value: number) => (value < 0 ? '░' : '█').repeat(Math.round((wide * Math.abs(value)) / most));
  const isRanged = whole.range !== undefined;
  const row = ({ what, value, range }: SplitPart, drawn: string) => [
    capital(what),
    number(value),
    ...(isRanged ? [range ? `${number(range.low)} to ${number(range.high)}` : ''] : []),
    drawn,
  ];
  const unit =
    { airflow: unitHeads(units).air, power: unitHeads(units).heat }[dimension as string] ?? '% of need';
  const columns = [
    left('Cause'),
    right('takes', unit),
    ...(isRanged ? [right('range', '90 %')] : []),
    left(''),
  ];
  const rows = [...parts.map((part) => row(part, bar(part.value))), row(whole, '')];
  return `${wrap(sentence, '')}\n${table(columns, rows)}`;
};

/** Lines of the ledger that are shown; the rest stands in one. */
const mostLines = 6;

/** What air and heat the ledger has leaving the ducts on the way to a room, this room's part of it. */
const ledgerText = (survey: Survey, { standing, mode }: Explained, units: UnitSystem): string => {
  const { air, heat } = unitHeads(units);
  const name = nameOf(survey);
  const lines = standing.losses
    .filter(({ air_m3s, sensible_W }) => air_m3s !== 0 || sensible_W !== 0)
    .toSorted((a, b) => Math.abs(b.sensible_W) - Math.abs(a.sensible_W));
  const cells = (values: Pick<PathLoss, 'air_m3s' | 'sensible_W'>) => [
    columnNumber(values.air_m3s, 'airflow', units, 1),
    columnNumber(values.sensible_W, 'power', units, 0),
  ];
  const total = (some: readonly PathLoss[], key: 'air_m3s' | 'sensible_W') =>
    some.reduce((sum, loss) => sum + loss[key], 0);
  const sums = (some: readonly PathLoss[]) => ({
    air_m3s: total(some, 'air_m3s'),
    sensible_W: total(some, 'sensible_W'),
  });
  const rest = lines.slice(mostLines);
  const rows = [
    ...lines.slice(0, mostLines).map((loss) => [name(loss.part), lossWords(loss), ...cells(loss)]),
    ...(rest.length > 0 ? [[`${rest.length} smaller lines`, '', ...cells(sums(rest))]] : []),
    ['Lost on the way', '', ...cells(sums(lines))],
  ];
  const columns = [left('Lines of the ledger'), left(''), right('air', air), right(heatWord(mode), heat)];
  return `${table(columns, rows)}\n${getsWords(standing, units)}`;
};

const lossWords = ({ cause, place, what }: PathLoss): string =>
  cause.endsWith('leak') ? `${place ?? what} leak` : what;

const getsWords = ({ load_W, needed_m3s, delivered_m3s }: RoomStanding, units: UnitSystem): string => {
  const { air, heat } = unitHeads(units);
  const flow = (value: number) => columnNumber(value, 'airflow', units, 0);
  return `Load ${columnNumber(load_W, 'power', units, 0)} ${heat}; gets ${flow(delivered_m3s)} of ${flow(needed_m3s)} ${air}. The lines are for all rooms at their set point, and hold this room’s part.`;
};
