import type { MeasureSet } from '@airledger/engine';
import { isIn } from '@airledger/engine/planner/measure-sets';
import { addState, changesBetween } from '../edit/index.ts';
import type { Change, Job } from '../schema/job-schema.ts';
import { applyChange, applyState, changeProblem, stateIds } from '../states/apply-state.ts';
import type { Candidate } from './candidate.ts';

/** Id of the state that a plan becomes. */
export const planState = 'as-specified';

/**
 * The job with a plan as its state "as specified", next after the state that was planned on. Each change says which
 * repair it is of. What that state held before gives way; later states keep the changes that still lead somewhere.
 * Throws on a state that is not there.
 */
export const planToState = (
  job: Job,
  stateId: string,
  candidates: readonly Candidate[],
  set: MeasureSet,
): Job => {
  const changes = planChanges(job, stateId, candidates, set);
  const withState = stateIds(job).includes(planState)
    ? job
    : addState(job, { id: planState, name: 'As specified', after: stateId });
  const { states = [], ...base } = withState;
  let house: Job = base;
  return {
    ...base,
    states: states.map((state) => {
      const wanted = state.id === planState ? changes : state.changes;
      const kept = wanted.filter((change) => {
        if (changeProblem(house, change)) return false;
        house = applyChange(house, change);
        return true;
      });
      return kept.length === state.changes.length && state.id !== planState
        ? state
        : { ...state, changes: kept };
    }),
  };
};

/** The changes of a plan, repair by repair in the order of work. */
export const planChanges = (
  job: Job,
  stateId: string,
  candidates: readonly Candidate[],
  set: MeasureSet,
): readonly Change[] => {
  let house = applyState(job, stateId);
  return candidates.flatMap((candidate, index): readonly Change[] => {
    if (!isIn(set, index)) return [];
    const after = candidate.apply(house);
    const changes = changesBetween(house, after).map((change) => ({ ...change, why: candidate.name }));
    house = after;
    return changes;
  });
};
