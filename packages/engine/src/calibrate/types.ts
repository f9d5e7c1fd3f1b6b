/**
 * The house as the estimator sees it: nodes, edges of one simple law, unknowns with priors, and readings, each in its
 * own condition of the same network. SI throughout; a coefficient C is m³/s at 1 Pa.
 */

/** Flow q = C·x·(x² + ε²)^((n−1)/2) with x = P_from − P_to + source: one law for ducts, leaks, doors and the fan. */
export type ModelEdge = {
  readonly id: string;
  readonly from: number;
  readonly to: number;
  readonly exponent: number;
  /** ln C where every unknown is 0. */
  readonly lnCoefficient: number;
  /** Adds weight·θ to ln C. */
  readonly terms: readonly { readonly parameter: number; readonly weight: number }[];
  /** A leak is two edges: the share 1/(1 + e^−θ) of it to outdoors, the rest inside. */
  readonly share?: { readonly parameter: number; readonly goes: 'outdoors' | 'inside' };
  /** Pressure that a fan adds, pressure·e^(2θ). */
  readonly source?: { readonly pressure_Pa: number; readonly parameter: number };
};

/** Sort of place that a prior belongs to. */
export type PlaceKind =
  | 'boot'
  | 'takeoff'
  | 'trunk joint'
  | 'supply plenum'
  | 'cabinet'
  | 'return joint'
  | 'return boot'
  | 'share'
  | 'damper'
  | 'slack'
  | 'register'
  | 'house';

/** An unknown: θ = mean + sd·z + groupSd·z_group, z standard normal. */
export type Parameter = {
  readonly id: string;
  readonly kind: PlaceKind;
  /** Run it belongs to: its other parts are easily taken for it. */
  readonly run?: string;
  readonly mean: number;
  readonly sd: number;
  readonly group?: { readonly index: number; readonly sd: number };
  /** What it is like when the place is defective, and how often that is. */
  readonly defect?: { readonly probability: number; readonly mean: number; readonly sd: number };
};

/** How the network stands while something is read. */
export type Condition = {
  /** Pressures that are held: outdoors always, rooms under a blower door, a duct under a tester. */
  readonly held: readonly { readonly node: number; readonly pressure_Pa: number }[];
  /** Edges that carry nothing. */
  readonly closed: readonly number[];
  /** Edges that are easier or harder to pass than the model says: adds to ln C. */
  readonly eased: readonly { readonly edge: number; readonly ln: number }[];
};

/** What is read, as a function of the solved condition and of the unknowns. */
export type Measure =
  | { readonly kind: 'pressure'; readonly node: number; readonly to: number }
  /** Σ sign·flow of edges, at least one. */
  | {
      readonly kind: 'flow';
      readonly edges: readonly { readonly edge: number; readonly sign: number }[];
    }
  /** Air at the end of a path: on each piece T → T_around + (T − T_around)·exp(−UA/(ρ c_p q)). */
  | {
      readonly kind: 'path temperature';
      readonly start_C: number;
      readonly heatCapacity_Jm3K: number;
      readonly path: readonly {
        readonly edge: number;
        readonly around_C: number;
        readonly conductance_WK: number;
        readonly parameters: readonly number[];
      }[];
    }
  /** Room air mixed with what leaks in: T_room + (T_around − T_room)·Σ leaks/q_fan. */
  | {
      readonly kind: 'mix temperature';
      readonly room_C: number;
      readonly around_C: number;
      readonly fan: number;
      /** Edges from the duct outwards: inward flow is negative. */
      readonly leaks: readonly number[];
    }
  /** nominal·e^θ, with no solve: the house's leakage. */
  | { readonly kind: 'scaled'; readonly nominal: number; readonly parameter: number };

export type Observation = {
  readonly id: string;
  /** Index of its condition; −1 when it needs none. */
  readonly condition: number;
  readonly measure: Measure;
  readonly value: number;
  /** Standard deviation of instrument, use and model, same unit. */
  readonly sd: number;
};

export type CalibrationModel = {
  readonly nodeCount: number;
  readonly edges: readonly ModelEdge[];
  readonly parameters: readonly Parameter[];
  readonly groupCount: number;
  readonly conditions: readonly Condition[];
  readonly observations: readonly Observation[];
};
