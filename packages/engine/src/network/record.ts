/**
 * Every element is one record of 16 numbers, so that a pass over the network reads memory once and in order.
 * The first six fields are common; the rest belong to the kind.
 */
export const STRIDE = 16;

/** Flow in the latest iterate, m³/s. */
export const FLOW = 0;
/** Change of flow in the latest step. */
export const STEP = 1;
/** Slope of the law at FLOW, Pa·s/m³. */
export const SLOPE = 2;
/** 1/SLOPE. */
export const CONDUCTANCE = 3;
/** Flow that the linearised law gives at the present pressures: FLOW + CONDUCTANCE·(pressure left over). */
export const SOURCE = 4;
/** Pressure that another element's flow adds to the drop of this one (cross-terms.ts), Pa. */
export const OFFSET = 5;
/** Conductance of the secant at 10 Pa, where a cold start begins. */
export const START = 15;

/** Duct: k of Δp = k·f·Q², fitting part, Re/Q, ε/(3.7 Dh), 1/√f, and the remembered logarithm and power. */
export const DUCT_FRICTION = 6;
export const DUCT_FITTING = 7;
export const DUCT_REYNOLDS = 8;
export const DUCT_ROUGHNESS = 9;
export const DUCT_ROOT = 10;
export const DUCT_INVERSE_BASE = 11;
export const DUCT_LOG_BASE = 12;
export const DUCT_INVERSE_REYNOLDS = 13;
export const DUCT_SMOOTH_BASE = 14;

/** Square: resistance and the cubic foot q·(α + β·q²) below the flow of FOOT. */
export const SQUARE_RESISTANCE = 6;
/** Power: whether it is linearised from the pressure side (leaks only), 1 or 0. */
export const POWER_BY_PRESSURE = 6;
export const POWER_EXPONENT = 7;
export const FOOT = 8;
export const FOOT_LINEAR = 9;
export const FOOT_CUBIC = 10;
/** Power: remembered point (inverse of the argument, value of the power there), 1/exponent, ln of C in Q = C·Δpⁿ. */
export const POWER_INVERSE_BASE = 11;
export const POWER_AT_BASE = 12;
export const POWER_INVERSE_EXPONENT = 13;
export const POWER_LOG_COEFFICIENT = 14;

/** Table: position in the list of tables, present piece, flow to hold (∞: none), scale of the switch, limit flag. */
export const TABLE_NUMBER = 6;
export const TABLE_PIECE = 7;
export const TABLE_HELD_FLOW = 8;
export const TABLE_SWITCH = 9;
export const TABLE_AT_LIMIT = 10;

/** Fixed flow: the flow. */
export const FIXED_FLOW = 6;

export const KIND_DUCT = 0;
export const KIND_SQUARE = 1;
export const KIND_POWER = 2;
export const KIND_TABLE = 3;
export const KIND_FIXED = 4;
export const KIND_TIGHT = 5;

/** Beside each record: steps of both end nodes, entry of the matrix that couples them, kind. */
export const LINKS = 4;
export const FROM = 0;
export const TO = 1;
export const ENTRY = 2;
export const KIND = 3;

/** Slopes are floored here, Pa·s/m³; the law itself is not touched. */
export const LEAST_SLOPE = 1e-6;
/** Below this pressure power laws run into a cubic that is linear at zero, Pa: nobody knows a millipascal. */
export const FOOT_PRESSURE = 1e-3;
/** Pressure of the secant from which a cold start begins, Pa. */
export const START_PRESSURE = 10;
