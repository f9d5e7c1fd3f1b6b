import type { MeasureSet } from '@airledger/engine';
import { usualTolerance_K } from '@airledger/engine/season/comfort';
import type { Evaluator } from './evaluate-set.ts';
import type { Standing } from './standing.ts';

/** What a plan is for. */
export type Goal =
  /** Every room within the tolerance on both design days, at least cost; of some rooms only when they are named. */
  | { readonly kind: 'rooms'; readonly tolerance_K?: number; readonly rooms?: readonly string[] }
  /** Least cost of repairs and energy over the years. */
  | { readonly kind: 'life-cycle' }
  /** Most comfort for a budget. */
  | { readonly kind: 'comfort' }
  /** Pass the energy code, or the leakage limits of the project's specification, at least cost. */
  | { readonly kind: 'code' }
  | { readonly kind: 'specification' };

export const goalKinds = ['rooms', 'life-cycle', 'comfort', 'code', 'specification'] as const;

/** Rooms in their order, and how far each was off before anything was done. */
export type Before = { readonly rooms: readonly string[]; readonly drift_K: Standing['drift_K'] };

/** The figures of a set of repairs by which a goal judges it, as a planner predicts them. */
export const figuresOf = (goal: Goal, at: Evaluator, set: MeasureSet): readonly number[] => {
  switch (goal.kind) {
    case 'rooms':
      return Object.values(at.drift(set)).flat();
    case 'life-cycle':
      return [at.year(set)!.cost];
    case 'comfort':
      return [at.year(set)!.discomfort_Kh];
    default:
      return [at.failed(set)[goal.kind]];
  }
};

/**
 * What goes down as a goal comes near: kelvins beyond the tolerance, money or discomfort of a year, shares beyond
 * limits. Where only some rooms are to be put right, the others may not get worse than the tolerance, or than they were.
 */
export const worthOf = (goal: Goal, figures: readonly number[], before: Before): number => {
  if (goal.kind !== 'rooms') return Math.max(0, figures[0]!);
  const { rooms, drift_K } = before;
  const were = Object.values(drift_K).flat();
  return figures.reduce((sum, drift, at) => {
    const allowed_K = allowedDrift_K(goal, rooms[at % rooms.length]!, were[at]!);
    return sum + Math.max(0, Math.abs(drift) - allowed_K);
  }, 0);
};

/** How far a room may drift, K: the tolerance, or what it was where it is not one of those to be put right. */
export const allowedDrift_K = (goal: Goal & { kind: 'rooms' }, room: string, was_K: number): number => {
  const tolerance_K = goal.tolerance_K ?? usualTolerance_K;
  const isMeant = goal.rooms === undefined || goal.rooms.includes(room);
  return isMeant ? tolerance_K : Math.max(tolerance_K, Math.abs(was_K));
};

/** So little missing, in kelvins or shares of a limit, that nobody could notice. */
export const nearlyMet = 0.02;

/** Goals that are judged by a year, and cannot do without one. */
export const needsYear = ({ kind }: Goal): boolean => kind === 'life-cycle' || kind === 'comfort';

/**
 * Money that a goal which must be met is worth for each kelvin, or each whole limit, that is still missing: more than
 * any repair asks for as much.
 */
const insistence: Readonly<Record<'rooms' | 'code' | 'specification', number>> = {
  rooms: 5_000,
  code: 20_000,
  specification: 20_000,
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
