import { saturationPressure, saturationTemperature } from '../psychrometrics/saturation.ts';
import { toSi } from '../units/dimension.ts';
import { defineFigure } from './define-figure.ts';
import { FigureError } from './figure-error.ts';

/**
 * Least insulation (m²·K/W, flat) that keeps the outside of a cold duct at the dew point:
 * R = (T_dew − T_duct)/(h·(T_air − T_dew)). 0 when the bare duct is warm enough, infinite in saturated air.
 * Temperatures °C, outside surface coefficient h in W/(m²·K) (ASHRAE Handbook—Fundamentals 2021 ch. 23, eq. 14).
 */
export function insulationAgainstCondensation(
  duct_C: number,
  surroundings_C: number,
  dewPoint_C: number,
  surfaceCoefficient_Wm2K: number,
): number {
  if (duct_C >= dewPoint_C) return 0;
  return (dewPoint_C - duct_C) / (surfaceCoefficient_Wm2K * Math.max(0, surroundings_C - dewPoint_C));
}

/**
 * Thickness (m) on a round duct whose equivalent thickness r₂·ln(r₂/r₁) is the given flat one.
 * Newton from the flat thickness; the function is convex and rising, so it comes down to the root.
 */
export function thicknessOnRound(flat_m: number, diameter_m: number): number {
  const inside = diameter_m / 2;
  let outside = inside + flat_m;
  for (let i = 0; i < 50; i++) {
    const log = Math.log(outside / inside);
    const step = (outside * log - flat_m) / (log + 1);
    outside -= step;
    if (Math.abs(step) < 1e-12 * outside) break;
  }
  return outside - inside;
}

/** `figure condensation`: surface temperature of an insulated duct against the dew point around it. */
export const condensation = defineFigure({
  name: 'condensation',
  title: 'Insulation that keeps a cold duct dry',
  options: {
    'duct-air': {
      dimension: 'temperature',
      required: true,
      help: 'Temperature of the air in the duct.',
      example: '55 °F',
      least: -20,
      most: 40,
    },
    surroundings: {
      dimension: 'temperature',
      required: true,
      help: 'Temperature of the air around the duct.',
      example: '85 °F',
      least: -20,
      most: 80,
    },
    humidity: {
      dimension: 'ratio',
      required: true,
      help: 'Relative humidity around the duct.',
      example: '80 %',
      least: 0.01,
      most: 1,
    },
    'surface-coefficient': {
      dimension: 'surfaceCoefficient',
      default: toSi('surfaceCoefficient', 1.5, 'Btu/(h·ft²·°F)'),
      help: 'Heat transfer at the jacket: about 1.5 Btu/(h·ft²·°F) for dull jackets, 1.0 for foil.',
      example: '1.0 Btu/(h·ft²·°F)',
      least: 0.5,
      most: 50,
    },
    conductivity: {
      dimension: 'conductivity',
      default: toSi('conductivity', 0.27, 'Btu·in/(h·ft²·°F)'),
      help: 'Conductivity of the insulation.',
      example: '0.27 Btu·in/(h·ft²·°F)',
      least: 0.005,
      most: 1,
    },
    diameter: {
      dimension: 'size',
      help: 'Diameter of a round duct, for the thickness on it.',
      example: '8 in',
      least: 0.01,
      most: 3,
    },
  },
  example: { 'duct-air': '55 °F', surroundings: '85 °F', humidity: '80 %' },
  answer: (inputs) => {
    const dew = saturationTemperature(inputs.humidity * saturationPressure(inputs.surroundings));
    const resistance = insulationAgainstCondensation(
      inputs['duct-air'],
      inputs.surroundings,
      dew,
      inputs['surface-coefficient'],
    );
    if (inputs.humidity >= 1 && inputs['duct-air'] < inputs.surroundings)
      throw new FigureError(
        'humidity',
        'air that is not saturated',
        'In saturated air no insulation keeps it dry.',
      );
    const flat = resistance * inputs.conductivity;
    return {
      result: {
        'insulation needed': { value: resistance, dimension: 'resistance' },
        'dew point': { value: dew, dimension: 'temperature' },
        'thickness, flat': { value: flat, dimension: 'size', digits: 2 },
        ...(inputs.diameter !== undefined && {
          'thickness, round': {
            value: thicknessOnRound(flat, inputs.diameter),
            dimension: 'size' as const,
            digits: 2,
          },
        }),
      },
      formula: 'R ≥ (T_dew − T_duct)/(h·(T_air − T_dew)); round: r₂·ln(r₂/r₁) = k·R',
      source: 'ASHRAE Handbook—Fundamentals 2021 ch. 23, eq. 14',
      notes: ['A bare boot or collar has R-0: it sweats whenever the dew point is well above the air in it.'],
    };
  },
});
