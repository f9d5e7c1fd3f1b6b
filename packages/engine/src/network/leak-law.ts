import { RECORD } from './record.ts';

const { FOOT_PRESSURE } = RECORD;

/** The cubic that replaces a power law close to zero: Δp = q·(linear + cubic·q²) for |q| < flow. */
export type CubicFoot = { readonly flow: number; readonly linear: number; readonly cubic: number };

/**
 * Foot of Δp = R·Q^m below one millipascal. Value and slope match where it ends, the slope at zero is finite
 * and the law above is untouched.
 *
 * @param resistance R > 0, Pa/(m³/s)^m
 * @param exponent 1 ≤ m < 3, so that the foot rises from zero
 */
export function cubicFoot(resistance: number, exponent: number): CubicFoot {
  const flow = (FOOT_PRESSURE / resistance) ** (1 / exponent);
  const secant = FOOT_PRESSURE / flow;
  return {
    flow,
    linear: (secant * (3 - exponent)) / 2,
    cubic: ((secant / flow / flow) * (exponent - 1)) / 2,
  };
}

/**
 * Flow through a leak, Q = C·|Δp|^n with the sign of Δp, and the millipascal foot of the network solver.
 *
 * @param pressure_Pa difference of static pressure across the leak
 * @param coefficient C ≥ 0, m³/(s·Paⁿ)
 * @param exponent 1/3 < n ≤ 1; 0.65 is usual for houses, 0.6 for ducts
 */
export function leakFlow(pressure_Pa: number, coefficient: number, exponent: number): number {
  const size = Math.abs(pressure_Pa);
  if (coefficient === 0 || size === 0) return 0;
  if (size >= FOOT_PRESSURE) return Math.sign(pressure_Pa) * coefficient * size ** exponent;
  const foot = cubicFoot(coefficient ** (-1 / exponent), 1 / exponent);
  // The foot is a rising cubic: a few Newton steps from its straight part invert it.
  let flow = size / foot.linear;
  for (let i = 0; i < 50; i++) {
    const step =
      (flow * (foot.linear + foot.cubic * flow * flow) - size) / (foot.linear + 3 * foot.cubic * flow * flow);
    flow -= step;
    if (Math.abs(step) <= 1e-15 * flow) break;
  }
  return Math.sign(pressure_Pa) * flow;
}
