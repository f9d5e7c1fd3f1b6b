import {
  type Balance,
  type BalanceObstacle,
  type DamperSetting,
  fieldSheets,
  formatQuantity,
  type Mode,
  type ShareSpread,
  type Survey,
  type UnitSystem,
} from '@airledger/engine';
import { columnNumber } from '@airledger/report/column-number';
import { fieldSheetSteps } from '@airledger/report/field-sheet-words';
import { obstacleWords } from '@airledger/report/obstacle-words';
import { nameOf } from '@airledger/report/place-names';
import { paint } from './paint.ts';
import { left, right, table } from './table.ts';
import { unitHeads } from './unit-heads.ts';
import { wrap } from './wrap.ts';

type Season = Mode | 'both';

/** The settings of one season or of the compromise, how each season stands with them, and the sheet for the field. */
export const balanceText = (survey: Survey, found: Balance, season: Season, units: UnitSystem): string => {
  const { settings, seasons } = chosen(found, season);
  const leading = seasons[0]!.mode;
  return [
    paint(
      'bold',
      `${survey.name} · ${survey.state} · balanced for ${season === 'both' ? 'both seasons' : season}`,
    ),
    settingsText(survey, settings, units),
    ...seasons.map((one) => seasonText(survey, one, units)),
    ...sheetsText(survey, leading, settings, units),
  ].join('\n\n');
};

/** The same as records; `share` values are of need, 1 = all of it. */
export const balanceJson = (survey: Survey, found: Balance, season: Season) => {
  const { settings, seasons } = chosen(found, season);
  return {
    name: survey.name,
    state: survey.state,
    season,
    settings,
    seasons: seasons.map(({ mode, before, spread, obstacles }) => ({
      mode,
      before,
      after: spread,
      obstacles,
    })),
    sheets: fieldSheets(survey, seasons[0]!.mode, settings),
  };
};

type SeasonStanding = {
  readonly mode: Mode;
  readonly before: ShareSpread;
  readonly spread: ShareSpread;
  readonly obstacles: readonly BalanceObstacle[];
};

const chosen = (
  { seasons, compromise }: Balance,
  season: Season,
): { readonly settings: readonly DamperSetting[]; readonly seasons: readonly SeasonStanding[] } => {
  const own = seasons.find(({ mode }) => mode === season);
  if (own) return { settings: own.settings, seasons: [{ ...own, spread: own.after }] };
  return {
    settings: compromise.settings,
    seasons: compromise.seasons.map((one) => ({
      ...one,
      before: seasons.find(({ mode }) => mode === one.mode)!.before,
    })),
  };
};

const settingsText = (survey: Survey, settings: readonly DamperSetting[], units: UnitSystem): string => {
  const name = nameOf(survey);
  const { air } = unitHeads(units);
  const open = (position: number | undefined) =>
    position === undefined ? 'none' : columnNumber(position, 'ratio', units);
  const rows = settings.map((one) => [
    name(one.room),
    one.terminal,
    one.part ?? '—',
    open(one.before),
    open(one.position),
    columnNumber(one.target_m3s, 'airflow', units),
    columnNumber(one.flow_m3s, 'airflow', units),
  ]);
  const columns = [
    left('Room'),
    left('register'),
    left('damper in'),
    right('as found', '% open'),
    right('set to', '% open'),
    right('aim', air),
    right('gets', air),
  ];
  return `${paint('bold', 'Dampers')}: the same share of need for every room with the least throttling.\n${table(columns, rows)}`;
};

const seasonText = (
  survey: Survey,
  { mode, before, spread, obstacles }: SeasonStanding,
  units: UnitSystem,
) => {
  const share = ({ least, most }: ShareSpread) =>
    `${formatQuantity(least, 'ratio', units)} to ${formatQuantity(most, 'ratio', units)}`;
  const words = obstacleWords(survey, obstacles, units).map((text) => wrap(text, '    '));
  return [
    `${paint('bold', mode === 'heating' ? 'Heating' : 'Cooling')}: rooms get ${share(before)} of their need as found, ${share(spread)} as set.`,
    ...(words.length > 0 ? ['  Dampers alone do not do it:', ...words] : []),
  ].join('\n');
};

const sheetsText = (
  survey: Survey,
  mode: Mode,
  settings: readonly DamperSetting[],
  units: UnitSystem,
): string[] => {
  const name = nameOf(survey);
  const { air } = unitHeads(units);
  return fieldSheets(survey, mode, settings).map(({ system, key, first, steps }) => {
    const keyFirst = first.find(({ terminal }) => terminal === key)!;
    const rows = steps.map((step, i) => [
      String(i + 1),
      step.terminal,
      step.part,
      columnNumber(step.from, 'ratio', units),
      columnNumber(step.to, 'ratio', units),
      columnNumber(step.predicted_m3s, 'airflow', units),
      columnNumber(step.keyPredicted_m3s, 'airflow', units),
    ]);
    const columns = [
      right(''),
      left('register'),
      left('damper in'),
      right('from', '% open'),
      right('to', '% open'),
      right('should read', air),
      right('key reads', air),
    ];
    return [
      paint('bold', `Field sheet, ${name(system)}, fan in ${mode}`),
      ...fieldSheetSteps(key, formatQuantity(keyFirst.predicted_m3s, 'airflow', units)).map((step, i) =>
        wrap(`${i + 1}. ${step}`, '  '),
      ),
      table(columns, rows),
    ].join('\n');
  });
};
