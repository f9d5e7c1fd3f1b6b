import { seededRandom } from '../numerics/seeded-random.ts';
import { differences, isIn, type MeasureSets, measureSets } from './measure-sets.ts';
import { type Memory, memory } from './memory.ts';
import type { Evaluated, MeasureSet, PlanOptions, PlanProblem, PlanProgress } from './types.ts';

/** What a finished search leaves: the best set, and everything that was evaluated on the way. */
export type FoundPlan = { readonly best: Evaluated; readonly evaluated: readonly Evaluated[] };

/** Kicks away from the best, for each measure, that do not lead to a better one before the search gives up. Chosen on five houses of the benchmark. */
const patience = 0.58;
/** Random sets that prediction starts from in each round, and how many of their ends are worked out. */
const imaginedStarts = 30;
const imaginedTried = 4;
/** Predictions whose errors say how far to trust the next one. */
const remembered = 24;
/** A neighbour that looks worse than the best by more than this many typical errors of prediction is not tried. */
const doubt = { alone: 3, pair: 1.5, rearranged: 3 };

/**
 * The set of measures with the least objective, in as few full evaluations as can be. Each measure is tried alone; from
 * then on the effects seen so far predict every other set (see `memory`), the most promising is evaluated, and the
 * search goes on from the best until nothing within one turn, one exchange or two turns promises more, allowing for
 * the errors that its predictions had. It starts from nothing, from everything, and from kicks off the best.
 * A generator: it yields after each evaluation, so that the one who asks can show progress, keep the best so far and
 * stop. The same problem and seed give the same plan.
 * @throws RangeError on locks that cannot be kept.
 */
export function* findPlan(
  problem: PlanProblem,
  { most = 400, seed = 1 }: PlanOptions = {},
): Generator<PlanProgress, FoundPlan> {
  const sets = measureSets(problem);
  const known = memory(sets.count);
  const random = seededRandom(seed);
  const errors: number[] = [];
  let best: Evaluated | undefined;
  let evaluations = 0;

  function* evaluated(set: MeasureSet, predicted?: number): Generator<PlanProgress, Evaluated> {
    const before = known.get(set);
    if (before) return before;
    const figures = problem.evaluate(set);
    const cost = sets.costOf(set);
    const one: Evaluated = { set, figures, cost, objective: problem.objective(figures, set, cost) };
    known.add(one);
    if (predicted !== undefined) errors.push(Math.abs(one.objective - predicted));
    if (!best || one.objective < best.objective) best = one;
    evaluations++;
    yield { evaluations, most, best };
    return one;
  }

  /** Goes down from a set to one with no better neighbour in sight, among all sets or those that hold some measure. */
  function* descend(start: MeasureSet, among = sets): Generator<PlanProgress, Evaluated> {
    let centre = yield* evaluated(start);
    for (;;) {
      if (evaluations >= most) return centre;
      const next = mostPromising(problem, among, known, centre, typical(errors));
      if (!next) return centre;
      const tried = yield* evaluated(next.set, next.predicted);
      if (tried.objective < centre.objective) centre = tried;
    }
  }

  /** Goes down from a kick off the best, first with one of its turns held so as not to fall back, then freely. */
  function* descendApart(from: MeasureSet): Generator<PlanProgress, void> {
    const away = kicked(sets, from, random);
    const apart = differences(from, away);
    if (apart.length === 0 || evaluations >= most) return;
    const held = apart[Math.floor(random() * apart.length)]!;
    const end = yield* descend(away, measureSets(holding(problem, away, held)));
    yield* descend(end.set);
  }

  const nothing = yield* evaluated(sets.least);
  for (let i = 0; i < sets.count && evaluations < most; i++) {
    const one = sets.flipped(sets.least, i);
    if (one) yield* evaluated(one);
  }
  yield* descend(nothing.set);
  yield* descend(everything(sets));
  for (let idle = 0; idle < patience * sets.count && evaluations < most; ) {
    const before = best!;
    const allowance = doubt.rearranged * typical(errors);
    for (const set of turnsByPrediction(problem, sets, known, before))
      if (best === before && evaluations < most) yield* evaluated(set);
    for (const set of rearranged(problem, sets, known, before, allowance))
      if (best === before && evaluations < most) yield* evaluated(set);
    for (const set of imagined(problem, sets, known, before, allowance, random))
      if (best === before && evaluations < most) yield* evaluated(set);
    if (best === before) yield* descendApart(before.set);
    else yield* descend(best!.set);
    idle = best!.objective < before.objective ? 0 : idle + 1;
  }
  return { best: best!, evaluated: [...known.all()] };
}

/** The error that four of five late predictions stayed below. */
const typical = (errors: readonly number[]): number => {
  const late = errors.slice(-remembered).sort((a, b) => a - b);
  return late[Math.floor(0.8 * (late.length - 1))] ?? 0;
};

/** The objective that the effects seen so far predict for any set, reckoned from one that was worked out. */
const predictionFrom = (
  problem: PlanProblem,
  sets: MeasureSets,
  known: Memory,
  from: Evaluated,
): ((set: MeasureSet) => number) => {
  const figuresOf = known.predictor(from);
  return (set) => problem.objective(figuresOf(set), set, sets.costOf(set));
};

type Promise = { readonly set: MeasureSet; readonly predicted: number };

/** The set not yet evaluated that promises most from here; undefined when none promises to be better than here. */
function mostPromising(
  problem: PlanProblem,
  sets: MeasureSets,
  known: Memory,
  centre: Evaluated,
  error: number,
): Promise | undefined {
  const predicted = predictionFrom(problem, sets, known, centre);
  const judged = (set: MeasureSet): Promise => ({ set, predicted: predicted(set) });
  const isNew = ({ set }: Promise): boolean => known.get(set) === undefined;
  const leap = leapFrom(sets, centre.set, predicted);
  if (leap !== centre.set && isNew(judged(leap)) && judged(leap).predicted < centre.objective)
    return judged(leap);
  let first: Promise | undefined;
  const consider = (set: MeasureSet, allowance: number): void => {
    const one = judged(set);
    if (
      isNew(one) &&
      one.predicted < centre.objective + allowance &&
      (!first || one.predicted < first.predicted)
    )
      first = one;
  };
  const turns = turnsFrom(sets, centre.set);
  for (const set of turns) consider(set, doubt.alone * error);
  if (first) return first;
  for (const set of turns)
    for (const further of turnsFrom(sets, set))
      if (further !== centre.set) consider(further, doubt.pair * error);
  return first;
}

const turnsFrom = (sets: MeasureSets, set: MeasureSet): MeasureSet[] => {
  const turns: MeasureSet[] = [];
  for (let i = 0; i < sets.count; i++) {
    const turned = sets.flipped(set, i);
    if (turned !== undefined) turns.push(turned);
  }
  return turns;
};

/** Where going down by prediction alone leads, turn by turn, and by exchanges of one measure for another when asked. */
function leapFrom(
  sets: MeasureSets,
  from: MeasureSet,
  predicted: (set: MeasureSet) => number,
  exchanges = false,
): MeasureSet {
  let at = from;
  let value = predicted(from);
  const better = (choices: readonly MeasureSet[]): boolean => {
    const before = at;
    for (const choice of choices) {
      const there = predicted(choice);
      if (there < value) [value, at] = [there, choice];
    }
    return at !== before;
  };
  for (;;) {
    const turns = turnsFrom(sets, at);
    if (better(turns)) continue;
    if (!(exchanges && better(turns.flatMap((turned) => turnsFrom(sets, turned))))) return at;
  }
}

/** Neighbours of the best that were never worked out, the most promising first: predictions alone do not leave them. */
function turnsByPrediction(
  problem: PlanProblem,
  sets: MeasureSets,
  known: Memory,
  best: Evaluated,
): MeasureSet[] {
  const predicted = predictionFrom(problem, sets, known, best);
  return measuresOf(sets)
    .flatMap((i) => turnedWithRoom(sets, best.set, i, predicted) ?? [])
    .filter((set) => known.get(set) === undefined)
    .sort((a, b) => predicted(a) - predicted(b));
}

/** A measure turned over; where the budget has no room for it, without what is missed least by prediction. */
function turnedWithRoom(
  sets: MeasureSets,
  from: MeasureSet,
  index: number,
  predicted: (set: MeasureSet) => number,
): MeasureSet | undefined {
  const turned = sets.flipped(from, index);
  if (turned !== undefined) return turned;
  const choices = measuresOf(sets)
    .flatMap((i) => (isIn(from, i) ? (sets.flipped(from, i) ?? []) : []))
    .flatMap((less) => sets.flipped(less, index) ?? []);
  return choices.length === 0 ? undefined : choices.reduce((a, b) => (predicted(b) < predicted(a) ? b : a));
}

const measuresOf = ({ count }: MeasureSets): number[] => Array.from({ length: count }, (_, i) => i);

/** Sets that hold one turn off the best and rearrange the rest by prediction, as far as they promise enough. */
function rearranged(
  problem: PlanProblem,
  sets: MeasureSets,
  known: Memory,
  best: Evaluated,
  allowance: number,
): MeasureSet[] {
  const predicted = predictionFrom(problem, sets, known, best);
  return turnsFrom(sets, best.set)
    .map((turned) => {
      const held = differences(best.set, turned);
      return leapFrom(sets, turned, (set) =>
        held.every((i) => set[i] === turned[i]) ? predicted(set) : Number.POSITIVE_INFINITY,
      );
    })
    .filter((set) => known.get(set) === undefined && predicted(set) < best.objective + allowance)
    .sort((a, b) => predicted(a) - predicted(b));
}

/** Sets to which prediction alone leads from random ones, the most promising of those that promise enough. */
function imagined(
  problem: PlanProblem,
  sets: MeasureSets,
  known: Memory,
  best: Evaluated,
  allowance: number,
  random: () => number,
): MeasureSet[] {
  const prediction = predictionFrom(problem, sets, known, best);
  const judged = new Map<MeasureSet, number>();
  const predicted = (set: MeasureSet): number => {
    const before = judged.get(set);
    if (before !== undefined) return before;
    const value = prediction(set);
    judged.set(set, value);
    return value;
  };
  const ends = new Set<MeasureSet>();
  for (let start = 0; start < imaginedStarts; start++)
    ends.add(leapFrom(sets, kicked(sets, best.set, random), predicted, true));
  return [...ends]
    .filter((set) => known.get(set) === undefined && predicted(set) < best.objective + allowance)
    .sort((a, b) => predicted(a) - predicted(b))
    .slice(0, imaginedTried);
}

/** As many measures as go together, in their order. */
function everything(sets: MeasureSets): MeasureSet {
  let set = sets.least;
  for (let i = 0; i < sets.count; i++) {
    const more = isIn(set, i) ? undefined : sets.flipped(set, i);
    if (more !== undefined && differences(set, more).length === 1) set = more;
  }
  return set;
}

/** The problem with one measure as it stands in a set. */
const holding = (problem: PlanProblem, set: MeasureSet, index: number): PlanProblem => {
  const lock = isIn(set, index) ? 'must' : 'mustNot';
  return { ...problem, [lock]: [...(problem[lock] ?? []), problem.measures[index]!.id] };
};

/** A set as many random turns away as there are measures. */
function kicked(sets: MeasureSets, from: MeasureSet, random: () => number): MeasureSet {
  let set = from;
  for (let turn = 0; turn < sets.count; turn++)
    set = sets.flipped(set, Math.floor(random() * sets.count)) ?? set;
  return set;
}
