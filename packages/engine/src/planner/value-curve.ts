import { type FoundPlan, findPlan } from './find-plan.ts';
import type { Evaluated, MeasureSet, PlanProblem, PlanProgress } from './types.ts';

/** A step of the value curve: the best that can be had for its cost. */
export type CurvePoint = { readonly set: MeasureSet; readonly cost: number; readonly worth: number };

/** The points, and what the search left with all that was worked out for them: the best may be one of these. */
export type ValueCurve = { readonly points: readonly CurvePoint[]; readonly found: FoundPlan };

/** Full evaluations that each budget of the curve may add. */
const perBudget = 20;
/** Budgets that are searched, as shares of the cost of the plan. */
const shares = [0.15, 0.35, 0.65];

/**
 * What each next dollar buys: sets of which none is both cheaper and better, from nothing up. What
 * was evaluated on the way to the plan gives most of it; the gaps are searched budget by budget for the least worth
 * (worth is what goes down).
 */
export function* valueCurve(
  problem: PlanProblem,
  found: FoundPlan,
  worth: (figures: readonly number[]) => number,
): Generator<PlanProgress, ValueCurve> {
  const all = new Map<MeasureSet, Evaluated>(found.evaluated.map((one) => [one.set, one]));
  for (const share of shares) {
    const budget = Math.min(share * found.best.cost, problem.budget ?? Number.POSITIVE_INFINITY);
    const leastCost = found.evaluated[0]!.cost;
    if (budget <= leastCost) continue;
    const search = findPlan(
      {
        ...problem,
        budget,
        evaluate: (set) => all.get(set)?.figures ?? problem.evaluate(set),
        // Of sets as good as each other the cheaper.
        objective: (figures, _, cost) => worth(figures) * (1 + 1e-9 * cost),
      },
      { most: problem.measures.length + perBudget },
    );
    const { evaluated } = yield* search;
    for (const one of evaluated)
      if (!all.has(one.set))
        all.set(one.set, { ...one, objective: problem.objective(one.figures, one.set, one.cost) });
  }
  const evaluated = [...all.values()];
  return {
    points: frontier(evaluated.map(({ set, cost, figures }) => ({ set, cost, worth: worth(figures) }))),
    found: { best: evaluated.reduce(betterOf, found.best), evaluated },
  };
}

const betterOf = (a: Evaluated, b: Evaluated): Evaluated => (b.objective < a.objective ? b : a);

/** Points of which no other is cheaper and as good. */
const frontier = (points: readonly CurvePoint[]): readonly CurvePoint[] => {
  const kept: CurvePoint[] = [];
  let best = Number.POSITIVE_INFINITY;
  for (const point of points.toSorted((a, b) => a.cost - b.cost || a.worth - b.worth))
    if (kept.length === 0 || point.worth < best - 1e-9 * Math.abs(best)) {
      kept.push(point);
      best = point.worth;
    }
  return kept;
};
