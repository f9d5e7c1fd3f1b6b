/**
 * Every element is one record of 16 numbers, so that a pass over the network reads memory once and in order.
 * The first six fields are common; the rest belong to the kind.
 *
 * Users destructure this into constants of their own module: the compiler folds those into the machine code, while
 * imported bindings are looked up at each use (a third of the time of a pass).
 */
export const RECORD = {
  STRIDE: 16,

  /** Flow in the latest iterate, m³/s. */
  FLOW: 0,
  /** Change of flow in the latest step. */
  STEP: 1,
  /** Drop of the law at FLOW, Pa. */
  DROP: 13,
  /** Slope of the law at FLOW, Pa·s/m³. */
  SLOPE: 2,
  /** 1/SLOPE, with the slope floored. */
  CONDUCTANCE: 3,
  /** Flow that the linearised law gives at the present pressures: FLOW + CONDUCTANCE·(pressure left over). */
  SOURCE: 4,
  /** Pressure that another element's flow adds to the drop of this one (cross-terms.ts), Pa. */
  OFFSET: 5,
  /** Conductance of the secant where a cold start begins (START_PRESSURE, START_SPEED). */
  START: 15,

  /** Duct: k of Δp = k·f·Q², fitting part, Re/Q, ε/(3.7 Dh), 1/√f, and the remembered logarithm. */
  DUCT_FRICTION: 6,
  DUCT_FITTING: 7,
  DUCT_REYNOLDS: 8,
  DUCT_ROUGHNESS: 9,
  DUCT_ROOT: 10,
  DUCT_INVERSE_BASE: 11,
  DUCT_LOG_BASE: 12,
  /** d ln(1/√f)/d ln Q, with which 1/√f goes along with the flow between two visits. */
  DUCT_LAG: 14,

  /** Square and power: whether the law is linearised from the pressure side (small leaks), 1 or 0. */
  BY_PRESSURE: 6,
  /** Square and power: m of Δp = R·Q^m, and the cubic foot q·(α + β·q²) below the flow of FOOT. */
  EXPONENT: 7,
  FOOT: 8,
  FOOT_LINEAR: 9,
  FOOT_CUBIC: 10,
  /** Power: remembered point (inverse of the argument, value of the power there), ln of C in Q = C·Δpⁿ. */
  POWER_INVERSE_BASE: 11,
  POWER_AT_BASE: 12,
  POWER_LOG_COEFFICIENT: 14,
  /** Square: R, and 1/R for the pressure side. */
  SQUARE_RESISTANCE: 11,
  SQUARE_INVERSE: 12,

  /** Table: position in the list of tables, present piece, flow to hold (∞: none), scale of the switch, limit flag. */
  TABLE_NUMBER: 6,
  TABLE_PIECE: 7,
  TABLE_HELD_FLOW: 8,
  TABLE_SWITCH: 9,
  TABLE_AT_LIMIT: 10,

  /** Fixed flow: the flow. */
  FIXED_FLOW: 6,

  KIND_DUCT: 0,
  KIND_SQUARE: 1,
  KIND_POWER: 2,
  KIND_TABLE: 3,
  KIND_FIXED: 4,
  KIND_TIGHT: 5,

  /** Beside each record, in `bends`: how its law leaves the tangent (second-order.ts). */
  BENDS: 4,
  /** Flow where the tangent touches: on the pressure side not FLOW but SOURCE. */
  POINT: 0,
  /** Half the second derivative over the slope at that point, 1/(m³/s). */
  CURVATURE: 1,
  /** What the third derivative over the slope, a sixth of it, is at most within REACH, 1/(m³/s)². */
  THIRD: 2,
  /** Change of flow up to which CURVATURE and THIRD hold, m³/s. */
  REACH: 3,

  /** Beside each record: steps of both end nodes, entry of the matrix that couples them, kind. */
  LINKS: 4,
  FROM: 0,
  TO: 1,
  ENTRY: 2,
  KIND: 3,

  /** Slopes are floored here, Pa·s/m³; the law itself is not touched. */
  LEAST_SLOPE: 1e-6,
  /** Below this pressure power laws run into a cubic that is linear at zero, Pa: nobody knows a millipascal. */
  FOOT_PRESSURE: 1e-3,
  /** Pressure of the secant from which a cold start begins, Pa. */
  START_PRESSURE: 10,
  /** Ducts begin on the secant at this speed instead, m/s. */
  START_SPEED: 3,
} as const;
