import {
  type CurvePoint,
  type Evaluated,
  escalatedPresentValue,
  findPlan,
  type MeasureSet,
  type MeasureValue,
  type PlanProblem,
  type Season,
  type Survey,
  type Terms,
  valueCurve,
  valueOrder,
} from '@airledger/engine';
import { differences, isIn, measureSets } from '@airledger/engine/planner/measure-sets';
import type { Job } from '../schema/job-schema.ts';
import { surveyOf } from '../survey/survey-of.ts';
import { type CandidateFacts, plus } from './candidate.ts';
import { accountsOf, candidatesOf } from './candidates-of.ts';
import { catalogueOf, type Range } from './catalogue.ts';
import { evaluator, repairedHouse } from './evaluate-set.ts';
import { type Before, figuresOf, type Goal, nearlyMet, needsYear, objectiveOf, worthOf } from './goals.ts';
import { lifeFactor, usualTerms } from './life-cost.ts';
import { type PlanMisses, planMisses } from './plan-misses.ts';
import { moneyOf, type PlanMoney } from './plan-money.ts';
import type { Standing } from './standing.ts';
import { type Steadiness, steadiness } from './steadiness.ts';

export type PlanRequest = {
  readonly goal: Goal;
  /** Most that the repairs may cost. */
  readonly budget?: number | undefined;
  /** Ids of candidates that must or must not be done. */
  readonly must?: readonly string[] | undefined;
  readonly mustNot?: readonly string[] | undefined;
  /** What a year brings; goals that count money need it. */
  readonly year?: ((survey: Survey) => Season) | undefined;
  readonly terms?: Terms | undefined;
  readonly seed?: number | undefined;
  /** Full evaluations to spend on the search at most. */
  readonly most?: number | undefined;
  /** Houses to draw for how sure the plan is; none leaves that out. */
  readonly draws?: number | undefined;
};

/** A set of repairs with what it comes to. */
export type PlannedSet = {
  readonly set: MeasureSet;
  readonly repairs: readonly string[];
  readonly cost: Range;
  readonly standing: Standing;
  readonly worth: number;
  readonly objective: number;
};

/** A plan that came close, and how it differs from the chosen one. */
export type RunnerUp = PlannedSet & { readonly adds: readonly string[]; readonly lacks: readonly string[] };

export type PlannedRepair = {
  readonly candidate: CandidateFacts;
  readonly value: Omit<MeasureValue, 'index'>;
  /** Place in the order by value, from 1. */
  readonly byValue: number;
};

export type RepairPlan = {
  readonly goal: Goal;
  readonly state: string;
  readonly rooms: readonly { readonly id: string; readonly name: string }[];
  readonly candidates: readonly CandidateFacts[];
  readonly before: Standing;
  readonly chosen: PlannedSet;
  /** In the order of work. */
  readonly work: readonly PlannedRepair[];
  /** A test of the ducts' leakage goes between sealing and insulating, whenever anything is sealed; part of the cost. */
  readonly test: Range | undefined;
  /** Whether the goal is met, and what it misses where it is not. */
  readonly met: boolean;
  readonly misses: PlanMisses;
  /** What each next dollar buys: from nothing up, each dearer and better than the one before. */
  readonly curve: readonly PlannedSet[];
  readonly runnersUp: readonly RunnerUp[];
  readonly steadiness: Steadiness | undefined;
  /** What the plan costs and saves over the years, where a year was asked for. */
  readonly money: PlanMoney | undefined;
  readonly terms: Terms;
  readonly prices: { readonly currency: string; readonly date: string; readonly source: string };
  readonly evaluations: number;
};

/** Where the planning is; `best` are the repairs of the best set so far. */
export type RepairProgress = {
  readonly doing: 'searching' | 'drawing the value curve' | 'valuing each repair' | 'trying other houses';
  readonly done: number;
  readonly of: number;
  readonly best: readonly string[];
};

const runnersUpShown = 4;
const pointsShown = 12;
/** Sets worked out at most. With few candidates the search ends by itself, mostly at a quarter of this. */
const mostSets = (candidates: number): number => (candidates <= 16 ? 400 : 160);

/**
 * The best set of repairs for a goal, by the full model for every set that is looked at. A generator: it yields after
 * each, so that the one who asks can show progress and stop; the same request gives the same plan.
 * Throws RangeError on locks that name no candidate or cannot be kept, and when a goal needs a year and has none.
 */
export function* planRepairs(
  job: Job,
  stateId: string,
  request: PlanRequest,
): Generator<RepairProgress, RepairPlan> {
  const { goal, budget, must, mustNot, year, terms = usualTerms, seed = 1, draws = 8 } = request;
  if (needsYear(goal) && !year) throw new RangeError('This goal needs a year of weather.');
  const base = accountsOf(surveyOf(job, stateId));
  const candidates = candidatesOf(job, stateId, base);
  const most = request.most ?? mostSets(candidates.length);
  const catalogue = catalogueOf(job);
  const rooms = base.heating.rooms.map(({ room, name }) => ({ id: room, name }));
  const at = evaluator(job, stateId, candidates, { year });
  const nothing = '0'.repeat(candidates.length);
  const house: Before = { rooms: rooms.map(({ id }) => id), drift_K: at.drift(nothing) };
  const worth = (figures: readonly number[]): number => worthOf(goal, figures, house);
  const worthAt = (set: MeasureSet): number => worth(figuresOf(goal, at, set));
  const isSealing = candidates.map(({ repair }) => repair.phase === 'seal' || repair.id === 'reconnect');
  const testOf = (set: MeasureSet): Range | undefined =>
    isSealing.some((seals, index) => seals && isIn(set, index)) ? catalogue.test : undefined;
  const energyFactor = escalatedPresentValue(terms.discount, terms.escalation, terms.years);
  const lifeFactors = candidates.map(({ repair }) => lifeFactor(repair.life_years, terms));
  const sum = (set: MeasureSet, of: (index: number) => number): number =>
    candidates.reduce((total, _, index) => (isIn(set, index) ? total + of(index) : total), 0);
  const objective = (worth: number, set: MeasureSet): number => {
    const test = testOf(set)?.typical ?? 0;
    return objectiveOf(goal, worth, {
      cost: test + sum(set, (index) => candidates[index]!.cost.typical),
      lifeCost: test + sum(set, (index) => candidates[index]!.cost.typical * lifeFactors[index]!),
      energyFactor,
    });
  };
  const problem: PlanProblem = {
    measures: candidates.map(({ id, cost, excludes }) => ({ id, cost: cost.typical, excludes })),
    ...(must && { must }),
    ...(mustNot && { mustNot }),
    // Whoever seals has to test.
    besides: (set) => testOf(set)?.typical ?? 0,
    ...(budget !== undefined && { budget }),
    evaluate: (set) => figuresOf(goal, at, set),
    objective: (figures, set) => objective(worth(figures), set),
  };
  const idsOf = (set: MeasureSet): string[] =>
    candidates.flatMap(({ id }, index) => (isIn(set, index) ? [id] : []));

  const search = findPlan(problem, { most, seed });
  let step = search.next();
  for (; !step.done; step = search.next())
    yield {
      doing: 'searching',
      done: step.value.evaluations,
      of: step.value.most,
      best: idsOf(step.value.best.set),
    };

  const curving = valueCurve(problem, step.value, worth);
  let curve = curving.next();
  for (let done = 0; !curve.done; curve = curving.next())
    yield { doing: 'drawing the value curve', done: ++done, of: 60, best: idsOf(step.value.best.set) };
  const { found, points } = curve.value;

  const valuing = valuedPlan(problem, found.best, worth);
  let values = valuing.next();
  for (let done = 0; !values.done; values = valuing.next()) {
    const count = idsOf(values.value.set).length;
    const of = count * 2 + (count * (count + 1)) / 2;
    yield { doing: 'valuing each repair', done: Math.min(++done, of), of, best: idsOf(values.value.set) };
  }
  const { best, order } = values.value;
  const bestIds = idsOf(best.set);

  const planned = (set: MeasureSet): PlannedSet => {
    const test = testOf(set);
    const none: Range = { low: 0, typical: 0, high: 0 };
    const cost = candidates.reduce(
      (total, one, index) => (isIn(set, index) ? plus(total, one.cost) : total),
      test ?? none,
    );
    const value = worthAt(set);
    return {
      set,
      repairs: idsOf(set),
      cost,
      standing: at.standing(set),
      worth: value,
      objective: objective(value, set),
    };
  };
  const runnersUp = runnersUpOf(found.evaluated, best).map(
    ({ set }): RunnerUp => ({
      ...planned(set),
      adds: candidates.flatMap(({ id }, i) => (isIn(set, i) && !isIn(best.set, i) ? [id] : [])),
      lacks: candidates.flatMap(({ id }, i) => (!isIn(set, i) && isIn(best.set, i) ? [id] : [])),
    }),
  );

  let steady: Steadiness | undefined;
  if (draws > 0) {
    const drawing = steadiness({
      job,
      stateId,
      candidates,
      sets: [nothing, best.set, ...runnersUp.map(({ set }) => set)],
      year,
      draws,
      seed,
      objective: (drawn, set, factor) =>
        objective((goal.kind === 'life-cycle' ? factor : 1) * worth(figuresOf(goal, drawn, set)), set),
    });
    let drawn = drawing.next();
    for (let done = 0; !drawn.done; drawn = drawing.next())
      yield {
        doing: 'trying other houses',
        done: ++done,
        of: draws * (3 + runnersUp.length),
        best: bestIds,
      };
    steady = drawn.value;
  }

  // What is done to the house stays here, so that a plan can be written down and sent.
  const facts = candidates.map(({ apply: _, ...rest }): CandidateFacts => rest);
  const chosen = planned(best.set);
  const start = at.standing(nothing);
  const met = needsYear(goal) || worthAt(best.set) < nearlyMet;
  return {
    goal,
    state: stateId,
    rooms,
    candidates: facts,
    before: start,
    chosen,
    work: facts.flatMap((candidate, index) => {
      const at = order.findIndex((one) => one.index === index);
      if (at < 0) return [];
      const { index: _, ...value } = order[at]!;
      return [{ candidate, value, byValue: at + 1 }];
    }),
    test: testOf(best.set),
    met,
    misses: met
      ? { rooms: [], checks: [] }
      : planMisses({
          goal,
          before: house,
          candidates: facts,
          house: repairedHouse(job, stateId, candidates, best.set),
        }),
    curve: thinned(points, best.set).map(({ set }) => planned(set)),
    runnersUp,
    steadiness: steady,
    money: moneyOf(
      start,
      chosen.standing,
      candidates.filter((_, index) => isIn(best.set, index)),
      chosen.cost,
      steady?.saving,
      terms,
    ),
    terms,
    prices: { currency: catalogue.currency, date: catalogue.date, source: catalogue.source },
    evaluations: found.evaluated.length,
  };
}

/**
 * The repairs of a plan in order of value. Their values stand on parts of the plan; one of those that is allowed and
 * better than the whole is the plan instead, and is valued anew. Yields the plan after each set.
 */
function* valuedPlan(
  problem: PlanProblem,
  plan: Evaluated,
  worth: (figures: readonly number[]) => number,
): Generator<Evaluated, { readonly best: Evaluated; readonly order: readonly MeasureValue[] }> {
  const { isAllowed, costOf } = measureSets(problem);
  let best = plan;
  const worthAt = (set: MeasureSet): number => {
    const figures = problem.evaluate(set);
    const cost = costOf(set);
    const objective = problem.objective(figures, set, cost);
    if (objective < best.objective && isAllowed(set)) best = { set, figures, cost, objective };
    return worth(figures);
  };
  for (;;) {
    const valued = best;
    const valuing = valueOrder(problem, valued.set, worthAt);
    let step = valuing.next();
    for (; !step.done; step = valuing.next()) yield best;
    if (best === valued) return { best, order: step.value };
  }
}

/** At most so many points of a curve, its ends and the plan among them, spread over what is spent. */
const thinned = (curve: readonly CurvePoint[], plan: MeasureSet): readonly CurvePoint[] => {
  const most = curve.at(-1)?.cost ?? 0;
  let shown = Number.NEGATIVE_INFINITY;
  return curve.filter(({ set, cost }, i) => {
    const wanted = cost >= shown + most / pointsShown || i === curve.length - 1 || set === plan;
    if (wanted) shown = cost;
    return wanted;
  });
};

/** The next best sets that are not the plan with something more or less of no account, each unlike the others. */
const runnersUpOf = (evaluated: readonly Evaluated[], best: Evaluated): Evaluated[] => {
  const kept: Evaluated[] = [];
  for (const one of evaluated.toSorted((a, b) => a.objective - b.objective)) {
    if (kept.length === runnersUpShown) break;
    const unlike = [best, ...kept].every((other) => differences(one.set, other.set).length > 0);
    // A set that only adds to another that is shown says nothing new.
    const isMore = [best, ...kept].some((other) =>
      [...other.set].every((done, index) => done === '0' || one.set[index] === '1'),
    );
    if (unlike && !isMore) kept.push(one);
  }
  return kept;
};
