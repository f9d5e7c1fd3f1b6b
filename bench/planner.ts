import { findPlan, type PlanProblem } from '@airledger/engine';
import { planningYear, planRepairs } from '@airledger/job';
import { exhaustivePlan, oneByOnePlan } from '../tests/fixtures/exhaustive-plan.ts';
import { type HousePlan, randomPlan } from '../tests/fixtures/plan-problem.ts';
import { demoJob } from './demo-job.ts';
import { keptRun } from './kept-run.ts';
import { type Line, limited, plain } from './line.ts';
import { median } from './measure.ts';

/** Candidates of the demo house that is timed. */
const timed = 30;

/** What there is to have in one random house, by looking at every set; and what ranking one by one comes to. */
type Oracle = {
  readonly goal: HousePlan['goal'];
  readonly candidates: number;
  readonly sets: number;
  readonly best: number;
  readonly ranked: number;
};

/**
 * The planner against looking at every set and against ranking one by one, and its time on a demo house. Tells each
 * house on stderr as it is done.
 * @param argument houses to compare, as `keptRun` takes them: `planner:200,FILE` is the whole check and takes long. The
 *   file keeps what looking at every set has found; the planner itself always runs anew.
 */
export async function planner(argument = '12'): Promise<Line[]> {
  const { houses, done, keep } = keptRun<Oracle>(argument);
  const all = houses.map((house) => {
    const key = String(house);
    const { problem, goal, sets } = randomPlan(house);
    const found = planned(problem);
    if (!done.has(key))
      keep(key, {
        goal,
        candidates: problem.measures.length,
        sets,
        best: exhaustivePlan(problem, goal !== 'comfort').objective,
        ranked: oneByOnePlan(problem).objective,
      });
    const { best, ranked } = done.get(key)!;
    const looked = found.evaluated.length;
    const gap = above(found.best.objective, best);
    console.error(
      `house ${house} of ${houses.at(-1)}: ${goal}, ${problem.measures.length} candidates, ${looked} of ${sets} sets worked out, ${(100 * gap).toFixed(2)} % above the best`,
    );
    return { gap, ranked: above(ranked, best), looked };
  });
  const gaps = all.map(({ gap }) => gap);
  const ranked = all.map((one) => one.ranked);
  const demo = demoTime();
  const share = (isSo: (gap: number) => boolean, of: readonly number[]) =>
    (100 * of.filter(isSo).length) / of.length;
  return [
    limited(
      `planner, equal to looking at every set, of ${all.length} houses`,
      share((gap) => gap < equal, gaps),
      '%',
      'least',
      95,
    ),
    limited('planner, worst of them above the best', 100 * Math.max(...gaps), '%', 'most', 1),
    plain('planner, sets worked out, median', median(all.map(({ looked }) => looked)), ''),
    plain('planner, sets worked out, most', Math.max(...all.map(({ looked }) => looked)), ''),
    plain(
      'ranking one by one, equal to looking at every set',
      share((gap) => gap < equal, ranked),
      '%',
    ),
    plain('ranking one by one, above the best, median', 100 * median(ranked), '%'),
    plain(
      'ranking one by one, more than a tenth above the best',
      share((gap) => gap > 0.1, ranked),
      '%',
    ),
    limited(`planner, ${timed} candidates of demo 1`, demo.wall_s, 's', 'most', 10),
    plain('the same, processor time of all its threads', demo.processor_s, 's'),
  ];
}

/** Differences below this are rounding. */
const equal = 1e-9;

const above = (objective: number, best: number): number => (objective - best) / Math.abs(best);

const planned = (problem: PlanProblem) => {
  const search = findPlan(problem);
  for (;;) {
    const { done, value } = search.next();
    if (done) return value;
  }
};

/** Whole plan for the least cost over the years, with value curve, values of each repair and drawn houses: how long one waits. */
function demoTime(): { wall_s: number; processor_s: number } {
  const job = demoJob('1-quail-run-lane');
  const first = planRepairs(job, 'as-found', { goal: { kind: 'rooms' }, most: 1, draws: 0 });
  let step = first.next();
  while (!step.done) step = first.next();
  const mustNot = step.value.candidates.slice(timed).map(({ id }) => id);
  const start = process.cpuUsage();
  const begin = performance.now();
  const year = planningYear(job, 'as-found');
  const planning = planRepairs(job, 'as-found', { goal: { kind: 'life-cycle' }, year, mustNot });
  while (!planning.next().done);
  const { user, system } = process.cpuUsage(start);
  return { wall_s: (performance.now() - begin) / 1e3, processor_s: (user + system) / 1e6 };
}
