import { fitLeakage } from '../ducts/leakage-law.ts';
import { defineFigure } from './define-figure.ts';
import { FigureError } from './figure-error.ts';

/** 97.5 % points of Student's t for 1 to 30 degrees of freedom (standard table); 1.96 beyond. */
const studentT = [
  12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228, 2.201, 2.179, 2.16, 2.145, 2.131,
  2.12, 2.11, 2.101, 2.093, 2.086, 2.08, 2.074, 2.069, 2.064, 2.06, 2.056, 2.052, 2.048, 2.045, 2.042,
];

/** `figure leakage-fit`: power law through the points of a leakage test. */
export const leakageFit = defineFigure({
  name: 'leakage-fit',
  title: 'Leakage law from a test at several pressures',
  options: {
    point: {
      dimension: 'points',
      pair: ['pressure', 'airflow'],
      required: true,
      help: 'One test point, pressure and flow; repeat the option for each.',
      example: '25 Pa, 100 cfm',
    },
  },
  example: { point: '10 Pa, 57.7 cfm; 15 Pa, 73.6 cfm; 20 Pa, 87.5 cfm; 25 Pa, 100 cfm' },
  answer: ({ point }) => {
    if (point.some(([pressure, flow]) => !(pressure > 0 && flow > 0)))
      throw new FigureError('point', 'pressures and flows above zero', 'Give them without signs.');
    if (new Set(point.map(([pressure]) => pressure)).size < 2)
      throw new FigureError('point', 'points at two or more pressures', 'Test at more pressures.');
    const fit = fitLeakage(point.map(([pressure_Pa, flow_m3s]) => ({ pressure_Pa, flow_m3s })));
    if (!fit.plausible)
      throw new FigureError(
        'point',
        `readings that give an exponent of 0.5 to 1, not ${fit.exponent.toFixed(3)}`,
        'Repeat the test; look for a slipped hose, wind or a wrong unit.',
      );
    const freedom = point.length - 2;
    const spread = Math.exp((studentT[freedom - 1] ?? 1.96) * fit.relativeError25);
    return {
      result: {
        'flow at 25 Pa': { value: fit.flow25_m3s, dimension: 'airflow', digits: 1 },
        ...(freedom > 0 && {
          'flow at 25 Pa, low': { value: fit.flow25_m3s / spread, dimension: 'airflow' as const, digits: 1 },
          'flow at 25 Pa, high': { value: fit.flow25_m3s * spread, dimension: 'airflow' as const, digits: 1 },
        }),
        exponent: { value: fit.exponent, dimension: 'number', digits: 4 },
        'flow at 1 Pa': { value: fit.coefficient, dimension: 'airflow', digits: 2 },
        'r²': { value: fit.rSquared, dimension: 'number', digits: 5 },
      },
      formula: 'ln Q = ln C + n·ln ΔP by least squares; low and high are the 95 % range of the line at 25 Pa',
      source: 'Power law and reduction as in ASTM E779 annex A1 and ASTM E1554 (from memory)',
      notes: freedom > 0 ? [] : ['Two points always fit exactly: test at three or more to know the range.'],
    };
  },
});
