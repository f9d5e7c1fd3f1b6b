import type { Air } from '../air/types.ts';
import type { WeatherYear } from '../climate/read-weather-file.ts';
import type { Fuel } from '../survey/season.ts';
import type { Mode } from '../survey/types.ts';

/**
 * A year in fewer hours: whole days of a full year, each for as many days as its weight says.
 * Made by `shortYear`; `season` takes it in place of a full year.
 */
export type ShortYear = {
  readonly kind: 'short';
  readonly year: WeatherYear;
  /** Index of each day in the year, 0 to 364, in the order of the calendar, and how many days it stands for. */
  readonly days: readonly { readonly day: number; readonly weight: number }[];
};

export type SeasonOptions = {
  /** What the house is made of inside, as it holds heat; light to medium when not given. */
  readonly mass?: MassClass;
  /** How sheltered the house stands from wind: 1 open ground … 5 hemmed in; 3 when not given. */
  readonly shelter?: 1 | 2 | 3 | 4 | 5;
  /** Price and emission tables in place of the shipped ones. */
  readonly emission_kgJ?: Readonly<Partial<Record<Fuel, number>>>;
  /** Departure from the set point that counts as discomfort, K; 1.5 when not given. */
  readonly tolerance_K?: number;
  /** The air of each mode where it is known already (from `account`), so that it is not solved again. */
  readonly air?: Readonly<Partial<Record<Mode, Air>>>;
  /** Called for every hour that is kept, for charts and tests. */
  readonly onHour?: (hour: SeasonHour) => void;
};

export type MassClass = 'very light' | 'light' | 'medium' | 'heavy';

/** One hour as it was solved. Heat is positive into rooms and air. */
export type SeasonHour = {
  readonly index: number;
  readonly month: number;
  /** Hours of the year that it stands for: 1 in a full year. */
  readonly weight: number;
  readonly mode: 'heating' | 'cooling' | 'off';
  readonly outdoor_C: number;
  /** By room, then zone, in the order of the survey. */
  readonly temperature_C: readonly number[];
  readonly humidityRatio: readonly number[];
  /** Part of the hour in which the fans run. */
  readonly share: number;
  /** Mean over the hour by system, W: sensible into the air, latent taken out, fan, and input by use. */
  readonly systems: readonly {
    readonly output_W: number;
    readonly latent_W: number;
    readonly fan_W: number;
    readonly supplementary_W: number;
    readonly input_W: number;
  }[];
  /** What the balance of the hour lacks, W, and the heat that passed through the house, W. */
  readonly residual_W: number;
  readonly throughput_W: number;
};

/** What a house does in a year. All sums are over the whole year, also from a short year. */
export type Season = {
  readonly survey: string;
  readonly state: string;
  readonly place: string;
  readonly hours: number;
  /** Twelve, January first. */
  readonly months: readonly SeasonMonth[];
  readonly energy: SeasonEnergy;
  readonly byFuel: readonly FuelUse[];
  readonly cost: number;
  readonly emission_kg: number;
  /** Delivered to rooms over given by the air handlers through the year; NaN in a mode that never ran. */
  readonly distributionEfficiency: { readonly heating: number; readonly cooling: number };
  readonly rooms: readonly RoomComfort[];
  readonly zones: readonly ZoneSeason[];
  readonly condensation: readonly CondensationHours[];
  readonly systems: readonly SystemSeason[];
  /** Greatest residual of an hour over the heat that passed in it. */
  readonly worstClosure: number;
  readonly notes: readonly string[];
};

/** Energy of a span of time, J. */
export type SeasonEnergy = {
  /** Sensible heat that the equipment gave to and took from the air, latent taken out. All positive. */
  readonly heatGiven_J: number;
  readonly coolingGiven_J: number;
  readonly latent_J: number;
  /** What of it arrived in rooms. */
  readonly heatDelivered_J: number;
  readonly coolingDelivered_J: number;
  /** Input by use: fuel or electricity of the heating equipment, strips, compressor in cooling, fans. */
  readonly heating_J: number;
  readonly supplementary_J: number;
  readonly cooling_J: number;
  readonly fan_J: number;
  /** Hours in which the fans ran. */
  readonly heating_h: number;
  readonly cooling_h: number;
};

export type SeasonMonth = SeasonEnergy & {
  readonly month: number;
  readonly mean_C: number;
  readonly byFuel_J: Readonly<Record<Fuel, number>>;
  readonly cost: number;
  readonly emission_kg: number;
};

export type FuelUse = {
  readonly fuel: Fuel;
  readonly energy_J: number;
  /** With its standing charge when any of it is used. */
  readonly cost: number;
  readonly emission_kg: number;
};

export type RoomComfort = {
  readonly room: string;
  readonly name: string;
  /** Hours in which the room lies below the heating set point, or above the cooling one, by more than the tolerance. */
  readonly tooCold_h: number;
  readonly tooWarm_h: number;
  /** Degree-hours beyond the tolerance, K·h. */
  readonly tooCold_Kh: number;
  readonly tooWarm_Kh: number;
  readonly coldest_C: number;
  readonly warmest_C: number;
};

export type ZoneSeason = {
  readonly zone: string;
  readonly name: string;
  readonly coldest_C: number;
  readonly warmest_C: number;
  readonly mean_C: number;
};

/** Hours of running in which the outside of a duct, or of a boot, lies below the dew point of the air around it. */
export type CondensationHours = {
  readonly system: string;
  readonly part: string;
  readonly name: string;
  readonly what: 'duct' | 'boot';
  readonly hours: number;
};

export type SystemSeason = {
  readonly system: string;
  readonly name: string;
  /** Hours in which all it has did not hold the set point. */
  readonly shortHeating_h: number;
  readonly shortCooling_h: number;
  /** Heat given over input, in heating with strips; NaN when it never ran. */
  readonly heatingEfficiency: number;
  /** Total cooling over input without fan. */
  readonly coolingEfficiency: number;
  /** Greatest mean output of an hour, W. */
  readonly peakHeating_W: number;
  readonly peakCooling_W: number;
};
