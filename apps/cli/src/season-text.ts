import {
  displayUnit,
  type Fact,
  formatQuantity,
  type Season,
  type SeasonMonth,
  type UnitSystem,
} from '@airledger/engine';
import { columnNumber } from '@airledger/report/column-number';
import { monthNames } from '@airledger/report/month-names';
import { paint } from './paint.ts';
import { left, right, table } from './table.ts';
import { wrap } from './wrap.ts';

type Input = Fact & { readonly path: string };

/** The year of a house as tables: months, fuels, systems, rooms, ducts that sweat, and what it stands on. */
export const seasonText = (season: Season, inputs: readonly Input[], units: UnitSystem): string =>
  [
    paint('bold', `${season.survey}, ${season.state}: a year at ${season.place}`),
    monthsText(season, units),
    fuelsText(season),
    systemsText(season, units),
    roomsText(season, units),
    ...condensationText(season),
    inputsText(inputs),
    wrap(
      `${season.notes.join(' ')} Every hour closes to ${season.worstClosure.toExponential(0)} of the heat that passed in it.`,
      '',
    ),
  ].join('\n\n');

const share = (part: number, whole: number): string =>
  whole > 0 ? columnNumber(part / whole, 'ratio', 'ip') : '—';

const money = (amount: number): string => columnNumber(amount, 'number', 'ip', 0);

const monthRow = (name: string, month: Omit<SeasonMonth, 'month'>, units: UnitSystem): string[] => [
  name,
  columnNumber(month.mean_C, 'temperature', units),
  columnNumber(month.heatGiven_J, 'energy', units),
  share(month.heatDelivered_J, month.heatGiven_J),
  columnNumber(month.coolingGiven_J, 'energy', units),
  share(month.coolingDelivered_J, month.coolingGiven_J),
  columnNumber(month.latent_J, 'energy', units),
  columnNumber(month.byFuel_J.electricity, 'electricity', units),
  columnNumber(
    month.byFuel_J['natural gas'] + month.byFuel_J.propane + month.byFuel_J['fuel oil'],
    'energy',
    units,
  ),
  money(month.cost),
  money(month.emission_kg),
];

const monthsText = ({ months, ...year }: Season, units: UnitSystem): string => {
  const energy = displayUnit('energy', units);
  const byFuel_J = { electricity: 0, 'natural gas': 0, propane: 0, 'fuel oil': 0 };
  for (const { fuel, energy_J } of year.byFuel) byFuel_J[fuel] = energy_J;
  const mean_C = months.reduce((sum, month) => sum + month.mean_C, 0) / months.length;
  return table(
    [
      left('Month'),
      right('outdoors', displayUnit('temperature', units)),
      right('heat given', energy),
      right('arrives', '%'),
      right('cooling given', energy),
      right('arrives', '%'),
      right('moisture', energy),
      right('electricity', displayUnit('electricity', units)),
      right('fuel', energy),
      right('cost', '$'),
      right('CO₂', 'kg'),
    ],
    [
      ...months.map((month) => monthRow(monthNames[month.month - 1]!, month, units)),
      monthRow('Year', { ...year.energy, ...year, mean_C, byFuel_J }, units),
    ],
  );
};

const fuelsText = ({ byFuel, cost, emission_kg }: Season): string =>
  table(
    [left('Fuel'), right('used'), right('cost', '$'), right('CO₂', 'kg')],
    [
      ...byFuel.map((use) => [
        use.fuel,
        use.fuel === 'electricity'
          ? formatQuantity(use.energy_J, 'electricity', 'ip')
          : `${(use.energy_J / 105.505585262e6).toFixed(0)} therms`,
        money(use.cost),
        money(use.emission_kg),
      ]),
      ['All', '', money(cost), money(emission_kg)],
    ],
  );

const systemsText = ({ systems, energy }: Season, units: UnitSystem): string =>
  [
    table(
      [
        left('System'),
        right('output over input', 'heating'),
        right('output over input', 'cooling'),
        right('greatest hour', `heating, ${displayUnit('power', units)}`),
        right('greatest hour', `cooling, ${displayUnit('power', units)}`),
        right('falls short', 'h heating'),
        right('falls short', 'h cooling'),
      ],
      systems.map((system) => [
        system.name,
        columnNumber(system.heatingEfficiency, 'number', units),
        columnNumber(system.coolingEfficiency, 'number', units),
        columnNumber(system.peakHeating_W, 'power', units),
        columnNumber(system.peakCooling_W, 'power', units),
        columnNumber(system.shortHeating_h, 'number', units, 0),
        columnNumber(system.shortCooling_h, 'number', units, 0),
      ]),
    ),
    `Fans run ${columnNumber(energy.heating_h, 'number', units, 0)} h for heat and ${columnNumber(energy.cooling_h, 'number', units, 0)} h for cooling, and draw ${formatQuantity(energy.fan_J, 'electricity', units)}; supplementary heat ${formatQuantity(energy.supplementary_J, 'electricity', units)}.`,
  ].join('\n');

const roomsText = ({ rooms }: Season, units: UnitSystem): string => {
  const degrees = displayUnit('temperature', units);
  return table(
    [
      left('Room'),
      left('id'),
      right('too cold', 'h'),
      right('too warm', 'h'),
      right('coldest', degrees),
      right('warmest', degrees),
    ],
    rooms.map((room) => [
      room.name,
      room.room,
      columnNumber(room.tooCold_h, 'number', units, 0),
      columnNumber(room.tooWarm_h, 'number', units, 0),
      columnNumber(room.coldest_C, 'temperature', units),
      columnNumber(room.warmest_C, 'temperature', units),
    ]),
  );
};

/** Less than this is a moment after a start. */
const worthNaming_h = 1;

const condensationText = ({ condensation }: Season): string[] => {
  const wet = condensation
    .filter(({ hours }) => hours >= worthNaming_h)
    .toSorted((a, b) => b.hours - a.hours);
  return wet.length === 0
    ? ['No duct and no boot lies below the dew point around it for an hour of running.']
    : [
        table(
          [left('Below the dew point'), left('surface'), right('running', 'h')],
          wet.map(({ name, what, hours }) => [name, what, hours.toFixed(0)]),
        ),
      ];
};

const inputsText = (inputs: readonly Input[]): string =>
  table(
    [left('Stands on'), left('value'), left('known'), left('source')],
    inputs.map(({ path, typed, howKnown, source }) => [path, typed, howKnown, source ?? '']),
  );
