import { type Account, formatQuantity, loadCautions, type UnitSystem } from '@airledger/engine';
import { columnNumber } from '@airledger/report/column-number';
import { partPassage } from '@airledger/report/part-passage';
import { nameOf, placesOf } from '@airledger/report/place-names';
import { paint } from './paint.ts';
import { placeText } from './place-text.ts';
import { standingsText } from './standings-text.ts';
import { left, right, table } from './table.ts';
import { unitHeads } from './unit-heads.ts';
import { wrap } from './wrap.ts';

export type AccountText = {
  readonly units: UnitSystem;
  /** Only this place. */
  readonly place?: string;
  /** Lines of every duct part too. */
  readonly allLines?: boolean;
};

/** An account as text: how rooms and systems stand, then each place with its lines and the sum that closes it. */
export const accountText = (account: Account, { units, place, allLines }: AccountText): string => {
  const { survey } = account;
  const detailed = placesOf(survey).filter(({ id, kind }) =>
    place === undefined ? kind !== 'part' || allLines : id === place,
  );
  const sections = [
    header(account, units),
    ...(place === undefined ? [standingsText(account, units), ...cautionsText(account)] : []),
    ...(place === undefined && !allLines ? [partsText(account, units)] : []),
    reading(account, units),
    ...detailed.map((one) => placeText(account, one, units)),
    residual(account),
  ];
  return sections.join('\n\n');
};

const header = ({ survey, mode, loads, heat }: Account, units: UnitSystem): string => {
  const percentile = mode === 'heating' ? survey.site.heatingPercentile : survey.site.coolingPercentile;
  const show = (si: number) => formatQuantity(si, 'temperature', units);
  return [
    paint('bold', `${survey.name} · ${survey.state} · ${mode}`),
    `${survey.site.place}: outdoors ${show(loads.outdoor.temperature_C)} (${percentile}; ${survey.site.designSource}), indoors ${show(loads.indoor.temperature_C)}`,
    `Fans run ${formatQuantity(heat.floating.share, 'ratio', units, 1)} of the design hour.`,
  ].join('\n');
};

/** Where the load method does not cover the house well; no section when it does. */
const cautionsText = ({ survey, loads }: Account): string[] => {
  const name = nameOf(survey);
  const lines = loadCautions(survey, loads).map(({ room, text }) =>
    wrap(room === undefined ? text : `${name(room)}: ${text}`, '  '),
  );
  return lines.length === 0 ? [] : [[paint('bold', 'Look twice at these loads'), ...lines].join('\n')];
};

const partsText = (account: Account, units: UnitSystem): string => {
  const name = nameOf(account.survey);
  const { air, heat } = unitHeads(units);
  const rows = account.survey.systems.flatMap(({ parts }) =>
    parts.map((part) => {
      const { enters_m3s, leaksOut_m3s, leakHeat_W, wallHeat_W } = partPassage(account, part.id);
      return [
        part.name,
        part.id,
        part.side,
        name(part.zone),
        columnNumber(enters_m3s, 'airflow', units),
        columnNumber(leaksOut_m3s, 'airflow', units, 1),
        columnNumber(leakHeat_W, 'power', units),
        columnNumber(wallHeat_W, 'power', units),
      ];
    }),
  );
  const columns = [
    left('Duct part'),
    left('id'),
    left('side'),
    left('in'),
    right('enters', air),
    right('leaks out', air),
    right('with leaks', heat),
    right('through wall', heat),
  ];
  return `${paint('bold', 'Duct parts')}: air while the fan runs, heat out of the duct over the hour; --lines shows each line.\n${table(columns, rows)}`;
};

const reading = ({ ledger }: Account, units: UnitSystem): string =>
  [
    `Lines: + comes in, − goes out. Air flows while it acts; air × share of the hour, and all heat, are averages over the hour.`,
    `Heat in air counts from ${formatQuantity(ledger.referenceTemperature_C, 'temperature', units)} and ${formatQuantity(ledger.referenceHumidityRatio, 'humidityRatio', units)}, so air below that carries negative heat.`,
  ].join('\n');

const residual = ({ ledger: { residual } }: Account): string =>
  `The account closes: largest imbalance of any place over the throughput is ${residual.air.toExponential(1)} in air, ${residual.sensible.toExponential(1)} in sensible and ${residual.latent.toExponential(1)} in latent heat.`;
