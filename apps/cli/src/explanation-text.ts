import type { Survey, UnitSystem } from '@airledger/engine';
import { columnNumber } from '@airledger/report/column-number';
import type { Explained } from './explain.ts';
import { paint } from './paint.ts';
import { left, right, table } from './table.ts';
import { unitHeads } from './unit-heads.ts';

/** Why rooms are short, one table a room, largest cause first; the parts add up to the shortage. */
export const explanationText = (survey: Survey, explained: readonly Explained[], units: UnitSystem): string =>
  [
    paint('bold', `${survey.name} · ${survey.state}`),
    ...(explained.length === 0 ? ['Every room gets the air that it needs.'] : []),
    ...explained.map((one) => roomText(one, units)),
  ].join('\n\n');

const roomText = ({ mode, name, explanation }: Explained, units: UnitSystem): string => {
  const { air } = unitHeads(units);
  const number = (flow: number) => columnNumber(flow, 'airflow', units, 1);
  const ranged = 'shortageRange_m3s' in explanation ? explanation : undefined;
  const range = (ends: { readonly low: number; readonly high: number } | undefined) =>
    ends ? [`${number(ends.low)} to ${number(ends.high)}`] : [];
  const rows = [
    ...(ranged
      ? ranged.causes.map((cause) => [
          sentence(cause.what),
          number(cause.air_m3s),
          ...range({ low: cause.low_m3s, high: cause.high_m3s }),
        ])
      : explanation.causes.map((cause) => [sentence(cause.what), number(cause.air_m3s)])),
    [
      'Size and length of its ducts, and the fan',
      number(explanation.layout_m3s),
      ...range(ranged?.layoutRange_m3s),
    ],
    ['Short of air by', number(explanation.shortage_m3s), ...range(ranged?.shortageRange_m3s)],
  ];
  const columns = [left('Cause'), right('takes', air), ...(ranged ? [right('range', '90 %')] : [])];
  return `${paint('bold', `${name}, ${mode} day`)} (room ${explanation.room})\n${table(columns, rows)}`;
};

const sentence = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
