import { type Season, type Survey, season, shortYear, yearOfSite } from '@airledger/engine';
import { candidatesOf, type Job, planToState, surveyOf } from '@airledger/job';
import { demoJob } from './demo-job.ts';
import { type Line, limited, plain } from './line.ts';

const houses = ['1-quail-run-lane', '2-tamarack-bend', '3-alder-ferry-road'];
const runs = 15;
const warmUp = 5;

const median = (values: readonly number[]): number => values.toSorted((a, b) => a - b)[values.length >> 1]!;

const timed = (task: () => unknown): number => {
  const times: number[] = [];
  for (let i = 0; i < runs; i++) {
    const begin = performance.now();
    task();
    if (i >= warmUp) times.push(performance.now() - begin);
  }
  return median(times);
};

const states = (job: Job): Survey[] => (job.states ?? []).map(({ id }) => surveyOf(job, id));

/** Each repair that makes sense in the first state, alone: cost of its full year and of its short one. */
const repairedYears = (job: Job, full: (survey: Survey) => Season, short: (survey: Survey) => Season) => {
  const state = job.states![0]!.id;
  return [[], ...candidatesOf(job, state).map(({ id }) => [id])].map((repairs) => {
    const survey = surveyOf(planToState(job, state, repairs), 'as-specified');
    return { full: full(survey).cost, short: short(survey).cost };
  });
};

type Years = ReturnType<typeof repairedYears>;

/** Widest difference of full years between two repairs that the short year puts the other way round. */
const widestSwap = (years: Years): number =>
  Math.max(
    0,
    ...years.flatMap((a) =>
      years.filter((b) => a.full < b.full && a.short > b.short).map((b) => b.full - a.full),
    ),
  );

/** How far the saving of a repair is off at most. */
const savingOff = (years: Years): number => {
  const [{ full, short }] = years as [Years[number], ...Years];
  return Math.max(...years.map((one) => Math.abs(short - one.short - (full - one.full))));
};

const apart = (found: Season, full: Season): number => Math.abs(found.cost / full.cost - 1);

/** A full year and a short one of each demo house, and how far the short one is off after the house was changed. */
export async function seasonBench(): Promise<Line[]> {
  return houses.flatMap((name): Line[] => {
    const job = demoJob(name);
    const [base, ...changed] = states(job);
    const year = yearOfSite(base!);
    const like = shortYear(year, { like: base! });
    const missed = changed.map((survey) => apart(season(survey, like), season(survey, year)));
    const repaired = repairedYears(
      job,
      (survey) => season(survey, year),
      (survey) => season(survey, like),
    );
    return [
      plain(
        `season, repairs of ${name} that the short year swaps, apart a year at most`,
        widestSwap(repaired),
        '$',
      ),
      plain(`season, saving of a repair of ${name}, short year off at most`, savingOff(repaired), '$'),
      limited(
        `season, a year of ${name}, median`,
        timed(() => season(base!, year)),
        'ms',
        'most',
        100,
      ),
      plain(
        `season, a short year of ${name}, median`,
        timed(() => season(base!, like)),
        'ms',
      ),
      limited(
        `season, short year of ${name} off the full one after repairs`,
        100 * Math.max(...missed),
        '%',
        'most',
        3,
      ),
    ];
  });
}
