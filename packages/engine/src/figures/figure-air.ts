import {
  kinematicViscosity,
  moistAirDensity,
  standardPressure_Pa,
} from '../psychrometrics/air-properties.ts';
import { toSi } from '../units/dimension.ts';
import type { FigureOptions } from './types.ts';

/** Air as the options of a figure describe it. */
export type FigureAir = {
  readonly density_kgm3: number;
  readonly kinematicViscosity_m2s: number;
  readonly specificHeat_JkgK: number;
};

/**
 * Standard air of the trade: 0.075 lb/ft³, 0.24 Btu/(lb·°F), 12.19e-6 lb/(ft·s) (about 70 °F at sea level).
 * It gives the sensible heat factor 1.08 Btu/h per cfm·°F.
 */
export const standardAir: FigureAir = {
  density_kgm3: toSi('density', 0.075, 'lb/ft³'),
  kinematicViscosity_m2s: 1.50998e-5,
  specificHeat_JkgK: 1004.832,
};

/** Options with which a figure asks for the state of its air. */
export const airOptions = {
  elevation: {
    dimension: 'length',
    help: 'Height above sea level; thinner air needs less pressure and carries less heat.',
    example: '5000 ft',
    least: -500,
    most: 9000,
  },
  'air-temperature': {
    dimension: 'temperature',
    help: 'Temperature of the air in the duct; sets its density (default: standard air, 0.075 lb/ft³).',
    example: '70 °F',
    least: -40,
    most: 120,
  },
} as const satisfies FigureOptions;

/**
 * Air for a figure: standard air unless an elevation or a temperature is given; then dry air at
 * that elevation (sea level if silent) and temperature (21.1 °C if silent).
 */
export function figureAir(inputs: { elevation?: number; 'air-temperature'?: number }): FigureAir {
  const { elevation, 'air-temperature': temperature_C = 21.111 } = inputs;
  if (elevation === undefined && inputs['air-temperature'] === undefined) return standardAir;
  const density_kgm3 = moistAirDensity(temperature_C, 0, standardPressure_Pa(elevation ?? 0));
  return {
    density_kgm3,
    kinematicViscosity_m2s: kinematicViscosity(temperature_C, density_kgm3),
    specificHeat_JkgK: standardAir.specificHeat_JkgK,
  };
}

/** What an answer should say about its air. */
export const airNote = (inputs: { elevation?: number; 'air-temperature'?: number }): string =>
  inputs.elevation === undefined && inputs['air-temperature'] === undefined
    ? 'Standard air of 0.075 lb/ft³ (1.2014 kg/m³); give --elevation or --air-temperature for other air.'
    : 'Dry air at the elevation and temperature given.';
