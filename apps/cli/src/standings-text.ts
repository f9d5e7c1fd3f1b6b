import { type Account, formatQuantity, type UnitSystem } from '@airledger/engine';
import { columnNumber } from '@airledger/report/column-number';
import { nameOf } from '@airledger/report/place-names';
import { paint } from './paint.ts';
import { left, right, table } from './table.ts';
import { unitHeads } from './unit-heads.ts';

/** How rooms and systems stand, as two tables. */
export const standingsText = (account: Account, units: UnitSystem): string =>
  [roomsText(account, units), systemsText(account, units)].join('\n\n');

const roomsText = ({ rooms, house }: Account, units: UnitSystem): string => {
  const { air, heat, temperature } = unitHeads(units);
  const share = (gets: number, needs: number) =>
    needs > 0 ? columnNumber(gets / needs, 'ratio', units) : '—';
  const rows = rooms.map((room) => [
    room.name,
    room.room,
    columnNumber(room.load_W, 'power', units),
    columnNumber(room.forcedLoad_W, 'power', units),
    columnNumber(room.ductLoss_W, 'power', units),
    columnNumber(room.needed_m3s, 'airflow', units),
    columnNumber(room.delivered_m3s, 'airflow', units),
    share(room.delivered_m3s, room.needed_m3s),
    columnNumber(room.arrives_C, 'temperature', units),
    columnNumber(room.predicted_C, 'temperature', units),
    columnNumber(room.pressure_Pa, 'pressure', 'si'),
    columnNumber(room.pressureToHall_Pa, 'pressure', 'si'),
  ]);
  const whole = [
    'House',
    '',
    columnNumber(house.load_W, 'power', units),
    columnNumber(
      rooms.reduce((sum, room) => sum + room.forcedLoad_W, 0),
      'power',
      units,
    ),
    columnNumber(house.ductLoss_W, 'power', units),
    columnNumber(house.needed_m3s, 'airflow', units),
    columnNumber(house.delivered_m3s, 'airflow', units),
    share(house.delivered_m3s, house.needed_m3s),
    '',
    '',
    columnNumber(house.pressureToOutdoors_Pa, 'pressure', 'si'),
    '',
  ];
  const columns = [
    left('Room'),
    left('id'),
    right('load', heat),
    right('forced', heat),
    right('duct loss', heat),
    right('needs', air),
    right('gets', air),
    right('of need', '%'),
    right('arrives', temperature),
    right('predicted', temperature),
    right('to outdoors', 'Pa'),
    right('past doors', 'Pa'),
  ];
  return `${paint('bold', 'Rooms')}: sensible load without ducts; what running fans and leaky ducts add to it (forced); what the ducts lose.\n${table(columns, [...rows, whole])}`;
};

const systemsText = ({ systems, survey }: Account, units: UnitSystem): string => {
  const show = (si: number, dimension: Parameters<typeof formatQuantity>[1], digits?: number) =>
    formatQuantity(si, dimension, units, digits);
  const name = nameOf(survey);
  const texts = systems.map((system, s) => {
    const leak = (total: number, outside: number) =>
      `${show(total, 'airflow')} (${show(system.fanFlow_m3s > 0 ? total / system.fanFlow_m3s : 0, 'ratio', 1)} of fan flow), ${show(outside, 'airflow')} of it beyond the envelope`;
    const facts: readonly (readonly [string, string])[] = [
      [
        'fan moves',
        `${show(system.fanFlow_m3s, 'airflow')}; meant to move ${show(system.designAirflow_m3s, 'airflow')}`,
      ],
      [
        'external static',
        `${show(system.externalStatic_Pa, 'pressure')}; rated up to ${show(system.ratedExternalStatic_Pa, 'pressure')}${system.fanAtLimit ? '; the motor is at its limit' : ''}`,
      ],
      ['supply leaks, operating', leak(system.supplyLeak_m3s, system.supplyLeakOutside_m3s)],
      ['return leaks, operating', leak(system.returnLeak_m3s, system.returnLeakOutside_m3s)],
      [
        'leakage at 25 Pa',
        `supply ${show(system.supplyLeak25_m3s, 'airflow')}, return with air handler ${show(system.returnLeak25_m3s, 'airflow')}`,
      ],
      [
        'returns and leaves at',
        `${show(system.returnsAt_C, 'temperature')} → ${show(system.leavesAt_C, 'temperature')}`,
      ],
      [
        'sensible output',
        [
          `${show(system.capacity_W, 'power')} while it runs, ${show(system.runFraction, 'ratio', 1)} of the hour`,
          ...(system.supplementary_W > 0
            ? [
                `supplementary heat ${show(system.supplementaryFraction, 'ratio')} of ${show(system.supplementary_W, 'power')}`,
              ]
            : []),
          ...(system.short ? ['its thermostat’s room still misses the set point'] : []),
        ].join('; '),
      ],
      ['delivery efficiency', `${show(system.deliveryEfficiency, 'ratio', 1)} of its heat arrives in rooms`],
    ];
    const wide = Math.max(...facts.map(([label]) => label.length));
    const stands = name(survey.systems[s]!.airHandler.zone);
    return `${paint('bold', system.name)} (system ${system.system}, air handler in ${stands})\n${facts.map(([label, text]) => `  ${label.padEnd(wide)}  ${text}`).join('\n')}`;
  });
  return texts.join('\n\n');
};
