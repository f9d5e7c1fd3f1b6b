import type { SeasonSurvey } from './season.ts';

/**
 * The survey: one house in SI units, checked and with every default filled in.
 * It is what every later stage reads; it never holds a typed string or a unit other than SI.
 * Temperatures are °C (`_C`), differences K (`_K`), pressures Pa gauge, flows m³/s of air at `airDensity_kgm3`.
 */
export type Mode = 'heating' | 'cooling';
/** Both modes, in the order in which they are shown. */
export const modes: readonly Mode[] = ['heating', 'cooling'];

/** How a surveyed value is known, from best to worst. */
export type HowKnown = 'measured' | 'read off' | 'estimated' | 'assumed';

/** What is known about one value of the survey, kept by its path in the job (`systems/main/parts/run-2/insulation`). */
export type Fact = {
  readonly typed: string;
  readonly howKnown: HowKnown;
  /** True when the job is silent and a default stands in. */
  readonly defaulted: boolean;
  readonly source?: string;
  /** SI ends of the range as typed, about 10 and 90 %. */
  readonly low?: number;
  readonly high?: number;
  readonly value?: number;
};

/** One state of one house, whole. */
export type Survey = {
  readonly name: string;
  readonly state: string;
  readonly site: Site;
  readonly indoor: IndoorConditions;
  readonly house: House;
  readonly rooms: readonly Room[];
  readonly zones: readonly BufferZone[];
  readonly surfaces: readonly Surface[];
  readonly doors: readonly Door[];
  readonly transfers: readonly TransferPath[];
  readonly systems: readonly AirSystem[];
  readonly ventilators: readonly Ventilator[];
  readonly leakageTests: readonly LeakageTest[];
  readonly code: CodeChoice;
  /** Thermostat, efficiency and prices of the year; the usual ones stand in where it is absent. */
  readonly season?: SeasonSurvey;
  readonly facts: Readonly<Record<string, Fact>>;
};

/** Where the house stands, and its design weather. */
export type Site = {
  readonly place: string;
  readonly elevation_m: number;
  readonly latitude_deg: number;
  /** Where the design temperatures come from, and which percentile each is. */
  readonly designSource: string;
  readonly heatingDryBulb_C: number;
  readonly heatingPercentile: string;
  readonly coolingDryBulb_C: number;
  readonly coolingWetBulb_C: number;
  readonly coolingPercentile: string;
  readonly dailyRange_K: number;
  /** Ground beside or below the house on the heating design day. */
  readonly groundHeating_C: number;
  readonly groundCooling_C: number;
};

/** What the rooms are to be held at. */
export type IndoorConditions = {
  readonly heating_C: number;
  readonly cooling_C: number;
  readonly coolingRelativeHumidity: number;
  readonly heatingRelativeHumidity: number;
};

/** What holds for the house as a whole. */
export type House = {
  readonly conditionedFloorArea_m2: number;
  readonly bedrooms: number;
  readonly storeys: number;
  /** Height of the conditioned volume, for stack-driven infiltration. */
  readonly height_m: number;
  /** Air leakage of the envelope at 50 Pa, and its exponent. */
  readonly leakage50_m3s: number;
  readonly leakageExponent: number;
  readonly flueArea_cm2: number;
  /** Whether a burner takes its air from the house; absent when nobody has said. */
  readonly combustionInside?: boolean;
  readonly yearBuilt?: number;
};

/** Point on the plan, m from its origin to the right and up. */
export type PlanPoint = readonly [x_m: number, y_m: number];

/** A conditioned space that has a load and may have registers. */
export type Room = {
  readonly id: string;
  readonly name: string;
  readonly storey: number;
  readonly floorArea_m2: number;
  readonly height_m: number;
  readonly volume_m3: number;
  readonly outline_m: readonly PlanPoint[];
  /** Share of the house's envelope leakage that opens out of this room (shares add to 1). */
  readonly envelopeShare: number;
  /** Of that, the share that opens to a buffer zone instead of outdoors (for instance ceiling leaks to the attic). */
  readonly envelopeTo: readonly { readonly zone: string; readonly share: number }[];
  readonly internalSensible_W: number;
  readonly internalLatent_W: number;
  /** Design airflow as typed for this room; absent when it follows from the load. */
  readonly designAirflow_m3s?: { readonly heating?: number; readonly cooling?: number };
};

/** What kind of unconditioned space it is. */
export type BufferZoneKind = 'attic' | 'crawlspace' | 'basement' | 'garage' | 'between floors' | 'chase';

/** A space between house and outdoors that no thermostat holds, with its own balance of heat and air. */
export type BufferZone = {
  readonly id: string;
  readonly name: string;
  readonly kind: BufferZoneKind;
  readonly volume_m3: number;
  /** Natural ventilation with outdoor air on the design day, changes per hour. */
  readonly airChange_perHour: { readonly heating: number; readonly cooling: number };
  /** Power-law opening to outdoors for the pressure balance, m³/(s·Paⁿ). */
  readonly openingCoefficient: number;
  readonly openingExponent: number;
  /** Inside the thermal envelope: its ducts are "inside" for the rules. */
  readonly insideEnvelope: boolean;
  readonly outline_m?: readonly PlanPoint[];
  readonly storey: number;
};

/** What a surface is, which decides how its load is worked out. */
export type SurfaceKind =
  | 'wall'
  | 'ceiling'
  | 'roof'
  | 'floor'
  | 'door'
  | 'window'
  | 'skylight'
  | 'slab'
  | 'below-grade wall'
  | 'below-grade floor'
  | 'partition';

/** A plane between an inside space and what lies beyond it. Rooms and buffer zones both own surfaces. */
export type Surface = {
  readonly id: string;
  readonly name: string;
  readonly kind: SurfaceKind;
  /** Room or buffer zone that owns it. */
  readonly inside: string;
  /** 'outdoors', 'ground', or the id of a room or buffer zone. */
  readonly beyond: string;
  readonly area_m2: number;
  /** Whole-assembly U with films, winter value used for both seasons. */
  readonly u_Wm2K: number;
  /** Direction it faces, degrees clockwise from north; absent for horizontal surfaces. */
  readonly facing_deg?: number;
  readonly sunAbsorptance?: number;
  readonly shaded?: boolean;
  readonly glass?: Glass;
  readonly slab?: {
    readonly edge_m: number;
    readonly edgeLoss_WmK: number;
    readonly coverResistance_m2KW: number;
  };
};

/** What decides the sun through a window or skylight. */
export type Glass = {
  readonly solarHeatGain: number;
  /** Interior-attenuation coefficient of drapes or blinds; 1 when bare. */
  readonly shadeFactor: number;
  /** Exterior screen transmission; 1 when none. */
  readonly screen: number;
  readonly height_m: number;
  readonly overhangDepth_m: number;
  readonly overhangAbove_m: number;
};

/** A door between two spaces, whose opening or undercut passes air. */
export type Door = {
  readonly id: string;
  readonly between: readonly [string, string];
  readonly open: boolean;
  readonly openArea_m2: number;
  /** Undercut and cracks when shut. */
  readonly shutArea_m2: number;
};

/** A path for return air between two rooms: transfer grille or jump duct. */
export type TransferPath = {
  readonly id: string;
  readonly kind: 'transfer grille' | 'jump duct';
  readonly between: readonly [string, string];
  readonly freeArea_m2: number;
  /** Loss on the free area: about 2.8 for an orifice-like grille. */
  readonly lossCoefficient: number;
};

/** A fan that moves outdoor air, with or without recovery. */
export type Ventilator = {
  readonly id: string;
  readonly kind: 'exhaust' | 'supply' | 'balanced';
  /** Room it serves, or the return part it is tied to. */
  readonly room?: string;
  readonly returnPart?: string;
  readonly flow_m3s: number;
  readonly sensibleRecovery: number;
  readonly latentRecovery: number;
  readonly running: boolean;
};

/** Leakage that a duct tester found at 25 Pa. */
export type LeakageTest = {
  readonly id: string;
  readonly system: string;
  readonly stage:
    | 'rough-in with air handler'
    | 'rough-in without air handler'
    | 'after construction'
    | 'as found';
  readonly place: 'total' | 'outdoors';
  readonly side: 'both' | 'supply' | 'return';
  readonly flow25_m3s: number;
  readonly howKnown: HowKnown;
  /** Of a test that a reading sheet tells: it lies between these with 95 %; the day as typed. */
  readonly reading?: { readonly low_m3s: number; readonly high_m3s: number; readonly when?: string };
};

/** The code that holds at the site, and what the project asks beyond it. */
export type CodeChoice = {
  /** Edition of the energy code that the place has adopted, for instance 'IECC 2018'. */
  readonly edition: string;
  readonly climateZone?: string;
  /** The project's own limit, share of fan flow on each side. */
  readonly supplyLeakageLimit: number;
  readonly returnLeakageLimit: number;
};

/** One air handler with its ducts. */
export type AirSystem = {
  readonly id: string;
  readonly name: string;
  readonly thermostatRoom: string;
  readonly equipment: Equipment;
  readonly airHandler: AirHandler;
  /** Airflow the system is meant to move. */
  readonly designAirflow_m3s: Readonly<Record<Mode, number>>;
  readonly parts: readonly DuctPart[];
  /** Whole-system tested leakage at 25 Pa to spread over parts that state no leak of their own. */
  readonly spreadLeakage: readonly {
    readonly side: 'supply' | 'return';
    readonly flow25_m3s: number;
    readonly exponent: number;
  }[];
};

/** What heats and cools the air of a system. */
export type Equipment = {
  readonly kind: 'furnace with air conditioner' | 'furnace' | 'heat pump' | 'air conditioner';
  readonly heating?: {
    /** Output at the rating point (47 °F outdoors for a heat pump). */
    readonly output_W: number;
    readonly supplementary_W: number;
    readonly byOutdoorTemperature: boolean;
    /** Furnace nameplate window for the temperature rise. */
    readonly rise_K?: { readonly low: number; readonly high: number };
  };
  readonly cooling?: {
    readonly total_W: number;
    readonly sensibleHeatRatio: number;
    readonly ratedAirflow_m3s: number;
  };
};

/** Fan, filter and coil in their cabinet. */
export type AirHandler = {
  readonly id: string;
  /** Zone or room it stands in. */
  readonly zone: string;
  readonly fan: {
    /** Flow against pressure rise across fan, coil and filter excluded, at standard density. */
    readonly tables: Readonly<Record<Mode, readonly (readonly [flow_m3s: number, rise_Pa: number])[]>>;
    readonly constantFlow_m3s?: Readonly<Record<Mode, number>>;
    readonly running: boolean;
    /** Electric power per airflow, W per m³/s. */
    readonly power_Wsm3: number;
    readonly ratedExternalStatic_Pa: number;
  };
  readonly filter: PressureDrop;
  readonly coil: PressureDrop;
  /** True when the coil stands outside the cabinet whose external static is rated (furnace). */
  readonly coilExternal: boolean;
  readonly leaks: readonly Leak[];
};

/** Δp = drop·(Q/flow)^exponent, 1 ≤ exponent < 3. */
export type PressureDrop = { readonly drop_Pa: number; readonly flow_m3s: number; readonly exponent: number };

/** Inside size of a duct. */
export type Section =
  | { readonly shape: 'round'; readonly diameter_m: number }
  | { readonly shape: 'rectangular'; readonly width_m: number; readonly height_m: number }
  | { readonly shape: 'oval'; readonly major_m: number; readonly minor_m: number };

/** A stretch of duct with one section, from where it joins to its far end. */
export type DuctPart = {
  readonly id: string;
  readonly name: string;
  readonly side: 'supply' | 'return';
  readonly role: 'plenum' | 'trunk' | 'run' | 'bypass';
  /** Part it joins on the way to the air handler, or 'air-handler'. */
  readonly joins: string;
  /** Distance along the joined part from its air-handler end; absent: at its far end. */
  readonly joinsAt_m?: number;
  /** A bypass ends on this return part. */
  readonly endsOn?: string;
  readonly section: Section;
  readonly length_m: number;
  readonly material: string;
  readonly roughness_m: number;
  readonly flexible: boolean;
  /** Unstretched excess of flex, 0.15 for 15 % (share of its fully extended length). */
  readonly slack: number;
  /** Labelled (flat-slab) resistance without films; 0 for bare. */
  readonly insulation_m2KW: number;
  readonly jacketEmittance: number;
  /** Zone or room that surrounds it. */
  readonly zone: string;
  readonly buildingCavity: boolean;
  readonly fittings: readonly Fitting[];
  /** Balancing or zone damper: 1 open … 0 shut; absent when there is none. */
  readonly damper?: number;
  readonly leaks: readonly Leak[];
  readonly terminal?: Terminal;
  readonly path_m: readonly PlanPoint[];
  readonly storey: number;
};

/** Bends, takeoffs and the like on a part. */
export type Fitting = {
  readonly id: string;
  readonly kind: string;
  readonly name: string;
  readonly count: number;
  /** Total-pressure loss on the part's own section; may be negative for a converging stream. */
  readonly lossCoefficient?: number;
  /** Given instead of the coefficient; turned into C = f·L/D at design flow. */
  readonly equivalentLength_m?: number;
  /** Tee whose loss follows the split of the flows. */
  readonly followsSplit?: 'converging' | 'diverging';
};

/** What kind of place leaks. */
export type LeakPlace = 'takeoff' | 'joint' | 'seam' | 'boot' | 'plenum' | 'cabinet';

/** A leak to one space, flow = flow25·(Δp / 25 Pa)^exponent at the local static pressure. */
export type Leak = {
  readonly id: string;
  readonly place: LeakPlace;
  /** Where along its part: air-handler end, spread along, or far end. */
  readonly at: 'start' | 'along' | 'end';
  /** Zone or room it opens to. */
  readonly zone: string;
  readonly flow25_m3s: number;
  readonly exponent: number;
};

/** Register or grille at the end of a part. */
export type Terminal = {
  readonly id: string;
  readonly name: string;
  readonly room: string;
  readonly kind: 'register' | 'grille';
  readonly faceArea_m2: number;
  readonly freeArea_m2: number;
  /** Total-pressure loss on the free-area velocity, exit loss included. */
  readonly lossCoefficient: number;
  /** Share of the free area left open by its louvre. */
  readonly open: number;
  /** A filter behind the grille. */
  readonly filter?: PressureDrop;
};
