import { addState, changesBetween, uniqueId } from '../edit/index.ts';
import type { Change, Job } from '../schema/job-schema.ts';
import { applyChange, applyState, changeProblem, stateIds } from '../states/apply-state.ts';
import { candidatesOf } from './candidates-of.ts';

const specified = 'as-specified';

/**
 * The job with repairs, by their ids, as its state "as specified", the one after the state that was planned on; each
 * change says which repair it is of. What that state held before gives way (a plan on top of "as specified" itself is
 * added to it), and later states keep the changes that still lead somewhere.
 * Throws on a state that is not there and RangeError on an id that names no candidate of it.
 */
export const planToState = (job: Job, stateId: string, repairs: readonly string[]): Job => {
  const changes = planChanges(job, stateId, repairs);
  const ids = stateIds(job);
  const isBefore = ids.includes(specified) && ids.indexOf(specified) < ids.indexOf(stateId);
  const target = isBefore ? uniqueId(job, specified) : specified;
  const withState = ids.includes(target)
    ? job
    : addState(job, { id: target, name: 'As specified', after: stateId });
  const { states = [], ...base } = withState;
  let house: Job = base;
  return {
    ...base,
    states: states.map((state) => {
      const wanted =
        state.id !== target ? state.changes : target === stateId ? [...state.changes, ...changes] : changes;
      const kept = wanted.filter((change) => {
        if (changeProblem(house, change)) return false;
        house = applyChange(house, change);
        return true;
      });
      return { ...state, changes: kept };
    }),
  };
};

/** The changes of repairs, one after the other in the order of work. */
const planChanges = (job: Job, stateId: string, repairs: readonly string[]): readonly Change[] => {
  const candidates = candidatesOf(job, stateId);
  const unknown = repairs.find((id) => !candidates.some((candidate) => candidate.id === id));
  if (unknown !== undefined) throw new RangeError(`There is no repair "${unknown}" in this house.`);
  let house = applyState(job, stateId);
  return candidates
    .filter(({ id }) => repairs.includes(id))
    .flatMap(({ name, apply }): readonly Change[] => {
      const after = apply(house);
      const changes = changesBetween(house, after).map((change) => ({ ...change, why: name }));
      house = after;
      return changes;
    });
};
