import { type Survey, season, shortYear, yearOfSite } from '@airledger/engine';
import {
  type Goal,
  type Job,
  planRepairs,
  planToState,
  type RepairPlan,
  type RepairProgress,
  surveyOf,
} from '@airledger/job';
import { expose } from 'comlink';

/** What the page asks for. */
export type Wish = {
  readonly goal: Goal;
  readonly budget?: number | undefined;
  readonly must: readonly string[];
  readonly mustNot: readonly string[];
};

/** One question at a time, ended by ending the worker. */
const planner = {
  plan(job: Job, state: string, wish: Wish, progress: (at: RepairProgress) => void): RepairPlan {
    const short = shortYear(yearOfSite(surveyOf(job, state)));
    const planning = planRepairs(job, state, {
      ...wish,
      year: (survey: Survey) => season(survey, short),
    });
    for (;;) {
      const { done, value } = planning.next();
      if (done) return value;
      progress(value);
    }
  },
  /** The job with repairs of a state, by their ids, as its state "as specified". */
  specified: (job: Job, state: string, repairs: readonly string[]): Job => planToState(job, state, repairs),
};

export type Planner = typeof planner;

expose(planner);
