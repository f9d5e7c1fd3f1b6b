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
