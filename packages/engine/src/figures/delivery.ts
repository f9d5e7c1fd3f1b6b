import { standardPressure_Pa } from '../psychrometrics/air-properties.ts';
import { vapourEnthalpy } from '../psychrometrics/enthalpy.ts';
import { humidityRatioFromRelativeHumidity } from '../psychrometrics/humidity-ratio.ts';
import { defineFigure } from './define-figure.ts';
import { deliveryEfficiency, withRegain } from './delivery-efficiency.ts';
import { airNote, airOptions, figureAir } from './figure-air.ts';
import { FigureError } from './figure-error.ts';

const share = { dimension: 'ratio', least: 0, most: 1 } as const;
const leakFlow = { dimension: 'airflow', required: true, least: 0, most: 10 } as const;
const wall = { dimension: 'resistance', required: true, least: 0.05, most: 20 } as const;
const surface = { dimension: 'area', required: true, least: 0, most: 1000 } as const;
const degrees = { dimension: 'temperature', least: -60, most: 90 } as const;

/** `figure delivery`: share of heat that ducts deliver on a design day. */
export const delivery = defineFigure({
  name: 'delivery',
  title: 'Share of the equipment output that the ducts deliver',
  options: {
    mode: {
      dimension: 'text',
      default: 'heating',
      choices: ['heating', 'cooling'],
      help: 'Heating or cooling.',
      example: 'cooling',
    },
    'fan-flow': {
      dimension: 'airflow',
      required: true,
      help: 'Airflow of the fan.',
      example: '1200 cfm',
      least: 0.001,
      most: 10,
    },
    output: {
      dimension: 'power',
      required: true,
      help: 'Output of the equipment into the air (in cooling: sensible and latent together).',
      example: '60000 Btu/h',
      least: 1,
      most: 1e6,
    },
    'supply-area': {
      ...surface,
      help: 'Supply duct surface outside the conditioned space.',
      example: '400 ft²',
    },
    'supply-insulation': { ...wall, help: 'Resistance of the supply ducts, films included.', example: 'R-6' },
    'supply-leakage': { ...leakFlow, help: 'Supply leakage to outside, in operation.', example: '120 cfm' },
    'return-area': {
      ...surface,
      help: 'Return duct surface outside the conditioned space.',
      example: '150 ft²',
    },
    'return-insulation': { ...wall, help: 'Resistance of the return ducts, films included.', example: 'R-6' },
    'return-leakage': { ...leakFlow, help: 'Return leakage from outside, in operation.', example: '120 cfm' },
    indoor: { ...degrees, required: true, help: 'Temperature indoors.', example: '70 °F' },
    surroundings: {
      ...degrees,
      required: true,
      help: 'Temperature around the supply ducts, and around the return ducts unless said otherwise.',
      example: '30 °F',
    },
    'return-surroundings': { ...degrees, help: 'Temperature around the return ducts.', example: '45 °F' },
    'indoor-humidity': { ...share, help: 'Relative humidity indoors, to count moisture.', example: '50 %' },
    'surroundings-humidity': {
      ...share,
      help: 'Relative humidity around the return ducts, to count moisture.',
      example: '30 %',
    },
    regain: {
      ...share,
      default: 0.1,
      help: 'Share of the loss that the buffer space gives back: about 10 % for a vented attic.',
      example: '10 %',
    },
    ...airOptions,
  },
  example: {
    'fan-flow': '1200 cfm',
    output: '60000 Btu/h',
    'supply-area': '400 ft²',
    'supply-insulation': 'R-6',
    'supply-leakage': '120 cfm',
    'return-area': '150 ft²',
    'return-insulation': 'R-6',
    'return-leakage': '120 cfm',
    indoor: '70 °F',
    surroundings: '30 °F',
  },
  answer: (inputs) => {
    for (const side of ['supply', 'return'] as const)
      if (inputs[`${side}-leakage`] > inputs['fan-flow'])
        throw new FigureError(`${side}-leakage`, 'less than the fan flow', 'Give leakage in operation.');
    const { density_kgm3, specificHeat_JkgK } = figureAir(inputs);
    const returnSurroundings = inputs['return-surroundings'] ?? inputs.surroundings;
    const answer = deliveryEfficiency({
      fanFlow_m3s: inputs['fan-flow'],
      output_W: inputs.mode === 'cooling' ? -inputs.output : inputs.output,
      supplyArea_m2: inputs['supply-area'],
      supplyResistance_m2KW: inputs['supply-insulation'],
      returnArea_m2: inputs['return-area'],
      returnResistance_m2KW: inputs['return-insulation'],
      supplyLeak_m3s: inputs['supply-leakage'],
      returnLeak_m3s: inputs['return-leakage'],
      indoor_C: inputs.indoor,
      supplySurroundings_C: inputs.surroundings,
      returnSurroundings_C: returnSurroundings,
      density_kgm3,
      specificHeat_JkgK,
      leakLatent_Jkg: inputs.mode === 'cooling' ? leakLatent(inputs, returnSurroundings) : 0,
    });
    return {
      result: {
        'delivery efficiency': { value: answer.efficiency, dimension: 'ratio', digits: 1 },
        'with regain': { value: withRegain(answer.efficiency, inputs.regain), dimension: 'ratio', digits: 1 },
        'conduction factor, supply': { value: answer.supplyConduction, dimension: 'number', digits: 4 },
        'conduction factor, return': { value: answer.returnConduction, dimension: 'number', digits: 4 },
        'tightness, supply': { value: answer.supplyTightness, dimension: 'number', digits: 4 },
        'tightness, return': { value: answer.returnTightness, dimension: 'number', digits: 4 },
        'equipment rise': { value: answer.equipmentRise_K, dimension: 'temperatureDifference' },
        'return plenum': { value: answer.returnPlenum_C, dimension: 'temperature' },
        'supply plenum': { value: answer.supplyPlenum_C, dimension: 'temperature' },
        register: { value: answer.register_C, dimension: 'temperature' },
      },
      formula:
        'DE = a_s·B_s − a_s·B_s·(1 − a_r·B_r)·Δt_r/Δt_e − a_s·(1 − B_s)·Δt_s/Δt_e; a = 1 − Q_leak/Q_fan, B = e^(−A/(ρ·Q·cp·R)); with regain DE + F·(1 − DE)',
      source: 'Form of ASHRAE Standard 152 (from memory, check the standard)',
      notes: [
        airNote(inputs),
        'Leaks are taken at the register and grille ends; the account of a house places each where it is.',
      ],
    };
  },
});

// Heat of the moisture that a return leak brings beyond indoor air; without both humidities there is none to count.
function leakLatent(
  inputs: {
    readonly indoor: number;
    readonly elevation?: number;
    readonly 'indoor-humidity'?: number;
    readonly 'surroundings-humidity'?: number;
  },
  surroundings_C: number,
): number {
  const { 'indoor-humidity': indoorShare, 'surroundings-humidity': outsideShare } = inputs;
  if (indoorShare === undefined && outsideShare === undefined) return 0;
  if (indoorShare === undefined || outsideShare === undefined)
    throw new FigureError(
      indoorShare === undefined ? 'indoor-humidity' : 'surroundings-humidity',
      'both humidities or neither',
      'Moisture counts as a difference.',
    );
  const pressure = standardPressure_Pa(inputs.elevation ?? 0);
  const inside = humidityRatioFromRelativeHumidity(inputs.indoor, indoorShare, pressure);
  const outside = humidityRatioFromRelativeHumidity(surroundings_C, outsideShare, pressure);
  return outside * vapourEnthalpy(surroundings_C) - inside * vapourEnthalpy(inputs.indoor);
}
