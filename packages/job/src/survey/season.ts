import {
  type AirSystem,
  type Fuel,
  fuels,
  type IndoorConditions,
  type SeasonSurvey,
  type SystemEfficiency,
  type Tariff,
  type Thermostat,
} from '@airledger/engine';
import { coolingCop, heatingCop } from '@airledger/engine/season/rated-efficiency';
import { usualRow } from '@airledger/engine/season/usual-season';
import type { Job, JobSystem } from '../schema/job-schema.ts';
import type { Fallback, Surveyor } from './surveyor.ts';

const usual = (name: string): Fallback => {
  const { value, source } = usualRow(name);
  return { value, source };
};
const fixed = (value: number, source: string): Fallback => ({ value, source });

/** Whether an hour of the day lies in a span that may pass midnight. */
const inSpan = (hour: number, from: number, to: number): boolean =>
  from <= to ? hour >= from && hour < to : hour >= from || hour < to;

const thermostatOf = (job: Job, indoor: IndoorConditions, survey: Surveyor): Thermostat => {
  const setbacks = (job.season?.setbacks ?? []).map((setback, i) => ({
    from: setback.from,
    to: setback.to,
    heating_C: survey.optional(`season/setbacks/${i}/heating`, setback.heating, 'temperature'),
    cooling_C: survey.optional(`season/setbacks/${i}/cooling`, setback.cooling, 'temperature'),
  }));
  const byHour = (mode: 'heating_C' | 'cooling_C'): number[] =>
    Array.from(
      { length: 24 },
      (_, hour) =>
        setbacks.findLast((one) => one[mode] !== undefined && inSpan(hour, one.from, one.to))?.[mode] ??
        indoor[mode],
    );
  return { heating_C: byHour('heating_C'), cooling_C: byHour('cooling_C') };
};

const efficiencyOf = (system: JobSystem, { equipment }: AirSystem, survey: Surveyor): SystemEfficiency => {
  const path = `systems/${system.id}/equipment`;
  const degradation = usualRow('degradation at part load').value;
  const { heating, cooling } = system.equipment;
  const heats = (): SystemEfficiency['heating'] => {
    if (equipment.heating?.byOutdoorTemperature)
      return {
        fuel: 'electricity',
        efficiency: heatingCop(
          survey.quantity(`${path}/heating/hspf`, heating?.hspf, 'number', usual('heat pump, HSPF')),
        ),
        degradation,
      };
    const fuel = survey.word<Fuel>(
      `${path}/heating/fuel`,
      heating?.fuel,
      'natural gas',
      'common practice, no source',
    );
    const efficiency = survey.quantity(
      `${path}/heating/afue`,
      heating?.afue,
      'ratio',
      fuel === 'electricity' ? fixed(1, 'electric resistance') : usual('furnace, AFUE'),
    );
    return { fuel, efficiency, degradation: 0 };
  };
  return {
    ...(equipment.heating && { heating: heats() }),
    ...(equipment.cooling && {
      cooling: {
        cop: coolingCop(
          survey.quantity(`${path}/cooling/seer`, cooling?.seer, 'number', usual('cooling, SEER')),
        ),
        degradation,
      },
    }),
  };
};

const allMonths = Array.from({ length: 12 }, (_, i) => i + 1);

const tariffOf = (job: Job, fuel: Fuel, survey: Surveyor): Tariff => {
  const { tariffs = [], blocks = [], periods = [] } = job.season ?? {};
  const at = tariffs.findIndex((one) => one.fuel === fuel);
  const typed = tariffs[at];
  // A fuel without an entry is known by its name.
  const path = `season/tariffs/${at < 0 ? fuel.replaceAll(' ', '-') : at}`;
  const price_perJ = survey.quantity(`${path}/price`, typed?.price, 'energyPrice', usual(`${fuel}, price`));
  const ownPrice = (list: 'blocks' | 'periods', i: number, text: Parameters<Surveyor['required']>[1]) =>
    survey.required(`season/${list}/${i}/price`, text, 'energyPrice');
  const ownBlocks = blocks.flatMap((block, i) =>
    block.fuel === fuel
      ? [
          {
            above_J: survey.required(`season/blocks/${i}/above`, block.above, 'energy'),
            price_perJ: ownPrice('blocks', i, block.price),
          },
        ]
      : [],
  );
  const ownPeriods = periods.flatMap((period, i) =>
    period.fuel === fuel
      ? [
          {
            months: allMonths.filter((month) =>
              inSpan(month, period.firstMonth ?? 1, (period.lastMonth ?? 12) + 1),
            ),
            from: period.from,
            to: period.to,
            weekdaysOnly: period.weekdays ?? false,
            price_perJ: ownPrice('periods', i, period.price),
          },
        ]
      : [],
  );
  const rising = ownBlocks.toSorted((a, b) => a.above_J - b.above_J);
  return {
    standing_perMonth: survey.optional(`${path}/standing`, typed?.standing, 'number') ?? 0,
    otherUse_J: survey.optional(`${path}/otherUse`, typed?.otherUse, 'energy') ?? 0,
    price:
      ownPeriods.length > 0
        ? { kind: 'time of use', otherwise_perJ: price_perJ, periods: ownPeriods }
        : rising.length > 0
          ? {
              kind: 'tiered',
              blocks: [{ above_J: 0, price_perJ }, ...rising].map((block, i) => ({
                upTo_J: rising[i]?.above_J ?? Number.POSITIVE_INFINITY,
                price_perJ: block.price_perJ,
              })),
            }
          : { kind: 'flat', price_perJ },
  };
};

/**
 * Thermostat, efficiency and prices of a job for its year. Prices are taken for electricity, for every fuel that some
 * equipment burns, and for what is typed; where a fuel has periods, its blocks do not count.
 */
export const seasonFrom = (
  job: Job,
  indoor: IndoorConditions,
  systems: readonly AirSystem[],
  survey: Surveyor,
): SeasonSurvey => {
  const equipment = Object.fromEntries(
    (job.systems ?? []).map((system, i) => [system.id, efficiencyOf(system, systems[i]!, survey)]),
  );
  const used = new Set<Fuel>([
    'electricity',
    ...Object.values(equipment).flatMap(({ heating }) => (heating ? [heating.fuel] : [])),
    ...(job.season?.tariffs ?? []).map(({ fuel }) => fuel),
  ]);
  return {
    thermostat: thermostatOf(job, indoor, survey),
    equipment,
    tariffs: Object.fromEntries(
      fuels.filter((fuel) => used.has(fuel)).map((fuel) => [fuel, tariffOf(job, fuel, survey)]),
    ),
  };
};
