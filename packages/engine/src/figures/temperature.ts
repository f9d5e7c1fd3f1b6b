import { sectionGeometry } from '../ducts/section-geometry.ts';
import { toSi } from '../units/dimension.ts';
import { defineFigure } from './define-figure.ts';
import { airNote, airOptions, figureAir } from './figure-air.ts';
import { FigureError } from './figure-error.ts';
import { sectionOf, sectionOptions } from './figure-section.ts';

/**
 * Temperature of air leaving a duct in surroundings of one temperature:
 * θ_out = θ_in·e^(−NTU) with θ above the surroundings and NTU = UA/(ṁ·cp).
 * Conductance W/K, capacity flow W/K (> 0), temperatures °C.
 */
export const temperatureAlong = (
  entering_C: number,
  surroundings_C: number,
  conductance_WK: number,
  capacityFlow_WK: number,
): number => surroundings_C + (entering_C - surroundings_C) * Math.exp(-conductance_WK / capacityFlow_WK);

/**
 * Conductance of an insulated cylinder per length, W/(m·K): 1/(ln(De/Di)/(2πλ) + R_film/(π·De)), as in ISO 12241
 * (from memory). Diameter and thickness m, conductivity W/(m·K), outside film m²·K/W.
 */
export function cylinderConductance(
  inside_m: number,
  thickness_m: number,
  conductivity_WmK: number,
  film_m2KW: number,
): number {
  const outside_m = inside_m + 2 * thickness_m;
  const wall = Math.log(outside_m / inside_m) / (2 * Math.PI * conductivity_WmK);
  return 1 / (wall + film_m2KW / (Math.PI * outside_m));
}

/** `figure temperature`: air temperature at the end of a duct. */
export const temperature = defineFigure({
  name: 'temperature',
  title: 'Temperature of the air at the end of a duct run',
  options: {
    ...sectionOptions,
    length: {
      dimension: 'length',
      required: true,
      help: 'Length of the run.',
      example: '25 ft',
      least: 0,
      most: 300,
    },
    flow: {
      dimension: 'airflow',
      required: true,
      help: 'Airflow in the run.',
      example: '100 cfm',
      least: 1e-4,
      most: 10,
    },
    entering: {
      dimension: 'temperature',
      required: true,
      help: 'Temperature of the air that enters.',
      example: '55 °F',
      least: -40,
      most: 120,
    },
    surroundings: {
      dimension: 'temperature',
      required: true,
      help: 'Temperature around the duct.',
      example: '120 °F',
      least: -60,
      most: 120,
    },
    insulation: {
      dimension: 'resistance',
      help: 'Labelled insulation, taken over the inside surface.',
      example: 'R-6',
      least: 0,
      most: 20,
    },
    films: {
      dimension: 'resistance',
      default: 0,
      help: 'Air films to add: inside and outside together, or outside only with --thickness.',
      example: 'R-0.85',
      least: 0,
      most: 2,
    },
    thickness: {
      dimension: 'size',
      help: 'Thickness of the insulation on a round duct, instead of --insulation.',
      example: '2 in',
      least: 0.001,
      most: 0.5,
    },
    conductivity: {
      dimension: 'conductivity',
      default: toSi('conductivity', 0.27, 'Btu·in/(h·ft²·°F)'),
      help: 'Conductivity of the insulation.',
      example: '0.27 Btu·in/(h·ft²·°F)',
      least: 0.005,
      most: 1,
    },
    ...airOptions,
  },
  example: {
    diameter: '6 in',
    length: '25 ft',
    flow: '100 cfm',
    entering: '55 °F',
    surroundings: '120 °F',
    insulation: 'R-6',
  },
  answer: (inputs) => {
    const air = figureAir(inputs);
    const capacityFlow = inputs.flow * air.density_kgm3 * air.specificHeat_JkgK;
    const conductance = inputs.length * conductancePerLength(inputs);
    const leaving = temperatureAlong(inputs.entering, inputs.surroundings, conductance, capacityFlow);
    return {
      result: {
        'leaving temperature': { value: leaving, dimension: 'temperature' },
        change: { value: leaving - inputs.entering, dimension: 'temperatureDifference' },
        'heat gained': { value: capacityFlow * (leaving - inputs.entering), dimension: 'power' },
        'transfer units': { value: conductance / capacityFlow, dimension: 'number', digits: 4 },
      },
      formula: 'θ_out = θ_in·e^(−NTU), θ above the surroundings, NTU = UA/(ρ·Q·cp)',
      source:
        'Exponential heat exchange in constant surroundings; round insulation as in ISO 12241 (from memory); films to be stated',
      notes: [airNote(inputs)],
    };
  },
});

function conductancePerLength(inputs: {
  readonly diameter?: number;
  readonly insulation?: number;
  readonly films: number;
  readonly thickness?: number;
  readonly conductivity: number;
}): number {
  const { insulation, films, thickness } = inputs;
  const section = sectionOf(inputs);
  if ((insulation === undefined) === (thickness === undefined))
    throw new FigureError(
      'insulation',
      'either --insulation or --thickness',
      'Give one of them, for instance R-6.',
    );
  if (thickness !== undefined) {
    if (section.shape !== 'round')
      throw new FigureError('thickness', 'a round duct', 'Give --insulation for other shapes.');
    return cylinderConductance(section.diameter_m, thickness, inputs.conductivity, films);
  }
  const resistance = insulation! + films;
  if (resistance <= 0)
    throw new FigureError('films', 'some resistance', 'A bare duct still has air films of about R-0.85.');
  return sectionGeometry(section).perimeter_m / resistance;
}
