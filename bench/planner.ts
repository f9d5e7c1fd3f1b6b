import { readFileSync } from 'node:fs';
import { findPlan, type PlanProblem, type Survey, season, shortYear, yearOfSite } from '@airledger/engine';
import { planRepairs, readJob, surveyOf } from '@airledger/job';
import { exhaustivePlan, oneByOnePlan } from '../tests/fixtures/exhaustive-plan.ts';
import { randomPlan } from '../tests/fixtures/plan-problem.ts';
import { type Line, limited, plain } from './line.ts';
import { median } from './measure.ts';

/** Candidates of the demo house that is timed. */
const timed = 30;

/**
 * The planner against looking at every set and against ranking one by one, and its time on a demo house.
 * @param argument houses to compare: `planner:200` is the whole check and takes long
 */
export async function planner(argument = '12'): Promise<Line[]> {
  const houses = Number(argument);
  const gaps: number[] = [];
  const ranked: number[] = [];
  const looked: number[] = [];
  for (let seed = 1; seed <= houses; seed++) {
    const { problem, goal } = randomPlan(seed);
    const found = planned(problem);
    const best = exhaustivePlan(problem, goal !== 'comfort').objective;
    const over = (objective: number): number => (objective - best) / Math.abs(best);
    gaps.push(over(found.best.objective));
    ranked.push(over(oneByOnePlan(problem).objective));
    looked.push(found.evaluated.length);
  }
  return [
    limited(
      `planner, equal to looking at every set, of ${houses} houses`,
      (100 * gaps.filter((gap) => gap < 1e-9).length) / houses,
      '%',
      'least',
      95,
    ),
    limited('planner, worst of them above the best', 100 * Math.max(...gaps), '%', 'most', 1),
    plain('planner, sets worked out, median', median(looked), ''),
    plain('ranking one by one, above the best, median', 100 * median(ranked), '%'),
    limited(`planner, ${timed} candidates of demo 1, processor time`, demoTime_s(), 's', 'most', 10),
  ];
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
