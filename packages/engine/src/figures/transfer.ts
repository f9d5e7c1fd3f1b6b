import { openingArea_m2, openingFlow_m3s } from '../ducts/opening-flow.ts';
import { defineFigure } from './define-figure.ts';
import { airNote, airOptions, figureAir } from './figure-air.ts';

/** `figure transfer`: free area that lets return air out of a closed room. */
export const transfer = defineFigure({
  name: 'transfer',
  title: 'Way back for the air of a room with its door shut',
  options: {
    flow: {
      dimension: 'airflow',
      required: true,
      help: 'Supply air of the room that has to find its way back.',
      example: '100 cfm',
      least: 0,
      most: 2,
    },
    pressure: {
      dimension: 'pressure',
      default: 3,
      help: 'Pressure that the shut room may have against the hall.',
      example: '3 Pa',
      least: 0.1,
      most: 50,
    },
    'door-width': {
      dimension: 'size',
      default: 0.8128,
      help: 'Width of the door.',
      example: '32 in',
      least: 0,
      most: 3,
    },
    undercut: {
      dimension: 'size',
      default: 0.0127,
      help: 'Gap below the door.',
      example: '0.5 in',
      least: 0,
      most: 0.1,
    },
    'free-share': {
      dimension: 'ratio',
      default: 0.75,
      help: 'Free area of the grille over its face area.',
      example: '75 %',
      least: 0.1,
      most: 1,
    },
    'grille-width': {
      dimension: 'size',
      default: 0.3048,
      help: 'Width of the grille, to find its height.',
      example: '12 in',
      least: 0.05,
      most: 2,
    },
    ...airOptions,
  },
  example: { flow: '150 cfm' },
  answer: (inputs) => {
    const { density_kgm3 } = figureAir(inputs);
    const free = openingArea_m2(inputs.flow, inputs.pressure, density_kgm3);
    const gap = inputs['door-width'] * inputs.undercut;
    const rest = Math.max(0, free - gap);
    const face = rest / inputs['free-share'];
    return {
      result: {
        'free area': { value: free, dimension: 'opening' },
        'free area beside the undercut': { value: rest, dimension: 'opening' },
        'grille face area': { value: face, dimension: 'opening' },
        'grille height': { value: face / inputs['grille-width'], dimension: 'size' },
        'jump duct diameter': { value: Math.sqrt((4 * rest) / Math.PI), dimension: 'size' },
        'flow through the undercut alone': {
          value: openingFlow_m3s(gap, inputs.pressure, density_kgm3),
          dimension: 'airflow',
          digits: 1,
        },
      },
      formula: "A = Q/(Cd·√(2ΔP/ρ)) with Cd = 0.607, the trade's Q[cfm] = 1.07·A[in²]·√ΔP[Pa]",
      source:
        'Building Science Corporation research report 0005 (2000), transfer grille sizing; 3 Pa: Building America Solution Center and NREL Standard Work Specifications',
      notes: [
        airNote(inputs),
        'The jump duct diameter has the area only: its own friction and two grilles add pressure, so go up a size or more.',
        'Real rooms leak elsewhere too, so the shut-door pressure is usually lower than this: safe for sizing.',
      ],
    };
  },
});
