import materials from '../../data/materials.json' with { type: 'json' };
import { ductFriction } from '../ducts/duct-friction.ts';
import { flexSlackFactor, slackBeyondTests } from '../ducts/flex-slack.ts';
import { sectionGeometry } from '../ducts/section-geometry.ts';
import { defineFigure } from './define-figure.ts';
import { airNote, airOptions, figureAir } from './figure-air.ts';
import { FigureError } from './figure-error.ts';
import { sectionOf, sectionOptions } from './figure-section.ts';
import type { FigureOptions } from './types.ts';

/** Options that settle the wall of a duct and what flows in it; shared with other figures of straight duct. */
export const ductOptions = {
  ...sectionOptions,
  flow: {
    dimension: 'airflow',
    required: true,
    help: 'Airflow in the duct.',
    example: '100 cfm',
    least: 1e-4,
    most: 10,
  },
  material: {
    dimension: 'text',
    default: 'galvanized',
    choices: materials.map(({ name }) => name),
    help: 'Material, which settles the roughness.',
    example: 'flex',
  },
  roughness: {
    dimension: 'size',
    help: 'Absolute roughness, instead of that of the material.',
    example: '0.09 mm',
    least: 0,
    most: 0.02,
  },
  ...airOptions,
} as const satisfies FigureOptions;

/** Roughness (m) as given, or that of the named material. */
export const roughnessOf = (inputs: { readonly roughness?: number; readonly material: string }): number =>
  inputs.roughness ?? materialOf(inputs.material).roughness_m;

const materialOf = (name: string) => materials.find((material) => material.name === name)!;

/** `figure friction`: pressure loss of a straight duct per length. */
export const friction = defineFigure({
  name: 'friction',
  title: 'Friction of a straight duct',
  options: {
    ...ductOptions,
    slack: {
      dimension: 'ratio',
      default: 0,
      help: 'Flex left unstretched, share of its fully extended length.',
      example: '15 %',
      least: 0,
      most: 0.45,
    },
    length: {
      dimension: 'length',
      help: 'Length, to give its whole loss too.',
      example: '25 ft',
      least: 0,
      most: 300,
    },
  },
  example: { diameter: '6 in', flow: '100 cfm', material: 'galvanized' },
  answer: (inputs) => {
    const { slack, length } = inputs;
    if (slack > 0 && !materialOf(inputs.material).flexible)
      throw new FigureError('slack', 'a flexible duct', 'Add --material flex, or leave the slack out.');
    const section = sectionOf(inputs);
    const size = sectionGeometry(section).hydraulicDiameter_m;
    const straight = ductFriction(section, roughnessOf(inputs), inputs.flow, figureAir(inputs));
    const factor = flexSlackFactor(slack, size);
    const rate = straight.loss_Pam * factor;
    return {
      result: {
        'friction rate': { value: rate, dimension: 'frictionRate' },
        ...(length !== undefined && { loss: { value: rate * length, dimension: 'pressure' as const } }),
        velocity: { value: straight.velocity_ms, dimension: 'velocity' },
        'velocity pressure': { value: straight.velocityPressure_Pa, dimension: 'pressure', digits: 4 },
        'Reynolds number': { value: straight.reynolds, dimension: 'number', digits: 0 },
        'friction factor': { value: straight.frictionFactor, dimension: 'number', digits: 5 },
        ...(slack > 0 && { 'slack factor': { value: factor, dimension: 'number' as const, digits: 3 } }),
      },
      formula:
        'Δp/L = s·f/D_h·ρV²/2; Colebrook 1/√f = −2·log₁₀(ε/(3.7·D_h) + 2.51/(Re·√f)); slack s = 1 + 0.58·K·e^(−0.126·D[in])',
      source: 'ASHRAE Handbook—Fundamentals 2021 ch. 21 (Darcy, Colebrook, Table 1, eq. 22–23)',
      notes: [
        airNote(inputs),
        ...(slackBeyondTests(slack, size)
          ? [
              'Slack or diameter is beyond the laboratory tests (6 to 16 in, up to 30 %): the factor is extended.',
            ]
          : []),
      ],
    };
  },
});
