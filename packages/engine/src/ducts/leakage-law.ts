/** Pressure at which duct leakage is tested and stated, Pa. */
export const testPressure_Pa = 25;

/** Density that tested leakage flows are stated at, kg/m³ (standard air). */
export const standardDensity_kgm3 = 1.204;

/** C of Q = C·Δpⁿ, m³/(s·Paⁿ), from the flow at 25 Pa. Exponent 0.5 (hole) to 1 (fine cracks). */
export const leakCoefficient = (flow25_m3s: number, exponent: number): number =>
  flow25_m3s / testPressure_Pa ** exponent;

/** Leak flow at a pressure difference, m³/s, with its sign: Q = Q25·(Δp/25)ⁿ. */
export const leakFlow_m3s = (flow25_m3s: number, exponent: number, difference_Pa: number): number =>
  Math.sign(difference_Pa) * flow25_m3s * (Math.abs(difference_Pa) / testPressure_Pa) ** exponent;

/** Flow at 25 Pa of a leak that passed `flow_m3s` at another pressure, m³/s. */
export const flow25Of = (flow_m3s: number, difference_Pa: number, exponent: number): number =>
  flow_m3s * (testPressure_Pa / difference_Pa) ** exponent;

/** Pressure at which a leak passes a flow, Pa. */
export const leakPressure_Pa = (flow25_m3s: number, exponent: number, flow_m3s: number): number =>
  testPressure_Pa * (flow_m3s / flow25_m3s) ** (1 / exponent);

/**
 * Factor on a leak's volume flow when its air is thinner or thicker than standard: (ρs/ρ)^(1−n).
 * A hole (n = 0.5) passes 1/√ρ, a fine crack (n = 1) does not depend on density.
 */
export const leakDensityFactor = (density_kgm3: number, exponent: number): number =>
  (standardDensity_kgm3 / density_kgm3) ** (1 - exponent);

/** 1 cfm per 100 ft² of duct surface at (1 in.wc)^0.65, in m³/(s·m²·Pa^0.65). */
const leakageClassUnit = 1.4068e-6;

/**
 * Flow at 25 Pa of a surface of the given leakage class, m³/s: F = CL·P^0.65
 * (SMACNA; class in cfm per 100 ft² of duct surface at 1 in.wc).
 */
export const leakageClassFlow25_m3s = (leakageClass: number, surface_m2: number): number =>
  leakageClass * leakageClassUnit * surface_m2 * testPressure_Pa ** 0.65;

/** Power law through measured points, with how well it fits. */
export type LeakageFit = {
  readonly coefficient: number;
  readonly exponent: number;
  readonly flow25_m3s: number;
  readonly rSquared: number;
  /** Standard error of ln(flow at 25 Pa): about the relative error. */
  readonly relativeError25: number;
  /** False when the exponent is outside 0.5 … 1: the test is to be repeated. */
  readonly plausible: boolean;
};

/**
 * Leakage law through a multi-point test by least squares of ln Q on ln Δp.
 * @param points at least two different pressures, all > 0
 * @throws RangeError with fewer
 */
export function fitLeakage(
  points: readonly { readonly pressure_Pa: number; readonly flow_m3s: number }[],
): LeakageFit {
  const x = points.map((point) => Math.log(point.pressure_Pa / testPressure_Pa));
  const y = points.map((point) => Math.log(point.flow_m3s));
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  const [meanX, meanY] = [mean(x), mean(y)];
  const xx = x.reduce((sum, value) => sum + (value - meanX) ** 2, 0);
  const yy = y.reduce((sum, value) => sum + (value - meanY) ** 2, 0);
  const xy = x.reduce((sum, value, i) => sum + (value - meanX) * (y[i]! - meanY), 0);
  if (!(xx > 0)) throw new RangeError('a leakage law needs readings at two different pressures or more');
  const exponent = xy / xx;
  const atTest = meanY - exponent * meanX;
  const unexplained = Math.max(0, yy - exponent * xy);
  const freedom = points.length - 2;
  const variance = freedom > 0 ? unexplained / freedom : Number.POSITIVE_INFINITY;
  return {
    coefficient: leakCoefficient(Math.exp(atTest), exponent),
    exponent,
    flow25_m3s: Math.exp(atTest),
    rSquared: yy > 0 ? 1 - unexplained / yy : 1,
    relativeError25: Math.sqrt(variance * (1 / points.length + meanX ** 2 / xx)),
    plausible: exponent >= 0.5 && exponent <= 1,
  };
}
