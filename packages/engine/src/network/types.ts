/**
 * An air network: nodes that carry a total pressure, elements that carry air between them.
 * It knows nothing of houses. All quantities are SI; flows are positive from `from` to `to`.
 */
export type Network = {
  readonly nodes: readonly NetworkNode[];
  readonly elements: readonly NetworkElement[];
  readonly air: NetworkAir;
  /** Turbulent friction of ducts; Colebrook unless said otherwise. */
  readonly frictionLaw?: FrictionLaw;
};

/** A place with one total pressure: held at a given value, or found by the solve. */
export type NetworkNode = {
  readonly id: string;
  /** Total pressure that is held here, Pa (gauge); a node without it is free. */
  readonly fixedPressure_Pa?: number;
};

/** State of the air that a network carries; one for all its elements. */
export type NetworkAir = { readonly density_kgm3: number; readonly kinematicViscosity_m2s: number };

/** Formula for turbulent friction: Colebrook (1939), or the explicit one of Swamee and Jain (1976). */
export type FrictionLaw = 'colebrook' | 'swamee-jain';

/**
 * One element. Node and element references are positions in the arrays of the network.
 *
 * `density_kgm3` is the density of the air inside the element when it differs from the network's. Every flow
 * is counted at the *network's* density (mass flow divided by it), so that mass is what the nodes conserve; an
 * element with thinner air drops Δp·(network density / own density) for the same mass, a fan follows the fan laws.
 */
export type NetworkElement = {
  readonly id: string;
  readonly from: number;
  readonly to: number;
  readonly density_kgm3?: number;
  /** A loss at a tee that depends on how the flow divides, on top of the element's own law. */
  readonly junction?: Junction;
} & ElementLaw;

/** How pressure and flow of one element belong together. */
export type ElementLaw = DuctLaw | SquareLaw | PowerLaw | TableLossLaw | LeakLaw | FanLaw | FixedFlowLaw;

/** Δp = (slack·f·L/Dh + C)·½ρ(Q/A)² with Darcy friction factor f. */
export type DuctLaw = {
  readonly kind: 'duct';
  /** ≥ 0 */
  readonly length_m: number;
  readonly area_m2: number;
  readonly hydraulicDiameter_m: number;
  readonly roughness_m: number;
  /** Sum of loss coefficients on the own area; may be negative (the slower stream of a converging tee). */
  readonly lossCoefficient: number;
  /** Multiplies friction only (flex that is not pulled straight); 1 for rigid duct. */
  readonly slackFactor: number;
};

/** Δp = C·½ρ(Q/A)²: register, grille, damper, door, undercut. A shut damper is a very large coefficient. */
export type SquareLaw = { readonly kind: 'square'; readonly coefficient: number; readonly area_m2: number };

/** Δp = R·Q^m, 1 ≤ m < 3, R in Pa/(m³/s)^m: filter, coil. */
export type PowerLaw = { readonly kind: 'power'; readonly resistance: number; readonly exponent: number };

/** Straight pieces through (0, 0) and the points [flow m³/s, drop Pa], rising, the same in both directions. */
export type TableLossLaw = { readonly kind: 'table-loss'; readonly points: Table };

/** Q = C·|Δp|^n, C in m³/(s·Paⁿ), 1/3 < n ≤ 1. A coefficient of 0 is a perfectly tight joint. */
export type LeakLaw = {
  readonly kind: 'leak';
  readonly coefficient: number;
  readonly exponent: number;
  /** Position of the duct or square element whose velocity pressure is taken off at `from`: leaks see static. */
  readonly staticOf?: number;
};

/** Pressure rise against flow, straight pieces, end pieces extended; a stall dip is allowed. */
export type FanLaw = {
  readonly kind: 'fan';
  readonly table: Table;
  /** Holds the flow as long as the table allows the pressure. */
  readonly control?: { readonly kind: 'constant-flow'; readonly flow_m3s: number };
  /** A stopped wheel: passes the table's free flow at its shut-off pressure, square law (common practice, no source). */
  readonly off?: boolean;
};

/** Flow that is imposed whatever the pressures: exhaust fan, balanced ventilator. */
export type FixedFlowLaw = { readonly kind: 'fixed-flow'; readonly flow_m3s: number };

/** Pressure by flow, m³/s and Pa, in rising order of flow. */
export type Table = readonly (readonly [flow_m3s: number, pressure_Pa: number])[];

/**
 * The share of a tee's loss that depends on the flow split. `common` is the element that carries both streams;
 * both elements are drawn in their usual direction (converging: branch → common, diverging: common → branch).
 * - converging: k·½ρVc²·(1 + (V/Vc)² − 2(1 − Q/Qc)²), momentum balance with equal static pressures
 *   (Idelchik, Handbook of Hydraulic Resistance, converging wyes); negative at small Q/Qc. k = 1 by default.
 * - diverging-branch: k·½ρVc², k = 0.95 by default (common practice, no source).
 * - diverging-straight: k·½ρ(Vc − V)², k = 0.4 by default (common practice, no source).
 * Outside the usual directions the flows are limited to 0 ≤ Q ≤ Qc, so that the term stays continuous.
 */
export type Junction = {
  readonly kind: 'converging' | 'diverging-branch' | 'diverging-straight';
  readonly common: number;
  readonly ownArea_m2: number;
  readonly commonArea_m2: number;
  readonly coefficient?: number;
};

/** Flows and pressures that balance, with what they took to find. */
export type NetworkSolution = {
  /** One per element, at the network's density; 0 for elements set aside. */
  readonly flow_m3s: Float64Array;
  /** Total pressure, one per node; NaN where no path leads to a fixed pressure. */
  readonly pressure_Pa: Float64Array;
  /** Largest flow-equivalent error of an element's law, relative to the largest flow. */
  readonly residual: number;
  /** Largest error of continuity at a free node, relative to the largest flow. */
  readonly continuityResidual: number;
  readonly iterations: number;
  readonly converged: boolean;
  /** Elements in closed parts without a path to a fixed pressure. */
  readonly setAside: readonly number[];
  /** Constant-flow fans that can not hold their flow. */
  readonly fanAtLimit: readonly number[];
  /** Fans with a stall dip for which a second working point is possible. */
  readonly ambiguousFans: readonly number[];
  /** The element that keeps the network from converging, and why. */
  readonly worst?: { readonly element: number; readonly reason: string };
};
