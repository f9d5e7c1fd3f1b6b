import type { WeatherYear } from '../climate/read-weather-file.ts';

/** What a house burns or draws. */
export type Fuel = 'electricity' | 'natural gas' | 'propane' | 'fuel oil';
export const fuels: readonly Fuel[] = ['electricity', 'natural gas', 'propane', 'fuel oil'];

/** What a season needs beside the design survey. `surveyOf` fills it; without it the engine's own defaults stand in. */
export type SeasonSurvey = {
  readonly thermostat: Thermostat;
  /** By system id; a system without an entry gets the usual efficiency of its kind. */
  readonly equipment: Readonly<Record<string, SystemEfficiency>>;
  readonly tariffs: Readonly<Partial<Record<Fuel, Tariff>>>;
};

/** Set points by hour of the day (24 values, 0 is midnight to one), local standard time. */
export type Thermostat = { readonly heating_C: readonly number[]; readonly cooling_C: readonly number[] };

export type SystemEfficiency = {
  readonly heating?: {
    readonly fuel: Fuel;
    /** Heat into the air per input: of a furnace its AFUE; of a heat pump its COP at 47 °F outdoors without indoor fan. */
    readonly efficiency: number;
    /** Part-load degradation C_D of a heat pump: PLF = 1 − C_D·(1 − PLR); 0 for a furnace, whose AFUE holds its cycling. */
    readonly degradation: number;
  };
  readonly cooling?: {
    /** Total cooling per input at 95 °F outdoors and 67 °F wet bulb entering, without indoor fan. */
    readonly cop: number;
    readonly degradation: number;
  };
};

/** Price of a fuel. Money is in the currency of the job; energy is what the meter counts, J (of a fuel: higher heating value). */
export type Tariff = {
  /** Each month, used or not. */
  readonly standing_perMonth: number;
  /** What the rest of the house draws in a month, J: it fills the lower blocks first. */
  readonly otherUse_J: number;
  readonly price:
    | { readonly kind: 'flat'; readonly price_perJ: number }
    /** Monthly blocks from the first joule on; the last has no end. */
    | {
        readonly kind: 'tiered';
        readonly blocks: readonly { readonly upTo_J: number; readonly price_perJ: number }[];
      }
    /** Hours that no period covers cost `otherwise_perJ`. */
    | {
        readonly kind: 'time of use';
        readonly otherwise_perJ: number;
        readonly periods: readonly TariffPeriod[];
      };
};

export type TariffPeriod = {
  /** 1 to 12. */
  readonly months: readonly number[];
  /** Hours of the day from `from` up to `to`, 0 to 24; past midnight when `to` is smaller. */
  readonly from: number;
  readonly to: number;
  /** A typical year has no weekdays: five sevenths of the energy then counts in the period, the rest outside. */
  readonly weekdaysOnly: boolean;
  readonly price_perJ: number;
};

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
  /** Hours in a season of heating or cooling in which the room is further than the tolerance from the set point. */
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
