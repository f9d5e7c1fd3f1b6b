import { fitLeakage } from '../ducts/leakage-law.ts';
import { studentT975 } from '../numerics/student-t.ts';
import { defineFigure } from './define-figure.ts';
import { FigureError } from './figure-error.ts';

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
    const spread = freedom > 0 ? Math.exp(studentT975(freedom) * fit.relativeError25) : Number.NaN;
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
