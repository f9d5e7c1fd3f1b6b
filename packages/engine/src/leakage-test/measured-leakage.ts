import { normalShare } from '../numerics/normal-share.ts';
import type { LeakagePerDuctSurface, LeakagePerFloorArea } from '../rules/leakage-measure.ts';

/** What leakage is counted against. The same number means another tightness with each, so each is a type of its own. */
export type LeakageBase = 'conditioned floor area' | 'duct surface' | 'fan flow';

/** Leakage at 25 Pa per floor area or duct surface, m³/(s·m²), or as a share of fan flow; with its relative standard deviation. */
export type MeasuredLeakage<Base extends LeakageBase> = {
  readonly per: Base;
  readonly value: number;
  readonly relativeError: number;
};

/** A limit of the same measure. */
export type LeakageLimit<Base extends LeakageBase> = { readonly per: Base; readonly value: number };

type Flow = { readonly flow25_m3s: number; readonly relativeError: number };

/** A tested flow over the conditioned floor area (m²) that its system serves. */
export const perFloorArea = (
  { flow25_m3s, relativeError }: Flow,
  floorArea_m2: number,
): MeasuredLeakage<'conditioned floor area'> => ({
  per: 'conditioned floor area',
  value: flow25_m3s / floorArea_m2,
  relativeError,
});

/** A tested flow over the surface of its ducts (m²). */
export const perDuctSurface = (
  { flow25_m3s, relativeError }: Flow,
  surface_m2: number,
): MeasuredLeakage<'duct surface'> => ({
  per: 'duct surface',
  value: flow25_m3s / surface_m2,
  relativeError,
});

/** A tested flow as a share of the fan's flow, which has an error of its own. */
export const perFanFlow = (
  { flow25_m3s, relativeError }: Flow,
  fan: { readonly flow_m3s: number; readonly relativeError: number },
): MeasuredLeakage<'fan flow'> => ({
  per: 'fan flow',
  value: flow25_m3s / fan.flow_m3s,
  relativeError: Math.hypot(relativeError, fan.relativeError),
});

/** A code's limit by floor area. */
export const floorAreaLimit = (limit: LeakagePerFloorArea): LeakageLimit<'conditioned floor area'> => ({
  per: limit.per,
  value: limit.flow25_m3sm2,
});

/** A leakage class's limit by duct surface. */
export const ductSurfaceLimit = (limit: LeakagePerDuctSurface): LeakageLimit<'duct surface'> => ({
  per: limit.per,
  value: limit.flow25_m3sm2,
});

/** A specification's limit as a share of fan flow. */
export const fanFlowLimit = (share: number): LeakageLimit<'fan flow'> => ({ per: 'fan flow', value: share });

export type JudgedLeakage = {
  readonly result: 'pass' | 'fail' | 'too close to tell';
  /** Probability that the true leakage is within the limit. */
  readonly passes: number;
};

/** From this probability on a result is called sure. */
const sure = 0.95;

/**
 * Whether the true leakage is within a limit, and how surely: its logarithm is normal about that of the measured.
 * Only a limit of the same measure can be given.
 */
export const judgeLeakage = <Base extends LeakageBase>(
  measured: MeasuredLeakage<Base>,
  limit: LeakageLimit<NoInfer<Base>>,
): JudgedLeakage => {
  const margin = Math.log(limit.value / measured.value);
  const passes =
    measured.relativeError > 0 ? normalShare(margin / measured.relativeError) : Number(margin >= 0);
  if (passes >= sure) return { result: 'pass', passes };
  return { result: passes <= 1 - sure ? 'fail' : 'too close to tell', passes };
};
