import { describe, expect, test } from 'vitest';
import { seededRandom } from '../numerics/seeded-random.ts';
import { findPlan } from './find-plan.ts';
import { measureSets } from './measure-sets.ts';
import type { PlanOptions, PlanProblem, PlanProgress } from './types.ts';
import { valueCurve } from './value-curve.ts';
import { valueOrder } from './value-order.ts';

const last = <T, R>(steps: Generator<T, R>): R => {
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
};
const plan = (problem: PlanProblem, options?: PlanOptions) => last(findPlan(problem, options));

/** Losses that measures take shares of, so that each is worth less after another; some exclude each other. */
const losses = (seed: number, count: number): PlanProblem => {
  const random = seededRandom(seed * 77);
  const measures = Array.from({ length: count }, (_, i) => ({
    id: `m${i}`,
    cost: 50 + 1500 * random(),
    excludes: i > 0 && random() < 0.3 ? [`m${i - 1}`] : [],
  }));
  const taken = measures.map(() =>
    Array.from({ length: 8 }, () => (random() < 0.4 ? 0.5 * random() ** 2 : random() < 0.1 ? -0.1 : 0)),
  );
  const base = Array.from({ length: 8 }, () => 1000 + 4000 * random());
  const most = base.map(() => 0.7 + 0.25 * random());
  const evaluate: PlanProblem['evaluate'] = (set) =>
    base.map((loss, k) =>
      taken.reduce((left, shares, i) => (set[i] === '1' ? left * (1 - shares[k]!) : left), loss),
    );
  const objective: PlanProblem['objective'] =
    seed % 2 === 0
      ? (figures, _, cost) => cost + 0.3 * figures.reduce((sum, one) => sum + one, 0)
      : (figures, _, cost) =>
          cost + figures.reduce((sum, one, k) => sum + 20_000 * Math.max(0, one / base[k]! - most[k]!), 0);
  return { measures, evaluate, objective };
};

const bestOfAll = (problem: PlanProblem): number => {
  const sets = measureSets(problem);
  let best = Number.POSITIVE_INFINITY;
  for (let bits = 0; bits < 2 ** sets.count; bits++) {
    const set = bits.toString(2).padStart(sets.count, '0');
    if (sets.isAllowed(set))
      best = Math.min(best, problem.objective(problem.evaluate(set), set, sets.costOf(set)));
  }
  return best;
};

describe('findPlan', () => {
  test('finds the best of all sets of twelve measures in 20 made-up problems, looking at few', () => {
    let looked = 0;
    for (let seed = 1; seed <= 20; seed++) {
      const problem = losses(seed, 12);
      const { best, evaluated } = plan(problem);
      expect(best.objective / bestOfAll(problem), `seed ${seed}`).toBeLessThan(1 + 1e-9);
      looked += evaluated.length;
    }
    expect(looked / 20).toBeLessThan(100);
  }, 300_000);

  test('keeps locks, exclusions and a budget, and gives the same plan again', () => {
    const problem = { ...losses(4, 12), must: ['m3'], mustNot: ['m0', 'm1'], budget: 2500 };
    const { best, evaluated } = plan(problem);
    const sets = measureSets(problem);
    for (const one of evaluated) {
      expect([one.set[3], one.set[0], one.set[1]]).toEqual(['1', '0', '0']);
      expect(sets.isAllowed(one.set)).toBe(true);
      expect(one.cost).toBeLessThanOrEqual(2500);
    }
    expect(plan(problem).best).toEqual(best);
  });

  test('what comes with a set counts against its budget', () => {
    const problem: PlanProblem = {
      ...losses(4, 12),
      budget: 2500,
      besides: (set) => (set.slice(0, 6).includes('1') ? 700 : 0),
    };
    const { best, evaluated } = plan(problem);
    const ofMeasures = (set: string): number =>
      problem.measures.reduce((sum, { cost }, i) => (set[i] === '1' ? sum + cost : sum), 0);
    for (const { set, cost } of evaluated) {
      expect(cost).toBeCloseTo(ofMeasures(set) + problem.besides!(set), 9);
      expect(cost).toBeLessThanOrEqual(2500);
    }
    expect(best.objective).toBeCloseTo(bestOfAll(problem), 6);
  });

  // Alone "wide" harms; beside "plug" it helps, and there is only room for it without "narrow".
  test('tries what the budget has no room for beside the best, in place of what is missed least', () => {
    const measures = [
      { id: 'narrow', cost: 60 },
      { id: 'plug', cost: 30 },
      { id: 'wide', cost: 65 },
    ];
    const evaluate = (set: string): number[] => {
      const [narrow, plug, wide] = [...set].map((one) => one === '1');
      return [100 - (narrow ? 20 : 0) - (plug ? 30 : 0) + (wide ? (plug ? -40 : 10) : 0)];
    };
    const problem: PlanProblem = {
      measures,
      budget: 100,
      evaluate,
      objective: ([left]) => left!,
    };
    expect(plan(problem).best.set).toBe('011');
  });

  test('tells the best so far after every set, never worse than before, and stops at its limit', () => {
    const told: PlanProgress[] = [];
    const search = findPlan(losses(2, 14), { most: 30 });
    for (let step = search.next(); !step.done; step = search.next()) told.push(step.value);
    expect(told.map(({ evaluations }) => evaluations)).toEqual(told.map((_, i) => i + 1));
    expect(told.length).toBeLessThanOrEqual(30);
    const values = told.map(({ best }) => best.objective);
    expect(values).toEqual([...values].sort((a, b) => b - a));
  });

  test('locks that cannot be kept are refused', () => {
    const problem = losses(2, 6);
    expect(() => plan({ ...problem, must: ['m9'] })).toThrow('There is no measure "m9".');
    expect(() => plan({ ...problem, must: ['m2'], mustNot: ['m2'] })).toThrow('must be done and must not');
    const measures = [
      { id: 'a', cost: 1, excludes: ['b'] },
      { id: 'b', cost: 1 },
    ];
    expect(() => plan({ ...problem, measures, must: ['a', 'b'] })).toThrow('exclude each other');
  });
});

test('the value curve rises in cost and falls in worth, each point with what it says', () => {
  const problem = losses(6, 12);
  const worth = (figures: readonly number[]): number => figures.reduce((sum, one) => sum + one, 0);
  const { points: curve } = last(valueCurve(problem, plan(problem), worth));
  expect(curve[0]!.cost).toBe(0);
  expect(curve.length).toBeGreaterThan(3);
  for (const [i, { set, cost, worth: left }] of curve.entries()) {
    expect(left).toBeCloseTo(worth(problem.evaluate(set)), 9);
    if (i === 0) continue;
    expect(cost).toBeGreaterThan(curve[i - 1]!.cost);
    expect(left).toBeLessThan(curve[i - 1]!.worth);
  }
});

test('a set that the value curve finds on its way is the best where it is better than what the search had', () => {
  let bettered = 0;
  for (let seed = 1; seed <= 12; seed++) {
    const problem = losses(seed, 12);
    const cut = plan(problem, { most: 16 });
    const worth = (figures: readonly number[]): number => figures.reduce((sum, one) => sum + one, 0);
    const { found } = last(valueCurve(problem, cut, worth));
    for (const { set, figures, cost, objective } of found.evaluated) {
      expect(objective).toBeCloseTo(problem.objective(figures, set, cost), 9);
      expect(found.best.objective).toBeLessThanOrEqual(objective);
    }
    if (found.best.objective < cut.best.objective) bettered++;
  }
  expect(bettered).toBeGreaterThan(0);
});

test('gains in order of value add up to the gain of the whole; alone and last differ by what measures do to each other', () => {
  const measures = [
    { id: 'seal', cost: 100 },
    { id: 'wrap', cost: 300 },
  ];
  // Half of 100 goes by either: together 25 is left.
  const worth = (set: string): number => 100 * 0.5 ** [...set].filter((done) => done === '1').length;
  const values = last(valueOrder({ measures }, '11', worth));
  expect(values).toEqual([
    { index: 0, alone: 50, last: 25, inOrder: 50 },
    { index: 1, alone: 50, last: 25, inOrder: 25 },
  ]);
});
