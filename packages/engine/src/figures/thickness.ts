import { toSi } from '../units/dimension.ts';
import { defineFigure } from './define-figure.ts';

/**
 * Thickness of flat insulation (m) of least life-cycle cost: t* = √(k·ΔT·H·c·PWF/(η·p)) − k·R_s, never below 0.
 * k W/(m·K), ΔT K, H s/year, c money/J, PWF present-worth factor, η efficiency, p money/m³ of insulation, R_s m²·K/W.
 * The minimum of p·t + PWF·c·H·ΔT/(η·(R_s + t/k)): own algebra.
 */
function economicThickness(of: {
  readonly conductivity_WmK: number;
  readonly difference_K: number;
  readonly time_s: number;
  readonly energyPrice_perJ: number;
  readonly presentWorth: number;
  readonly efficiency: number;
  readonly insulationPrice_perM3: number;
  readonly surfaceResistance_m2KW: number;
}): number {
  const lifetime = (of.energyPrice_perJ * of.presentWorth * of.time_s) / of.efficiency;
  const best = Math.sqrt((of.conductivity_WmK * of.difference_K * lifetime) / of.insulationPrice_perM3);
  return Math.max(0, best - of.conductivity_WmK * of.surfaceResistance_m2KW);
}

/** `figure thickness`: insulation that reaches an R-value on a round or flat duct. */
export const thickness = defineFigure({
  name: 'thickness',
  title: 'Insulation thickness of least life-cycle cost',
  options: {
    difference: {
      dimension: 'temperatureDifference',
      required: true,
      help: 'Mean temperature difference across the duct wall while it runs.',
      example: '60 °F',
      least: 0.1,
      most: 150,
    },
    time: {
      dimension: 'duration',
      required: true,
      help: 'Running time in a year.',
      example: '1500 h',
      least: 0,
      most: 8784 * 3600,
    },
    'energy-price': {
      dimension: 'number',
      required: true,
      help: 'What the heat costs, for the amount in --energy-amount.',
      example: '12',
      least: 0,
    },
    'energy-amount': {
      dimension: 'energy',
      default: toSi('energy', 1, 'MMBtu'),
      help: 'How much energy that price buys.',
      example: '1 kWh',
      least: 1,
    },
    'insulation-price': {
      dimension: 'number',
      required: true,
      help: 'What more insulation costs in place, for the amount in --insulation-amount.',
      example: '18',
      least: 1e-9,
    },
    'insulation-amount': {
      dimension: 'volume',
      default: toSi('volume', 1, 'ft³'),
      help: 'How much insulation that price buys.',
      example: '1 m³',
      least: 1e-6,
    },
    'present-worth': {
      dimension: 'number',
      default: 12,
      help: 'Present-worth factor: years of savings that count as money now.',
      example: '12',
      least: 0,
      most: 100,
    },
    efficiency: {
      dimension: 'ratio',
      default: 1,
      help: 'Efficiency of the equipment (above 1 for a heat pump).',
      example: '80 %',
      least: 0.1,
      most: 10,
    },
    films: {
      dimension: 'resistance',
      default: toSi('resistance', 0.6, 'R'),
      help: 'Air films inside and outside together.',
      example: 'R-0.6',
      least: 0,
      most: 2,
    },
    conductivity: {
      dimension: 'conductivity',
      default: toSi('conductivity', 0.27, 'Btu·in/(h·ft²·°F)'),
      help: 'Conductivity of the insulation.',
      example: '0.27 Btu·in/(h·ft²·°F)',
      least: 0.005,
      most: 1,
    },
  },
  example: { difference: '60 °F', time: '1500 h', 'energy-price': '12', 'insulation-price': '18' },
  answer: (inputs) => {
    const best = economicThickness({
      conductivity_WmK: inputs.conductivity,
      difference_K: inputs.difference,
      time_s: inputs.time,
      energyPrice_perJ: inputs['energy-price'] / inputs['energy-amount'],
      presentWorth: inputs['present-worth'],
      efficiency: inputs.efficiency,
      insulationPrice_perM3: inputs['insulation-price'] / inputs['insulation-amount'],
      surfaceResistance_m2KW: inputs.films,
    });
    return {
      result: {
        thickness: { value: best, dimension: 'size', digits: 2 },
        insulation: { value: best / inputs.conductivity, dimension: 'resistance' },
      },
      formula: 't* = √(k·ΔT·H·c·PWF/(η·p)) − k·R_films',
      source: 'Least of p·t + PWF·c·H·ΔT/(η·(R_films + t/k)), own algebra; flat insulation, first order',
      notes: ['Codes ask for a least R-value whatever the cost.'],
    };
  },
});
