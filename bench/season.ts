import { readFileSync } from 'node:fs';
import { type Season, type Survey, season, shortYear, yearOfSite } from '@airledger/engine';
import { readJob, surveyOf } from '@airledger/job';
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

const states = (name: string): Survey[] => {
  const text = readFileSync(new URL(`../demo/${name}.airledger.json`, import.meta.url), 'utf8');
  const read = readJob(text);
  if (!('job' in read)) throw new Error(`${name} can not be read`);
  return (read.job.states ?? []).map(({ id }) => surveyOf(read.job, id));
};

const apart = (found: Season, full: Season): number => Math.abs(found.cost / full.cost - 1);

/** A full year and a short one of each demo house, and how far the short one is off after the house was changed. */
export async function seasonBench(): Promise<Line[]> {
  return houses.flatMap((name): Line[] => {
    const [base, ...changed] = states(name);
    const year = yearOfSite(base!);
    const like = shortYear(year, { like: base! });
    const missed = changed.map((survey) => apart(season(survey, like), season(survey, year)));
    return [
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
