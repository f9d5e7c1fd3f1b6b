import { type AirHandler, type AirSystem, type Equipment, type Mode, toSi } from '@airledger/engine';
import { parseFanPoint } from '../compound.ts';
import type { JobSystem } from '../schema/job-schema.ts';
import { filterDrop, leaksFrom, partFrom } from './parts.ts';
import { soundly } from './plan.ts';
import { type Fallback, type Surveyor, usually, usualValue } from './surveyor.ts';
import { defaultOf, fanOf } from './tables.ts';

type Airflows = Readonly<Record<Mode, number>>;

const equipmentFrom = (path: string, system: JobSystem, survey: Surveyor): Equipment => {
  const { kind, heating, cooling } = system.equipment;
  const isHeatPump = kind === 'heat pump';
  const total_W =
    cooling === undefined ? undefined : survey.required(`${path}/cooling/total`, cooling.total, 'capacity');
  const rise = (): { low: number; high: number } => {
    survey.quantity(
      `${path}/heating/temperatureRise`,
      heating?.temperatureRise,
      'temperatureDifference',
      usually('equipment.rise'),
    );
    const fact = survey.facts[`${path}/heating/temperatureRise`]!;
    return { low: fact.low ?? fact.value!, high: fact.high ?? fact.value! };
  };
  return {
    kind,
    ...(heating && {
      heating: {
        output_W: survey.required(`${path}/heating/output`, heating.output, 'power'),
        supplementary_W: survey.quantity(
          `${path}/heating/supplementary`,
          heating.supplementary,
          'electricPower',
          usually('equipment.supplementary'),
        ),
        byOutdoorTemperature: isHeatPump,
        ...(!isHeatPump && { rise_K: rise() }),
      },
    }),
    ...(cooling &&
      total_W !== undefined && {
        cooling: {
          total_W,
          sensibleHeatRatio: survey.quantity(
            `${path}/cooling/sensibleHeatRatio`,
            cooling.sensibleHeatRatio,
            'ratio',
            usually('equipment.sensibleHeatRatio'),
          ),
          ratedAirflow_m3s: survey.quantity(`${path}/cooling/ratedAirflow`, cooling.ratedAirflow, 'airflow', {
            value: total_W * usualValue('equipment.airflow', 'airflowPerPower'),
            source: `${defaultOf('equipment.airflow').value}; ${defaultOf('equipment.airflow').source}`,
          }),
        },
      }),
  };
};

/** Heat that a cubic metre of ordinary air takes up for each kelvin, J/(m³·K). */
const airHeat = 1.2 * 1006;

/** Airflow a system is meant to move: typed, else that of the cooling rating, else the middle of the furnace's rise. */
const designAirflow = (path: string, system: JobSystem, equipment: Equipment, survey: Surveyor): Airflows => {
  const { heating, cooling } = equipment;
  const byRise =
    heating?.rise_K === undefined
      ? undefined
      : (heating.output_W / (airHeat * (heating.rise_K.low + heating.rise_K.high))) * 2;
  const usual: Fallback = {
    value: cooling?.ratedAirflow_m3s ?? byRise ?? toSi('airflow', 1000, 'cfm'),
    source: cooling ? 'rated airflow of the cooling' : 'middle of the temperature-rise window',
  };
  return {
    heating: survey.quantity(`${path}/airflow/heating`, system.airflow?.heating, 'airflow', usual),
    cooling: survey.quantity(`${path}/airflow/cooling`, system.airflow?.cooling, 'airflow', usual),
  };
};

type FanPoints = readonly (readonly [flow_m3s: number, rise_Pa: number])[];

/** Usual fan of a motor, scaled to the airflow of the system. */
const usualTable = (motor: string, airflow_m3s: number): FanPoints =>
  fanOf(motor).points.map(([share, rise]): readonly [number, number] => [
    share! * airflow_m3s,
    toSi('pressure', rise!, 'in.wc'),
  ]);

const dropAt = (flow: number, drop: AirHandler['coil']): number =>
  drop.drop_Pa * (flow / drop.flow_m3s) ** drop.exponent;

const airHandlerFrom = (
  path: string,
  system: JobSystem,
  equipment: Equipment,
  airflow: Airflows,
  survey: Surveyor,
): AirHandler => {
  const { zone, fan = {}, filter = {}, coil = {}, leaks = [] } = system.airHandler;
  const greater = Math.max(airflow.heating, airflow.cooling);
  const coilDrop = {
    drop_Pa: survey.quantity(
      `${path}/coil/drop`,
      coil.drop,
      'pressure',
      equipment.cooling ? usually('coil.drop') : { text: '0 in.wc', source: 'no coil' },
    ),
    flow_m3s: survey.quantity(`${path}/coil/at`, coil.at, 'airflow', {
      value: airflow.cooling,
      source: 'design airflow',
    }),
    exponent: survey.quantity(`${path}/coil/exponent`, coil.exponent, 'number', usually('coil.exponent')),
  };
  // A grille with a filter takes the place of a filter at the air handler that nobody mentions.
  const filteredAtGrille =
    system.airHandler.filter === undefined && system.parts.some((part) => part.terminal?.filter);
  const filtering = filterDrop(
    `${path}/filter`,
    filteredAtGrille ? { name: 'none' } : filter,
    greater,
    undefined,
    survey,
  );
  const motor = survey.word(`${path}/fan/motor`, fan.motor, 'PSC', 'common practice, no source');
  const included = fan.tableIncludes ?? [];
  const tableOf = (mode: Mode): FanPoints => {
    // With one typed table, the other mode runs at the same speed.
    const typed = fan[`${mode}Table`] ?? fan.coolingTable ?? fan.heatingTable;
    if (!typed) {
      survey.word(`${path}/fan/${mode}Table`, undefined, `usual ${motor} fan`, fanOf(motor).source);
      return usualTable(motor, greater);
    }
    return typed
      .map((text) => soundly(text, parseFanPoint))
      .map(([flow, rise]): readonly [number, number] => [
        flow,
        rise +
          (included.includes('coil') ? dropAt(flow, coilDrop) : 0) +
          (included.includes('filter') ? dropAt(flow, filtering) : 0),
      ])
      .sort(([a], [b]) => a - b);
  };
  const held = (mode: Mode): number =>
    survey.quantity(`${path}/fan/holds/${mode}`, fan.holds?.[mode], 'airflow', {
      value: airflow[mode],
      source: 'design airflow',
    });
  return {
    id: `${system.id}/air-handler`,
    zone,
    fan: {
      tables: { heating: tableOf('heating'), cooling: tableOf('cooling') },
      ...(motor === 'constant flow' && {
        constantFlow_m3s: { heating: held('heating'), cooling: held('cooling') },
      }),
      running: fan.running ?? true,
      power_Wsm3: survey.quantity(`${path}/fan/power`, fan.power, 'fanPower', usually(`fan.power.${motor}`)),
      ratedExternalStatic_Pa: survey.quantity(
        `${path}/fan/ratedStatic`,
        fan.ratedStatic,
        'pressure',
        usually('fan.ratedStatic'),
      ),
    },
    filter: filtering,
    coil: coilDrop,
    coilExternal: coil.external ?? equipment.kind === 'furnace with air conditioner',
    leaks: leaksFrom(path, `${system.id}/air-handler`, zone, leaks, survey),
  };
};

/** Leakage to spread: as tested, else the usual share on a side on which nothing at all is said of leaks. */
const spreadLeakage = (
  path: string,
  system: JobSystem,
  airflow_m3s: number,
  survey: Surveyor,
): AirSystem['spreadLeakage'] => {
  const tested = (system.leakage ?? []).map((leakage, i) => ({
    side: leakage.side,
    flow25_m3s: survey.required(`${path}/leakage/${i}/flow`, leakage.flow, 'airflow'),
    exponent: survey.quantity(
      `${path}/leakage/${i}/exponent`,
      leakage.exponent,
      'number',
      usually('leak.exponent'),
    ),
  }));
  const silent = (['supply', 'return'] as const).filter((side) => {
    const parts = system.parts.filter((part) => part.side === side);
    return (
      !tested.some((leakage) => leakage.side === side) &&
      parts.length > 0 &&
      parts.every((part) => part.leaks === undefined)
    );
  });
  if (silent.length > 0) {
    const { value, source } = defaultOf('leakage.share');
    const typed = `${value} of the design airflow at 25 Pa, ${silent.join(' and ')}`;
    survey.word(`${path}/leakage`, undefined, typed, source);
  }
  return [
    ...tested,
    ...silent.map((side) => ({
      side,
      flow25_m3s: airflow_m3s * usualValue('leakage.share', 'ratio'),
      exponent: usualValue('leak.exponent', 'number'),
    })),
  ];
};

/** One system in SI, its defaults filled in. */
export const systemFrom = (system: JobSystem, survey: Surveyor): AirSystem => {
  const path = `systems/${system.id}`;
  const equipment = equipmentFrom(`${path}/equipment`, system, survey);
  const airflow = designAirflow(path, system, equipment, survey);
  const greater = Math.max(airflow.heating, airflow.cooling);
  return {
    id: system.id,
    name: system.name ?? system.id.replaceAll('-', ' '),
    thermostatRoom: system.thermostatRoom,
    equipment,
    airHandler: airHandlerFrom(`${path}/airHandler`, system, equipment, airflow, survey),
    designAirflow_m3s: airflow,
    parts: system.parts.map((part) => partFrom(path, part, greater, survey)),
    spreadLeakage: spreadLeakage(path, system, greater, survey),
  };
};
