import type { MeasureSet, Season, Survey } from '@airledger/engine';
import { isIn } from '@airledger/engine/planner/measure-sets';
import type { Job } from '../schema/job-schema.ts';
import { applyState } from '../states/apply-state.ts';
import { surveyOf } from '../survey/survey-of.ts';
import type { Sample } from '../survey/surveyor.ts';
import type { Candidate } from './candidate.ts';
import { accountsOf, type BothAccounts } from './candidates-of.ts';
import { driftsOf, failedOf, leakSharesOf, type Standing, yearOf } from './standing.ts';

/** The house of a state with a set of repairs done, in their order. Nothing has been read in it yet. */
export const repairedHouse = (
  job: Job,
  stateId: string,
  candidates: readonly Candidate[],
  set: MeasureSet,
): Job => {
  const { readings: _, ...unread } = applyState(job, stateId);
  return candidates.reduce<Job>(
    (house, candidate, index) => (isIn(set, index) ? candidate.apply(house) : house),
    unread,
  );
};

export type EvaluateOptions = {
  /** What a year brings; without it a standing has no year. */
  readonly year?: ((survey: Survey) => Season) | undefined;
  readonly sample?: Sample | undefined;
};

/** The full model for sets of repairs. Each part of it is worked out when it is asked for, and once. */
export type Evaluator = {
  readonly drift: (set: MeasureSet) => Standing['drift_K'];
  readonly failed: (set: MeasureSet) => Standing['failed'];
  readonly year: (set: MeasureSet) => Standing['year'];
  /** All of it. */
  readonly standing: (set: MeasureSet) => Standing;
};

const remembered = <T>(work: (set: MeasureSet) => T): ((set: MeasureSet) => T) => {
  const known = new Map<MeasureSet, T>();
  return (set) => {
    if (!known.has(set)) known.set(set, work(set));
    return known.get(set)!;
  };
};

/** Changes are made in the job, the job is surveyed anew, and everything follows from that survey. */
export const evaluator = (
  job: Job,
  stateId: string,
  candidates: readonly Candidate[],
  { year, sample }: EvaluateOptions = {},
): Evaluator => {
  const surveyAt = remembered((set) =>
    surveyOf(repairedHouse(job, stateId, candidates, set), undefined, sample),
  );
  let near: BothAccounts | undefined;
  const accountsAt = remembered((set) => {
    const accounts = accountsOf(surveyAt(set), near);
    near ??= accounts;
    return accounts;
  });
  const drift = remembered((set) => driftsOf(accountsAt(set)));
  const failed = remembered((set) => failedOf(accountsAt(set)));
  const yearAt = remembered((set) => {
    const survey = surveyAt(set);
    return year && yearOf(survey, year(survey));
  });
  const standing = (set: MeasureSet): Standing => {
    const ofYear = yearAt(set);
    return {
      drift_K: drift(set),
      leakShare: leakSharesOf(accountsAt(set)),
      failed: failed(set),
      ...(ofYear && { year: ofYear }),
    };
  };
  return { drift, failed, year: yearAt, standing };
};
