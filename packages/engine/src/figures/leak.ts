import { flow25Of, leakFlow_m3s, testPressure_Pa } from '../ducts/leakage-law.ts';
import { openingArea_m2 } from '../ducts/opening-flow.ts';
import { defineFigure } from './define-figure.ts';
import { airNote, airOptions, figureAir } from './figure-air.ts';

/** `figure leak`: leakage at one pressure from leakage at another. */
export const leak = defineFigure({
  name: 'leak',
  title: 'Leakage in operation from a test',
  options: {
    flow: {
      dimension: 'airflow',
      required: true,
      help: 'Leakage at the test pressure.',
      example: '100 cfm',
      least: 0,
      most: 5,
    },
    'test-pressure': {
      dimension: 'pressure',
      default: 25,
      help: 'Pressure of the test.',
      example: '25 Pa',
      least: 1,
      most: 2500,
    },
    pressure: {
      dimension: 'pressure',
      required: true,
      help: 'Pressure between duct and surroundings in operation.',
      example: '0.2 in.wc',
      least: -2500,
      most: 2500,
    },
    exponent: {
      dimension: 'number',
      default: 0.6,
      help: 'Exponent of the leakage law: 0.5 for a hole, 0.6 usual, 0.65 for cracks and seams.',
      example: '0.6',
      least: 0.5,
      most: 1,
    },
    'fan-flow': {
      dimension: 'airflow',
      help: 'Airflow of the fan, to say which share of it is lost.',
      example: '1200 cfm',
      least: 0.001,
      most: 10,
    },
    ...airOptions,
  },
  example: { flow: '100 cfm', pressure: '50 Pa', 'fan-flow': '1200 cfm' },
  answer: (inputs) => {
    const { density_kgm3 } = figureAir(inputs);
    const flow25 = flow25Of(inputs.flow, inputs['test-pressure'], inputs.exponent);
    const operating = Math.abs(leakFlow_m3s(flow25, inputs.exponent, inputs.pressure));
    const fanFlow = inputs['fan-flow'];
    return {
      result: {
        'leakage in operation': { value: operating, dimension: 'airflow' },
        'leakage at 25 Pa': { value: flow25, dimension: 'airflow' },
        ...(fanFlow && {
          'share of fan flow': { value: operating / fanFlow, dimension: 'ratio' as const, digits: 1 },
        }),
        'hole of the same leakage': {
          value: openingArea_m2(flow25, testPressure_Pa, density_kgm3),
          dimension: 'opening',
        },
      },
      formula: 'Q = Q_test·(|ΔP|/ΔP_test)ⁿ; hole A = Q25/(0.607·√(2·25 Pa/ρ))',
      source:
        'Power law of duct leakage; n = 0.6 is common practice for ducts (from memory), 0.65: ASHRAE Handbook—Fundamentals 2021 ch. 21',
      notes: [airNote(inputs)],
    };
  },
});
