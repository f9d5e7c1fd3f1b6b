import { ductFriction } from '../ducts/duct-friction.ts';
import { coefficientOfLength, lengthOfCoefficient } from '../ducts/fitting-loss.ts';
import { equivalentDiameter_m, sectionGeometry } from '../ducts/section-geometry.ts';
import { defineFigure } from './define-figure.ts';
import { airNote, figureAir } from './figure-air.ts';
import { FigureError } from './figure-error.ts';
import { sectionOf } from './figure-section.ts';
import { ductOptions, roughnessOf } from './friction.ts';

const { flow, ...others } = ductOptions;

/** `figure equivalent`: round duct with the loss of a rectangular or oval one. */
export const equivalent = defineFigure({
  name: 'equivalent',
  title: 'Equivalent round diameter of a duct, equivalent length of a fitting',
  options: {
    ...others,
    coefficient: {
      dimension: 'number',
      help: 'Loss coefficient of a fitting, to find its equivalent length (needs --flow).',
      example: '0.5',
      least: -10,
      most: 1000,
    },
    'equivalent-length': {
      dimension: 'length',
      help: 'Equivalent length of a fitting, to find its loss coefficient (needs --flow).',
      example: '35 ft',
      least: 0,
      most: 300,
    },
    flow: { ...flow, required: undefined, help: 'Airflow, for the friction that lengths are measured in.' },
  },
  example: { width: '12 in', height: '8 in', coefficient: '0.5', flow: '400 cfm' },
  answer: (inputs) => {
    const section = sectionOf(inputs);
    const { area_m2, hydraulicDiameter_m } = sectionGeometry(section);
    const { coefficient, 'equivalent-length': length } = inputs;
    const asks = coefficient !== undefined || length !== undefined;
    if (asks && inputs.flow === undefined)
      throw new FigureError('flow', 'an airflow', 'Equivalent length depends on friction, so add --flow.');
    const factor = asks
      ? ductFriction(section, roughnessOf(inputs), inputs.flow!, figureAir(inputs)).frictionFactor
      : Number.NaN;
    return {
      result: {
        'equivalent diameter': { value: equivalentDiameter_m(section), dimension: 'size', digits: 2 },
        'hydraulic diameter': { value: hydraulicDiameter_m, dimension: 'size', digits: 2 },
        area: { value: area_m2, dimension: 'opening' },
        ...(coefficient !== undefined && {
          'equivalent length': {
            value: lengthOfCoefficient(coefficient, factor, hydraulicDiameter_m),
            dimension: 'length' as const,
          },
        }),
        ...(length !== undefined && {
          'loss coefficient': {
            value: coefficientOfLength(length, factor, hydraulicDiameter_m),
            dimension: 'number' as const,
          },
        }),
      },
      formula:
        'rectangular 1.30·(ab)^0.625/(a+b)^0.25; flat oval 1.55·A^0.625/P^0.25; hydraulic 4A/P; L = C·D_h/f, C = f·L/D_h',
      source: 'Huebscher 1948; Heyt & Diaz 1975; ASHRAE Handbook—Fundamentals 2021 ch. 21',
      notes: asks
        ? [airNote(inputs), 'An equivalent length holds for this size, flow and roughness only.']
        : [],
    };
  },
});
