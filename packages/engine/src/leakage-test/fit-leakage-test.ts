import { fitLeakage, flow25Of, leakDensityFactor, testPressure_Pa } from '../ducts/leakage-law.ts';
import { normal975, studentT975 } from '../numerics/student-t.ts';

/** One point of a test: the pressure held (without its sign) and the flow of the instrument, at the survey's air density. */
export type TestPoint = { readonly pressure_Pa: number; readonly flow_m3s: number };

export type LeakageTestFit = {
  /** Flow at 25 Pa in standard air, m³/s. */
  readonly flow25_m3s: number;
  /** Its relative standard deviation: the scatter of the points, the exponent and the instrument together. */
  readonly relativeError: number;
  /** Between these it lies with 95 %. */
  readonly low_m3s: number;
  readonly high_m3s: number;
  readonly exponent: number;
  /** Half of the 95 % range of the exponent; absent when the points do not tell it. */
  readonly exponentMargin?: number;
  readonly rSquared?: number;
  /** What the exponent says of the test. */
  readonly exponentStanding: 'assumed' | 'plausible' | 'unlikely' | 'impossible';
  /** Greatest pressure reached, Pa, and the factor from its flow to 25 Pa; 1 when 25 Pa was reached. */
  readonly reached_Pa: number;
  readonly extrapolation: number;
  readonly points: number;
};

/** Exponent of duct leaks where a test does not tell it, and its standard deviation (ASHRAE Standard 152 and ASTM E1554 practice, from memory). */
const usualExponent = 0.6;
const exponentSpread = 0.05;

/** Scatter of one point about the law where there are too few to tell (assumed). */
const usualScatter = 0.02;

/** Within these the exponent of a duct system is taken as it is; beyond 0.5 to 1 no opening has it (common practice, no source). */
const plausible = { least: 0.5, most: 0.75 };
const possible = { least: 0.45, most: 1 };

/** As many per cent below 25 Pa count as 25 Pa: a held pressure hunts. */
const nearly = 0.98;

/**
 * Leakage of a test at 25 Pa, from one point or several, with what is uncertain about it.
 * Three points or more: least squares of ln Q on ln Δp with Student's t (the method of ASTM E779 and E1554, from
 * memory). Two points fit exactly, so a usual scatter stands in. One point is brought to 25 Pa with n = 0.60 ± 0.05:
 * Q25 = Q·(25/Δp)^n.
 * @param points at least one, pressures and flows above zero
 * @param instrumentError relative standard deviation of the flow instrument: all points share it
 * @param density_kgm3 reference density of the flows; the result is that of standard air, Q·(ρ/ρs)^(1−n)
 * @throws RangeError without points, or with one at or below zero
 */
export function fitLeakageTest(
  points: readonly TestPoint[],
  instrumentError: number,
  density_kgm3: number,
): LeakageTestFit {
  if (points.length === 0 || points.some(({ pressure_Pa, flow_m3s }) => !(pressure_Pa > 0 && flow_m3s > 0)))
    throw new RangeError('a leakage test needs points with pressure and flow above zero');
  const reached_Pa = Math.max(...points.map(({ pressure_Pa }) => pressure_Pa));
  const law = lawOf(points);
  const flow25_m3s = law.flow25_m3s / leakDensityFactor(density_kgm3, law.exponent);
  const relativeError = Math.hypot(law.error, instrumentError);
  const spread = Math.exp(normal975 * relativeError);
  const isExtrapolated = reached_Pa < nearly * testPressure_Pa;
  return {
    flow25_m3s,
    relativeError,
    low_m3s: flow25_m3s / spread,
    high_m3s: flow25_m3s * spread,
    exponent: law.exponent,
    exponentStanding: law.isAssumed ? 'assumed' : standing(law.exponent),
    ...(law.exponentMargin !== undefined && { exponentMargin: law.exponentMargin }),
    ...(law.rSquared !== undefined && { rSquared: law.rSquared }),
    reached_Pa,
    extrapolation: isExtrapolated ? (testPressure_Pa / reached_Pa) ** law.exponent : 1,
    points: points.length,
  };
}

type Law = {
  readonly flow25_m3s: number;
  readonly exponent: number;
  /** Standard deviation of ln Q25, widened for few points. */
  readonly error: number;
  readonly isAssumed: boolean;
  readonly exponentMargin?: number;
  readonly rSquared?: number;
};

function lawOf(points: readonly TestPoint[]): Law {
  const x = points.map(({ pressure_Pa }) => Math.log(pressure_Pa / testPressure_Pa));
  if (Math.max(...x) - Math.min(...x) < 0.1) return lawOfOnePressure(points, x);
  const fit = fitLeakage(points);
  const freedom = points.length - 2;
  const [mean, square] = [x.reduce((sum, each) => sum + each, 0) / x.length, squareSum(x)];
  if (freedom === 0) {
    const error = usualScatter * Math.sqrt(1 / points.length + mean ** 2 / square);
    const exponentMargin = (normal975 * usualScatter) / Math.sqrt(square);
    return { ...fit, error, exponentMargin, isAssumed: false };
  }
  const widened = studentT975(freedom) / normal975;
  const scatter = fit.relativeError25 / Math.sqrt(1 / points.length + mean ** 2 / square);
  return {
    ...fit,
    error: widened * fit.relativeError25,
    exponentMargin: (studentT975(freedom) * scatter) / Math.sqrt(square),
    isAssumed: false,
  };
}

/** Points at one pressure, once or repeated: the exponent has to be assumed. */
function lawOfOnePressure(points: readonly TestPoint[], x: readonly number[]): Law {
  const flows = points.map(({ pressure_Pa, flow_m3s }) => flow25Of(flow_m3s, pressure_Pa, usualExponent));
  const flow25_m3s = Math.exp(flows.reduce((sum, flow) => sum + Math.log(flow), 0) / flows.length);
  const error = Math.hypot(
    usualScatter / Math.sqrt(points.length),
    exponentSpread * Math.abs(x.reduce((sum, each) => sum + each, 0) / x.length),
  );
  return { flow25_m3s, exponent: usualExponent, error, isAssumed: true };
}

const squareSum = (values: readonly number[]): number => {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  return values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
};

const standing = (exponent: number): LeakageTestFit['exponentStanding'] => {
  if (exponent < possible.least || exponent > possible.most) return 'impossible';
  return exponent < plausible.least || exponent > plausible.most ? 'unlikely' : 'plausible';
};
