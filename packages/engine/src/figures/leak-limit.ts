import { leakageClassFlow25_m3s } from '../ducts/leakage-law.ts';
import {
  allowedLeakage,
  type CodeEdition,
  codeEdition,
  codeEditions,
  leakageRows,
} from '../rules/code-edition.ts';
import { allowedOnDucts, type LeakagePerDuctSurface } from '../rules/leakage-measure.ts';
import { tradeEquivalences, tradeLimit } from '../rules/trade-limit.ts';
import { defineFigure } from './define-figure.ts';
import { FigureError } from './figure-error.ts';
import type { FigureValue } from './types.ts';

const classLimit = tradeLimit('leakage-class');

/** `figure leak-limit`: leakage that a code or a share of the fan flow allows. */
export const leakLimit = defineFigure({
  name: 'leak-limit',
  title: 'How much a duct system may leak: code, project and leakage class',
  options: {
    'floor-area': {
      dimension: 'area',
      help: 'Conditioned floor area that the system serves, for the code limits.',
      example: '2000 ft²',
      least: 1,
      most: 10000,
    },
    'fan-flow': {
      dimension: 'airflow',
      help: 'Airflow of the fan, for the project limit.',
      example: '1200 cfm',
      least: 0.001,
      most: 10,
    },
    'duct-surface': {
      dimension: 'area',
      help: 'Surface of the ducts, for the limit by leakage class.',
      example: '400 ft²',
      least: 0.1,
      most: 5000,
    },
    edition: {
      dimension: 'text',
      default: 'IECC 2021',
      choices: codeEditions.map(({ edition }) => edition),
      help: 'Edition of the energy code.',
      example: 'IECC 2018',
    },
    returns: {
      dimension: 'number',
      default: 1,
      help: 'Number of return inlets (the 2024 limits depend on it).',
      example: '3',
      least: 0,
      most: 100,
    },
    share: {
      dimension: 'ratio',
      default: 0.02,
      help: 'Share of fan flow that the project allows on each side.',
      example: '2 %',
      least: 0,
      most: 1,
    },
    'leakage-class': {
      dimension: 'number',
      default: classLimit.most!,
      help: 'Leakage class: cfm per 100 ft² of duct surface at 1 in.wc.',
      example: '4',
      least: 0.1,
      most: 100,
    },
  },
  example: { 'floor-area': '2000 ft²', 'fan-flow': '1200 cfm' },
  answer: (inputs) => {
    const { 'floor-area': floorArea, 'fan-flow': fanFlow, 'duct-surface': surface } = inputs;
    if ((floorArea ?? fanFlow ?? surface) === undefined)
      throw new FigureError(
        'floor-area',
        'a floor area, a fan flow or a duct surface',
        'Give one or more of them.',
      );
    const edition = codeEdition(inputs.edition)!;
    return {
      result: {
        ...(floorArea !== undefined && codeLimits(edition, floorArea, inputs.returns)),
        ...(fanFlow !== undefined && {
          'project, each of supply and return': airflow(fanFlow * inputs.share),
        }),
        ...(surface !== undefined && {
          'leakage class, on duct surface': airflow(
            allowedOnDucts(classMeasure(inputs['leakage-class']), surface),
          ),
        }),
      },
      formula:
        'code: limit per floor area × floor area at 25 Pa; project: share × fan flow; class: CL·S·P^0.65 at 25 Pa',
      source: sources(edition, {
        code: floorArea !== undefined,
        project: fanFlow !== undefined,
        surface: surface !== undefined,
      }),
      notes: [
        'All flows are at 25 Pa.',
        ...(floorArea !== undefined && edition.insideEnvelope.leakageTest === 'exempt'
          ? ['Ducts and air handler wholly inside the envelope need no leakage test in this edition.']
          : []),
        ...(floorArea !== undefined && fanFlow !== undefined
          ? tradeEquivalences.map(({ text, source }) => `${text} (${source})`)
          : []),
      ],
    };
  },
});

const airflow = (value: number): FigureValue => ({ value, dimension: 'airflow' });

const classMeasure = (leakageClass: number): LeakagePerDuctSurface => ({
  per: 'duct surface',
  flow25_m3sm2: leakageClassFlow25_m3s(leakageClass, 1),
});

function codeLimits(
  edition: CodeEdition,
  floorArea_m2: number,
  returns: number,
): Record<string, FigureValue> {
  const limits: Record<string, FigureValue> = {};
  const places = edition.insideEnvelope.leakageTest === 'limit' ? 2 : 1;
  for (const where of (['outside envelope', 'inside envelope'] as const).slice(0, places))
    for (const stage of [
      'after construction',
      'rough-in with air handler',
      'rough-in without air handler',
    ] as const)
      for (const row of leakageRows(edition, stage, where, returns)) {
        const measured = row.place === 'total' ? 'total' : 'to outdoors';
        const suffix = where === 'inside envelope' ? ', all inside the envelope' : '';
        limits[`${stage}, ${measured}${suffix}`] = airflow(allowedLeakage(row, floorArea_m2));
      }
  return limits;
}

function sources(edition: CodeEdition, asked: { code: boolean; project: boolean; surface: boolean }): string {
  const clauses = [...new Set(edition.leakage.map(({ clause, source }) => `${clause} (${source})`))];
  return [
    ...(asked.code ? [`${edition.edition} ${clauses.join('; ')}`] : []),
    ...(asked.project ? ['project limit: the share given'] : []),
    ...(asked.surface ? [`leakage class: SMACNA; ${classLimit.source}`] : []),
  ].join('. ');
}
