import {
  type Goal,
  type Job,
  planningYear,
  planRepairs,
  planToState,
  type RepairPlan,
  type RepairProgress,
} from '@airledger/job';
import { expose } from 'comlink';

/** What the page asks for. */
export type Wish = {
  readonly goal: Goal;
  readonly budget?: number | undefined;
  readonly must: readonly string[];
  readonly mustNot: readonly string[];
  /** Text of a weather file; a year is made from the site when absent. */
  readonly weather: string | undefined;
};

/** One question at a time, ended by ending the worker. */
const planner = {
  plan(
    job: Job,
    state: string,
    { weather, ...wish }: Wish,
    progress: (at: RepairProgress) => void,
  ): RepairPlan {
    const planning = planRepairs(job, state, { ...wish, year: planningYear(job, state, weather) });
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
