import { toSi } from '../units/dimension.ts';
import type { PlaceKind } from './types.ts';

/** What is assumed of a place before anything is read: medians with log standard deviations. */
export type PlacePrior = {
  /** m³/s at 25 Pa for leaks, loss coefficient for damper and register, factor on friction for slack. */
  readonly median: number;
  readonly logSd: number;
  /** Of leaks: median share that goes outdoors. */
  readonly toOutdoors?: number;
  readonly defect: { readonly probability: number; readonly median: number; readonly logSd: number };
};

const cfm = toSi('airflow', 1, 'cfm');

/**
 * Assumed: nobody has published how leaks split over places. Together these give the size of leakage that Cummings,
 * Withers et al. 2003 measured in 30 houses (13 % of fan flow on each side), and moderate slack, which Abushakra,
 * Walker & Sherman (LBNL-49700) call common.
 */
export const placePriors: Readonly<Record<Exclude<PlaceKind, 'share' | 'house'>, PlacePrior>> = {
  boot: leak(3, 0.8, 0.55, 0.04, 70, 0.6),
  takeoff: leak(2, 0.8, 0.82, 0.03, 50, 0.6),
  'trunk joint': leak(5, 0.8, 0.82, 0.04, 60, 0.6),
  'supply plenum': leak(8, 0.7, 0.77, 0.05, 80, 0.5),
  cabinet: leak(15, 0.6, 0.69, 0.05, 70, 0.5),
  'return joint': leak(8, 0.8, 0.77, 0.07, 90, 0.6),
  'return boot': leak(6, 0.8, 0.65, 0.06, 90, 0.6),
  damper: { median: 0.6, logSd: 0.4, defect: { probability: 0.13, median: 10, logSd: 0.8 } },
  slack: { median: 2, logSd: 0.45, defect: { probability: 0.05, median: 12, logSd: 0.6 } },
  register: { median: 3, logSd: 0.3, defect: { probability: 0.06, median: 25, logSd: 0.7 } },
};

function leak(
  median_cfm: number,
  logSd: number,
  toOutdoors: number,
  probability: number,
  defect_cfm: number,
  defectSd: number,
): PlacePrior {
  return {
    median: median_cfm * cfm,
    logSd,
    toOutdoors,
    defect: { probability, median: defect_cfm * cfm, logSd: defectSd },
  };
}

/** Log standard deviations of what is common to a house; assumed, no source. */
export const commonSd = { workmanship: 0.45, share: 0.7, slack: 0.25 } as const;
/** Own spread of the logit of an outdoor share; assumed. */
export const shareSd = 0.6;
/** Log standard deviations of the rest of the house; assumed. */
export const houseSd = {
  trunkFriction: 0.2,
  returnFriction: 0.3,
  filter: 0.5,
  coil: 0.35,
  fanSpeed: 0.08,
  envelope: 0.4,
  door: 0.4,
  conductance: 0.25,
  runConductance: 0.15,
} as const;
/** A filter found in a house is loaded somewhat: median factor on its clean drop; assumed. */
export const filterLoading = 1.3;
