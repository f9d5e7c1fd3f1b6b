import { type Ranged, type Terms, type Worth, worthRange } from '@airledger/engine';
import type { CandidateFacts } from './candidate.ts';
import { renewals } from './life-cost.ts';
import type { Standing } from './standing.ts';

/** A plan as money sees it, with the worst and the best that cost and saving may come to. */
export type PlanMoney = {
  /** Energy saved in a year, at today's prices. */
  readonly saving: Ranged;
  readonly emission_kg: number;
  readonly worth: { readonly worst: Worth; readonly typical: Worth; readonly best: Worth };
};

/**
 * What a plan saves and whether it pays, repairs of short life bought again. The range of the saving is that of the drawn
 * houses about the typical one; without them a quarter either way stands in (from memory).
 */
export const moneyOf = (
  before: Standing,
  after: Standing,
  repairs: readonly CandidateFacts[],
  cost: Ranged,
  drawn: Ranged | undefined,
  terms: Terms,
): PlanMoney | undefined => {
  if (!before.year || !after.year) return undefined;
  const typical = before.year.cost - after.year.cost;
  const saving: Ranged = drawn
    ? { low: Math.min(drawn.low, typical), typical, high: Math.max(drawn.high, typical) }
    : { low: typical - 0.25 * Math.abs(typical), typical, high: typical + 0.25 * Math.abs(typical) };
  const again = repairs.map((one) => ({
    price: one.cost.typical,
    ...renewals(one.repair.life_years, terms),
  }));
  return {
    saving,
    emission_kg: before.year.emission_kg - after.year.emission_kg,
    worth: worthRange(
      {
        replacements: again.flatMap(({ price, replacements }) =>
          replacements.map(({ year, cost: times }) => ({ year, cost: times * price })),
        ),
        residual: again.reduce((sum, { price, residual }) => sum + price * residual, 0),
      },
      cost,
      saving,
      terms,
    ),
  };
};
