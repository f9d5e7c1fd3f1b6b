import type { Mode } from '../survey/types.ts';

/** Why a room or zone gains or loses heat; also the causes of ledger lines. */
export type LoadCause =
  | 'transmission'
  | 'sun'
  | 'ground'
  | 'partition'
  | 'infiltration'
  | 'ventilation'
  | 'people and appliances';

/**
 * One line of a room's design load, duct losses excluded.
 * Positive is load: heat lost in heating, heat gained in cooling.
 */
export type LoadLine = {
  readonly room: string;
  /** Surface, ventilator or room id the line belongs to. */
  readonly of: string;
  readonly what: string;
  readonly cause: LoadCause;
  /** 'outdoors', 'ground', a zone or room id, or 'occupants'. */
  readonly beyond: string;
  readonly sensible_W: number;
  readonly latent_W: number;
  /** Change of the heat flow for each K that the room departs from its set point, W/K (≥ 0). */
  readonly conductance_WK: number;
  /** The formula with its numbers, for an audit by hand. */
  readonly formula: string;
  readonly source: string;
};

/** Design load of one room, duct losses excluded, W. */
export type RoomLoad = { readonly room: string; readonly sensible_W: number; readonly latent_W: number };

/** Design loads of the house in one mode, line by line. */
export type Loads = {
  readonly mode: Mode;
  readonly lines: readonly LoadLine[];
  readonly rooms: readonly RoomLoad[];
  readonly sensible_W: number;
  readonly latent_W: number;
  /** Natural infiltration of the whole house at design conditions, m³/s at indoor density. */
  readonly infiltration_m3s: number;
  /** Air states the loads stand on. */
  readonly outdoor: AirState;
  readonly indoor: AirState;
  /** Design temperature of each buffer zone without any duct in it, °C. */
  readonly zoneWithoutDucts_C: Readonly<Record<string, number>>;
};

/** Temperature, moisture (kg/kg) and density of air. */
export type AirState = {
  readonly temperature_C: number;
  readonly humidityRatio: number;
  readonly density_kgm3: number;
};
