import type { WeatherYear } from '../climate/read-weather-file.ts';
import { latentHeat_Jkg } from '../heat/terms.ts';
import { designAir } from '../loads/air-states.ts';
import { specificHeat, standardPressure_Pa } from '../psychrometrics/air-properties.ts';
import { humidityRatioFromDewPoint } from '../psychrometrics/humidity-ratio.ts';
import type { Fuel, SeasonSurvey } from '../survey/season.ts';
import { type Mode, modes, type Survey } from '../survey/types.ts';
import { Comfort, usualTolerance_K } from './comfort.ts';
import { DuctSurfaces } from './duct-surfaces.ts';
import { coolingEquipment, heatingEquipment } from './equipment-hour.ts';
import { fanState } from './fan-state.ts';
import { freshAir } from './fresh-air.ts';
import { groundYear } from './ground-year.ts';
import { type Drive, HourSolver, type Operation, type Outcome } from './hour-solver.ts';
import { houseNetwork, type SunTerm } from './house-network.ts';
import { MoistureSolver } from './moisture-solver.ts';
import { billOf, emptyMonths, type MonthSums } from './months.ts';
import type { Season, SeasonHour, SeasonOptions, ShortYear, SystemSeason } from './types.ts';
import { seasonSurvey, usualEmission_kgJ } from './usual-season.ts';

const hour_s = 3600;
/** An hour whose balance is further off than this is a fault of the program. */
const closes = 1e-6;
/** Days run before the first that counts, so that what the house is made of has forgotten where it began. */
const warmUpDays = 4;

/** One stretch of hours run in a row: from day to day of the year, and for how many days each counts (0: none yet). */
type Stretch = { readonly day: number; readonly weight: number };

/** A full year after some of its last days; a short year with each of its days run three times over, the last counting. */
const stretches = (year: WeatherYear | ShortYear): Stretch[] => {
  if ('kind' in year)
    return year.days.flatMap(({ day, weight }) => [
      { day, weight: 0 },
      { day, weight: 0 },
      { day, weight },
    ]);
  const days = year.dryBulb_C.length / 24;
  return [
    ...Array.from({ length: warmUpDays }, (_, d) => ({
      day: (days - warmUpDays + d + days) % days,
      weight: 0,
    })),
    ...Array.from({ length: days }, (_, day) => ({ day, weight: 1 })),
  ];
};

/**
 * A year of one house: the air solved once for each mode, the heat balance solved exactly for every hour (rooms, zones,
 * their mass, ducts), equipment by outdoor temperature and airflow, moisture, energy, cost, emission, comfort.
 *
 * @param year hours of a TMY3 file (`readWeatherFile`), a made-up year (`yearOfSite`, `yearFromNormals`), or a short one
 * @throws Error when an hour does not close to 1e-6 of the heat that passed in it (a fault of the program)
 */
export function season(survey: Survey, year: WeatherYear | ShortYear, options: SeasonOptions = {}): Season {
  const weather = 'kind' in year ? year.year : year;
  const run = prepare(survey, weather, options);
  for (const { day, weight } of stretches(year))
    for (let hour = 0; hour < 24; hour++) run.hour(day * 24 + hour, weight);
  return run.result('kind' in year);
}

/** What is known of one system's hours. */
type SystemSums = {
  shortHeating_h: number;
  shortCooling_h: number;
  heat_J: number;
  heatInput_J: number;
  cold_J: number;
  coldInput_J: number;
  peakHeating_W: number;
  peakCooling_W: number;
};

function prepare(survey: Survey, weather: WeatherYear, options: SeasonOptions) {
  const known = seasonSurvey(survey);
  const { indoor } = designAir(survey, 'heating');
  const specificHeat_JkgK = specificHeat(indoor.humidityRatio);
  const house = houseNetwork(survey, weather, options.mass);
  const operations = operationsOf(survey, known, options);
  const groups = groupsOf(survey);
  const solver = new HourSolver(
    house,
    operations,
    groups,
    groups.map((members) => house.places.indexOf(survey.systems[members[0]!]!.thermostatRoom)),
    specificHeat_JkgK,
    (survey.indoor.heating_C + survey.indoor.cooling_C) / 2,
    survey.systems.length,
  );
  const states = Object.values(operations).map(({ state }) => state);
  const moisture = new MoistureSolver(
    [...survey.rooms, ...survey.zones].map(({ volume_m3 }) => volume_m3),
    survey.rooms.length,
    survey.rooms.reduce((sum, room) => sum + room.internalLatent_W, 0),
    indoor.density_kgm3,
    states,
    indoor.humidityRatio,
  );
  const breathe = freshAir(survey, indoor.density_kgm3, options.shelter);
  const ground = groundYear(weather);
  const comfort = new Comfort(survey, options.tolerance_K ?? usualTolerance_K);
  const surfaces = operations.cooling && new DuctSurfaces(survey, operations.cooling.state, house.places);
  const months = emptyMonths();
  const systems = survey.systems.map(
    (): SystemSums => ({
      shortHeating_h: 0,
      shortCooling_h: 0,
      heat_J: 0,
      heatInput_J: 0,
      cold_J: 0,
      coldInput_J: 0,
      peakHeating_W: 0,
      peakCooling_W: 0,
    }),
  );
  const n = house.places.length;
  const count = survey.systems.length;
  const drive: Drive = {
    outdoor_C: 0,
    ground_C: 0,
    edge_C: 0,
    outdoorHumidity: 0,
    heating_C: 0,
    cooling_C: 0,
    air_W: new Float64Array(n),
    mass_W: new Float64Array(n),
    fresh: { still_kgs: new Float64Array(n), running_kgs: new Float64Array(n) },
  };
  const dried_kgs = new Float64Array(count);
  const input_W = new Float64Array(count);
  const whileOn_W: number[] = survey.systems.map(() => 0);
  let hours = 0;
  let worstClosure = 0;

  const driveBy = (index: number) => {
    const hour = weather.hour[index]!;
    drive.outdoor_C = weather.dryBulb_C[index]!;
    drive.ground_C = ground.deep_C[index]!;
    drive.edge_C = ground.edge_C[index]!;
    drive.outdoorHumidity = humidityRatioFromDewPoint(
      weather.dewPoint_C[index]!,
      weather.pressure_Pa[index]!,
    );
    drive.heating_C = known.thermostat.heating_C[hour]!;
    drive.cooling_C = known.thermostat.cooling_C[hour]!;
    for (let i = 0; i < n; i++) {
      // Half of what people and appliances give warms the air at once, half what the room is made of (ISO 13790:2008).
      const people_W = house.people_W[i]!;
      drive.air_W[i] = house.steady_W[i]! + people_W / 2 + sunOf(house.wallSun[i]!, index);
      drive.mass_W[i] = people_W / 2 + sunOf(house.glassSun[i]!, index);
    }
  };

  const hour = (index: number, weight: number): void => {
    driveBy(index);
    const mode = solver.outcome.mode;
    breathe(
      drive.outdoor_C,
      meanRoom_C(solver.air_C, house.rooms),
      weather.wind_ms[index]!,
      mode === 'off' ? undefined : operations[mode]!.state,
      drive.fresh,
    );
    const outcome = solver.step(drive, moisture.humidityRatio);
    inputsOf(survey, known, outcome, dried_kgs, input_W);
    moisture.step(outcome.mode, outcome.share, dried_kgs, drive.outdoorHumidity, drive.fresh);
    const closure = Math.abs(outcome.residual_W) / Math.max(1, outcome.throughput_W);
    if (!(closure <= closes))
      throw new Error(
        `Hour ${index} of the year does not close: ${outcome.residual_W} W of ${outcome.throughput_W} W.`,
      );
    if (weight === 0) return;
    hours += weight;
    worstClosure = Math.max(worstClosure, closure);
    comfort.count(weight, outcome.temperature_C, drive.heating_C, drive.cooling_C);
    tally(index, weight, outcome);
  };

  const tally = (index: number, weight: number, outcome: Outcome): void => {
    const month = months[weather.month[index]! - 1]!;
    const hourOfDay = weather.hour[index]!;
    const time_s = weight * hour_s;
    month.hours += weight;
    month.outdoor_Ch += weight * drive.outdoor_C;
    const { mode, share } = outcome;
    const hourly: SeasonHour['systems'][number][] = [];
    if (mode !== 'off') {
      const { state } = operations[mode]!;
      const given = deliveredOf(state.delivered, drive.outdoor_C, outcome);
      if (mode === 'heating') {
        month.heatDelivered_J += given * time_s;
        month.heating_h += weight * share;
      } else {
        month.coolingDelivered_J -= given * time_s;
        month.cooling_h += weight * share;
      }
      for (let s = 0; s < count; s++) {
        const fan_W = share * state.fan_W[s]!;
        const latent_W = share * dried_kgs[s]! * latentHeat_Jkg;
        addSystem(month, systems[s]!, mode, s, weight, hourOfDay, fan_W, latent_W, outcome);
        if (options.onHour)
          hourly.push({
            output_W: outcome.output_W[s]! + outcome.supplementary_W[s]!,
            latent_W,
            fan_W,
            supplementary_W: outcome.supplementary_W[s]!,
            input_W: input_W[s]!,
          });
        whileOn_W[s] = share > 0 ? (outcome.output_W[s]! + outcome.supplementary_W[s]!) / share : 0;
      }
      if (mode === 'cooling')
        surfaces?.count(
          weight * share,
          drive.outdoor_C,
          outcome.temperature_C,
          moisture.humidityRatio,
          whileOn_W,
        );
    }
    options.onHour?.({
      index,
      month: weather.month[index]!,
      weight,
      mode,
      outdoor_C: drive.outdoor_C,
      temperature_C: [...outcome.temperature_C],
      humidityRatio: [...moisture.humidityRatio],
      share,
      systems: hourly,
      residual_W: outcome.residual_W,
      throughput_W: outcome.throughput_W,
    });
  };

  const addSystem = (
    month: MonthSums,
    sums: SystemSums,
    mode: Mode,
    s: number,
    weight: number,
    hourOfDay: number,
    fan_W: number,
    latent_W: number,
    outcome: Outcome,
  ): void => {
    const time_s = weight * hour_s;
    const output_W = Math.abs(outcome.output_W[s]!);
    const extra_W = Math.abs(outcome.supplementary_W[s]!);
    const input_J = input_W[s]! * time_s;
    month.fan_J += fan_W * time_s;
    month.use_J.electricity[hourOfDay]! += (fan_W + extra_W) * time_s;
    if (mode === 'heating') {
      const fuel: Fuel = known.equipment[survey.systems[s]!.id]!.heating?.fuel ?? 'electricity';
      month.heatGiven_J += (output_W + extra_W + fan_W) * time_s;
      month.heating_J += input_J;
      month.supplementary_J += extra_W * time_s;
      month.use_J[fuel][hourOfDay]! += input_J;
      sums.heat_J += (output_W + extra_W) * time_s;
      sums.heatInput_J += input_J + extra_W * time_s;
      sums.shortHeating_h += weight * outcome.short[s]!;
      sums.peakHeating_W = Math.max(sums.peakHeating_W, output_W + extra_W);
    } else {
      month.coolingGiven_J += output_W * time_s;
      month.latent_J += latent_W * time_s;
      month.cooling_J += input_J;
      month.use_J.electricity[hourOfDay]! += input_J;
      sums.cold_J += (output_W + latent_W) * time_s;
      sums.coldInput_J += input_J;
      sums.shortCooling_h += weight * outcome.short[s]!;
      sums.peakCooling_W = Math.max(sums.peakCooling_W, output_W);
    }
  };

  const result = (isShort: boolean): Season => {
    const bill = billOf(months, known, (fuel) => options.emission_kgJ?.[fuel] ?? usualEmission_kgJ(fuel));
    const { energy } = bill;
    return {
      survey: survey.name,
      state: survey.state,
      place: weather.place,
      hours,
      ...bill,
      cost: bill.byFuel.reduce((sum, { cost }) => sum + cost, 0),
      emission_kg: bill.byFuel.reduce((sum, { emission_kg }) => sum + emission_kg, 0),
      distributionEfficiency: {
        heating: energy.heatDelivered_J / energy.heatGiven_J,
        cooling: energy.coolingDelivered_J / energy.coolingGiven_J,
      },
      rooms: comfort.rooms(),
      zones: comfort.zones(),
      condensation: surfaces?.hours() ?? [],
      systems: survey.systems.map(({ id, name }, s): SystemSeason => {
        const { heat_J, heatInput_J, cold_J, coldInput_J, ...sums } = systems[s]!;
        return {
          system: id,
          name,
          ...sums,
          heatingEfficiency: heat_J / heatInput_J,
          coolingEfficiency: cold_J / coldInput_J,
        };
      }),
      worstClosure,
      notes: isShort ? [...notes, 'From a short year: whole days that stand for many.'] : notes,
    };
  };
  return { hour, result };
}

const notes: readonly string[] = [
  'Flows are those of the design day; densities through the year are left out.',
  'Heat pump curves carry no defrost; roofs see a clear sky in every hour.',
  'All rooms share one moisture; furnishings count fifteen times their air.',
];

const sunOf = (terms: readonly SunTerm[], index: number): number => {
  let sum = 0;
  for (const { factor, series } of terms) sum += factor * series[index]!;
  return sum;
};

const meanRoom_C = (air_C: Float64Array, rooms: number): number => {
  let sum = 0;
  for (let r = 0; r < rooms; r++) sum += air_C[r]!;
  return sum / rooms;
};

/** Mean heat that registers bring over the hour, W. */
const deliveredOf = (row: Float64Array, outdoor_C: number, outcome: Outcome): number => {
  const { temperature_C, share, output_W, supplementary_W } = outcome;
  const n = temperature_C.length;
  let sum = row[n]! * outdoor_C + row[n + 1]!;
  for (let i = 0; i < n; i++) sum += row[i]! * temperature_C[i]!;
  sum *= share;
  for (let s = 0; s < output_W.length; s++) sum += row[n + 2 + s]! * (output_W[s]! + supplementary_W[s]!);
  return sum;
};

/**
 * What each system draws on average over the hour, W, and the water its coil takes out while the fans run, kg/s.
 * Part load costs by PLF = 1 − C_D·(1 − PLR).
 */
function inputsOf(
  survey: Survey,
  known: SeasonSurvey,
  outcome: Outcome,
  dried_kgs: Float64Array,
  input_W: Float64Array,
): void {
  dried_kgs.fill(0);
  input_W.fill(0);
  const { mode, share } = outcome;
  if (mode === 'off') return;
  for (let s = 0; s < survey.systems.length; s++) {
    const capability = outcome.capability[s]!;
    const full_W = Math.abs(capability.sensible_W);
    const part = full_W > 0 ? Math.abs(outcome.output_W[s]!) / full_W : 0;
    if (part === 0) continue;
    const degradation = known.equipment[survey.systems[s]!.id]![mode]?.degradation ?? 0;
    input_W[s] = (capability.input_W * part) / (1 - degradation * (1 - Math.min(1, part)));
    dried_kgs[s] = (capability.latent_W * part) / share / latentHeat_Jkg;
  }
}

/** Systems that answer to one thermostat. */
function groupsOf({ systems }: Survey): number[][] {
  const groups = new Map<string, number[]>();
  systems.forEach(({ thermostatRoom }, s) => {
    groups.set(thermostatRoom, [...(groups.get(thermostatRoom) ?? []), s]);
  });
  return [...groups.values()];
}

/** The air of each mode that some equipment works in, solved once, with its equipment. */
function operationsOf(
  survey: Survey,
  known: SeasonSurvey,
  options: SeasonOptions,
): Partial<Record<Mode, Operation>> {
  const pressure_Pa = standardPressure_Pa(survey.site.elevation_m);
  const operations: Partial<Record<Mode, Operation>> = {};
  for (const mode of modes) {
    const works = survey.systems.some(
      ({ equipment, airHandler }) => equipment[mode] !== undefined && airHandler.fan.running,
    );
    if (!works) continue;
    const state = fanState(survey, mode, options.air?.[mode]);
    operations[mode] = {
      state,
      equipment: survey.systems.map((system, s) => {
        const mass_kgs = state.mass_kgs[s]!;
        const { heating, cooling } = known.equipment[system.id]!;
        if (!(mass_kgs > 0)) return undefined;
        if (mode === 'heating') return heating && heatingEquipment(system, heating, mass_kgs);
        return cooling && coolingEquipment(system, cooling, mass_kgs, pressure_Pa);
      }),
    };
  }
  return operations;
}
