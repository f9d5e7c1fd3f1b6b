import { type HeatFactors, heatFactors } from '../psychrometrics/heat-factors.ts';
import type { BufferZone, Mode, Survey } from '../survey/types.ts';
import type { AirState } from './types.ts';

/** What every load line of one survey and mode has in common. */
export type LoadContext = {
  readonly survey: Survey;
  readonly mode: Mode;
  readonly indoor: AirState;
  readonly outdoor: AirState;
  /** Driving difference, K: indoor minus outdoor in heating, outdoor minus indoor in cooling. */
  readonly difference_K: number;
  readonly airFactors: HeatFactors;
  readonly rooms: ReadonlySet<string>;
  readonly zones: ReadonlyMap<string, BufferZone>;
  readonly zoneWithoutDucts_C: Readonly<Record<string, number>>;
};

/** Gathers the common facts. */
export const loadContext = (
  survey: Survey,
  mode: Mode,
  air: { readonly indoor: AirState; readonly outdoor: AirState },
  zoneWithoutDucts_C: Readonly<Record<string, number>>,
): LoadContext => {
  const warmer = air.indoor.temperature_C - air.outdoor.temperature_C;
  return {
    survey,
    mode,
    ...air,
    difference_K: mode === 'heating' ? warmer : -warmer,
    airFactors: heatFactors(survey.site.elevation_m),
    rooms: new Set(survey.rooms.map((room) => room.id)),
    zones: new Map(survey.zones.map((zone) => [zone.id, zone])),
    zoneWithoutDucts_C,
  };
};

/** A number for a formula, with a true minus sign. */
export const figure = (value: number, digits: number): string => {
  const text = value.toFixed(digits);
  return value < 0 ? `−${text.slice(1)}` : text;
};

/** A temperature for a formula; below zero in brackets, since it is subtracted. */
export const degrees = (value_C: number): string =>
  value_C < 0 ? `(${figure(value_C, 1)})` : figure(value_C, 1);
