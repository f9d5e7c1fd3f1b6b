import type { Account, LedgerLine, UnitSystem } from '@airledger/engine';
import { columnNumber } from '@airledger/report/column-number';
import { placeLedger } from '@airledger/report/place-ledger';
import { nameOf, type Place } from '@airledger/report/place-names';
import { paint } from './paint.ts';
import { left, right, table } from './table.ts';
import { unitHeads } from './unit-heads.ts';

/** One place of an account: its lines and the sum that closes it. */
export const placeText = (account: Account, { id, name, kind }: Place, units: UnitSystem): string => {
  const names = nameOf(account.survey);
  const { air, heat } = unitHeads(units);
  const { entries, sum } = placeLedger(account, id);
  const rows = entries.map(({ line, direction, other, ...values }) => [
    direction === 'in' ? 'from' : 'to',
    names(other),
    wording(line),
    line.air_kgs === 0 ? '' : columnNumber(values.air_m3s, 'airflow', units, 1),
    columnNumber(line.share, 'ratio', units, 1),
    line.air_kgs === 0 ? '' : columnNumber(values.mean_m3s, 'airflow', units, 1),
    columnNumber(values.sensible_W, 'power', units, 1),
    columnNumber(values.latent_W, 'power', units, 1),
  ]);
  const closing = [
    '',
    'adds up to',
    '',
    '',
    '',
    columnNumber(sum.mean_m3s, 'airflow', units, 1),
    columnNumber(sum.sensible_W, 'power', units, 1),
    columnNumber(sum.latent_W, 'power', units, 1),
  ];
  const columns = [
    left(''),
    left('place'),
    left('what'),
    right('air', air),
    right('of hour', '%'),
    right('mean air', air),
    right('sensible', heat),
    right('latent', heat),
  ];
  return `${paint('bold', name)} (${kind} ${id})\n${table(columns, [...rows, closing])}`;
};

/** Cause of a line, with what it is where that says more. */
const wording = ({ what, cause }: LedgerLine): string =>
  what === cause || what === 'air' ? cause : `${cause}: ${what}`;
