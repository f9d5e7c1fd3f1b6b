import { isIn, withMeasure } from './measure-sets.ts';
import type { MeasureSet, PlanProblem } from './types.ts';

/** What one measure of a plan is worth. Worth is what goes down; gains are positive when the measure helps. */
export type MeasureValue = {
  readonly index: number;
  /** Done alone, and done last in the whole plan: their difference is how the measures act on each other. */
  readonly alone: number;
  readonly last: number;
  /** Gain at its place in the order by value. */
  readonly inOrder: number;
};

/**
 * The measures of a plan in order of value: at each step the one that gains most for its cost on top of those before.
 * Yields after each set that had to be looked at.
 */
export function* valueOrder(
  { measures }: Pick<PlanProblem, 'measures'>,
  plan: MeasureSet,
  worth: (set: MeasureSet) => number,
): Generator<void, readonly MeasureValue[]> {
  const nothing = plan.replaceAll('1', '0');
  const left = measures.flatMap((_, index) => (isIn(plan, index) ? [index] : []));
  const start = worth(nothing);
  const all = worth(plan);
  const alone = new Map<number, number>();
  const last = new Map<number, number>();
  for (const index of left) {
    alone.set(index, start - worth(withMeasure(nothing, index, true)));
    yield;
    last.set(index, worth(withMeasure(plan, index, false)) - all);
    yield;
  }
  const order: MeasureValue[] = [];
  let done = nothing;
  while (left.length > 0) {
    let best: { index: number; gain: number } | undefined;
    const value = ({ index, gain }: { index: number; gain: number }): number =>
      gain / Math.max(1e-9, measures[index]!.cost);
    for (const index of left) {
      const one = { index, gain: worth(done) - worth(withMeasure(done, index, true)) };
      if (!best || value(one) > value(best)) best = one;
      yield;
    }
    const { index, gain } = best!;
    order.push({ index, alone: alone.get(index)!, last: last.get(index)!, inOrder: gain });
    done = withMeasure(done, index, true);
    left.splice(left.indexOf(index), 1);
  }
  return order;
}
