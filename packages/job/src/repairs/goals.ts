import type { Standing } from './standing.ts';

/** What a plan is for. */
export type Goal =
  /** Every room within the tolerance on both design days, at least cost; of some rooms only when they are named. */
  | { readonly kind: 'rooms'; readonly tolerance_K?: number; readonly rooms?: readonly string[] }
  /** Least cost of repairs and energy over the years. */
  | { readonly kind: 'life-cycle' }
  /** Most comfort for a budget. */
  | { readonly kind: 'comfort'; readonly tolerance_K?: number }
  /** Pass the energy code, or the leakage limits of the project's specification, at least cost. */
  | { readonly kind: 'code' }
  | { readonly kind: 'specification' };

export const goalKinds = ['rooms', 'life-cycle', 'comfort', 'code', 'specification'] as const;

/** A room this far from its set point is felt (ASHRAE Standard 55 allows drifts of 1 to 2 K; from memory). */
export const usualTolerance_K = 1.5;

/**
 * What goes down as a goal comes near: kelvins beyond the tolerance, money of a year, shares beyond limits. Where only
 * some rooms are to be put right, the others may not get worse than the tolerance, or than they were.
 */
export const worthOf = (
  goal: Goal,
  standing: Standing,
  { rooms, before }: { readonly rooms: readonly string[]; readonly before: Standing },
): number => {
  switch (goal.kind) {
    case 'rooms': {
      const tolerance_K = goal.tolerance_K ?? usualTolerance_K;
      return beyond(standing, (mode, at) =>
        goal.rooms === undefined || goal.rooms.includes(rooms[at]!)
          ? tolerance_K
          : Math.max(tolerance_K, Math.abs(before.drift_K[mode]![at]!)),
      );
    }
    case 'life-cycle':
      return standing.year?.cost ?? Number.NaN;
    case 'comfort':
      return standing.year?.discomfort_Kh ?? beyond(standing, () => goal.tolerance_K ?? usualTolerance_K);
    case 'code':
      return Math.max(0, standing.failed.code);
    case 'specification':
      return Math.max(0, standing.failed.specification);
  }
};

/** Sum of what rooms drift beyond what they may, K. */
const beyond = (
  { drift_K }: Standing,
  allowed_K: (mode: 'heating' | 'cooling', at: number) => number,
): number =>
  Object.entries(drift_K).reduce(
    (sum, [mode, drifts]) =>
      sum +
      drifts.reduce(
        (all, drift, at) => all + Math.max(0, Math.abs(drift) - allowed_K(mode as 'heating' | 'cooling', at)),
        0,
      ),
    0,
  );

/** Money that a goal which must be met is worth for each unit of what is still missing: more than any repair costs. */
const insistence: Readonly<Record<'rooms' | 'code' | 'specification', number>> = {
  rooms: 50_000,
  code: 100_000,
  specification: 100_000,
};

/** What the planner makes least. `lifeCost` is cost with replacements over the study period, `energyFactor` present value of a yearly sum. */
export const objectiveOf = (
  goal: Goal,
  worth: number,
  { cost, lifeCost, energyFactor }: { cost: number; lifeCost: number; energyFactor: number },
): number => {
  switch (goal.kind) {
    case 'life-cycle':
      return lifeCost + energyFactor * worth;
    case 'comfort':
      // Of plans as comfortable as each other the cheaper.
      return worth + 1e-7 * cost;
    default:
      return cost + insistence[goal.kind] * worth;
  }
};
