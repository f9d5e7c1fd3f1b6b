import { readFileSync } from 'node:fs';
import { findPlan, type PlanProblem, type Survey, season, shortYear, yearOfSite } from '@airledger/engine';
import { planRepairs, readJob, surveyOf } from '@airledger/job';
import { exhaustivePlan, oneByOnePlan } from '../tests/fixtures/exhaustive-plan.ts';
import { type HousePlan, randomPlan } from '../tests/fixtures/plan-problem.ts';
import { keptRun } from './kept-run.ts';
import { type Line, limited, plain } from './line.ts';
import { median } from './measure.ts';

/** Candidates of the demo house that is timed. */
const timed = 30;

/** One random house: what the planner, looking at every set, and ranking one by one come to. */
type Compared = {
  readonly goal: HousePlan['goal'];
  readonly candidates: number;
  readonly sets: number;
  readonly looked: number;
  readonly found: number;
  readonly best: number;
  readonly ranked: number;
};

/**
 * The planner against looking at every set and against ranking one by one, and its time on a demo house. Tells each
 * house on stderr as it is done.
 * @param argument houses to compare, as `keptRun` takes them: `planner:200,FILE` is the whole check and takes long
 */
export async function planner(argument = '12'): Promise<Line[]> {
  const { houses, done, keep } = keptRun<Compared>(argument);
  for (const house of houses) {
    const key = String(house);
    if (done.has(key)) continue;
    const one = compared(house);
    keep(key, one);
    console.error(
      `house ${house} of ${houses.at(-1)}: ${one.goal}, ${one.candidates} candidates, ${one.looked} of ${one.sets} sets worked out, ${percent(over(one))} above the best`,
    );
  }
  const all = [...done.values()];
  const gaps = all.map(over);
  const ranked = all.map((one) => above(one.ranked, one.best));
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
    limited(`planner, ${timed} candidates of demo 1, processor time`, demoTime_s(), 's', 'most', 10),
  ];
}

/** Differences below this are rounding. */
const equal = 1e-9;

const above = (objective: number, best: number): number => (objective - best) / Math.abs(best);
const over = ({ found, best }: Compared): number => above(found, best);
const percent = (share: number): string => `${(100 * share).toFixed(2)} %`;

function compared(house: number): Compared {
  const { problem, goal, sets } = randomPlan(house);
  const found = planned(problem);
  return {
    goal,
    candidates: problem.measures.length,
    sets,
    looked: found.evaluated.length,
    found: found.best.objective,
    best: exhaustivePlan(problem, goal !== 'comfort').objective,
    ranked: oneByOnePlan(problem).objective,
  };
}

const planned = (problem: PlanProblem) => {
  const search = findPlan(problem);
  for (;;) {
    const { done, value } = search.next();
    if (done) return value;
  }
};

/** Whole plan for the least cost over the years, with value curve, values of each repair and drawn houses. */
function demoTime_s(): number {
  const text = readFileSync(new URL('../demo/1-quail-run-lane.airledger.json', import.meta.url), 'utf8');
  const read = readJob(text);
  if ('errors' in read) throw new Error('the demo house does not read');
  const { job } = read;
  const short = shortYear(yearOfSite(surveyOf(job, 'as-found')));
  const year = (survey: Survey) => season(survey, short);
  const first = planRepairs(job, 'as-found', { goal: { kind: 'rooms' }, most: 1, draws: 0 });
  let step = first.next();
  while (!step.done) step = first.next();
  const mustNot = step.value.candidates.slice(timed).map(({ id }) => id);
  const start = process.cpuUsage();
  const planning = planRepairs(job, 'as-found', { goal: { kind: 'life-cycle' }, year, mustNot });
  while (!planning.next().done);
  const { user, system } = process.cpuUsage(start);
  return (user + system) / 1e6;
}
