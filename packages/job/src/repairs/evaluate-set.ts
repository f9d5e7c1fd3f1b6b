import type { MeasureSet, Season, Survey } from '@airledger/engine';
import { isIn } from '@airledger/engine/planner/measure-sets';
import type { Job } from '../schema/job-schema.ts';
import { applyState } from '../states/apply-state.ts';
import { surveyOf } from '../survey/survey-of.ts';
import type { Sample } from '../survey/surveyor.ts';
import type { Candidate } from './candidate.ts';
import { accountsOf, type BothAccounts } from './candidates-of.ts';
import { type Standing, standingOf } from './standing.ts';

/** The house of a state with a set of repairs done, in their order. */
export const repairedHouse = (
  job: Job,
  stateId: string,
  candidates: readonly Candidate[],
  set: MeasureSet,
): Job =>
  candidates.reduce(
    (house, candidate, index) => (isIn(set, index) ? candidate.apply(house) : house),
    applyState(job, stateId),
  );

export type EvaluateOptions = {
  /** What a year brings; without it a standing has no year. */
  readonly year?: ((survey: Survey) => Season) | undefined;
  readonly sample?: Sample | undefined;
};

/**
 * The full model for sets of repairs, each worked out once: changes made in the job, survey, both accounts, checks, and
 * the year when one is asked for.
 */
export const evaluator = (
  job: Job,
  stateId: string,
  candidates: readonly Candidate[],
  { year, sample }: EvaluateOptions = {},
): ((set: MeasureSet) => Standing) => {
  const known = new Map<MeasureSet, Standing>();
  let near: BothAccounts | undefined;
  return (set) => {
    const before = known.get(set);
    if (before) return before;
    const survey = surveyOf(repairedHouse(job, stateId, candidates, set), undefined, sample);
    const accounts = accountsOf(survey, near);
    near ??= accounts;
    const standing = standingOf(accounts, year?.(survey));
    known.set(set, standing);
    return standing;
  };
};
