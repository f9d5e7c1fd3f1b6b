import { type JobError, jobError } from '../job-error.ts';
import type { Change, Job } from '../schema/job-schema.ts';
import { applyChange, changeProblem } from '../states/apply-state.ts';
import { houseErrors } from './house-errors.ts';
import { isLoose, type Loose, recordsAt, textAt } from './loose.ts';
import { schemaErrors } from './schema-errors.ts';

const kinds = ['set', 'add', 'remove'] as const;

const value = { set: 'to', add: 'item', remove: undefined } as const;

/** A change whose shape is right; the schema has told of any other. */
const isChange = (change: unknown): change is Change => {
  if (!isLoose(change)) return false;
  const [kind, other] = kinds.filter((word) => typeof change[word] === 'string');
  if (kind === undefined || other !== undefined) return false;
  return value[kind] === undefined || value[kind] in change;
};

/** Changes that cannot be made, and what each state breaks that the one before did not. */
export const stateErrors = (job: unknown): readonly JobError[] => {
  if (!isLoose(job) || !Array.isArray(job.states)) return [];
  const { states: _, ...base } = job;
  const errors: JobError[] = [];
  let house: Loose = base;
  let before = new Set([...schemaErrors(house), ...houseErrors(house)].map((error) => error.message));
  for (const [i, state] of recordsAt(job, 'states').entries()) {
    const id = textAt(state, 'id') ?? String(i);
    const changes = Array.isArray(state.changes) ? state.changes : [];
    for (const [j, change] of changes.entries()) {
      if (!isChange(change)) continue;
      const path = `states/${id}/changes/${j}`;
      const problem = changeProblem(house, change);
      if (problem) errors.push(jobError(path, problem.value, problem.expected, problem.remedy));
      else house = applyChange(house as unknown as Job, change) as unknown as Loose;
    }
    if (changes.length === 0) continue;
    const now = [...schemaErrors(house), ...houseErrors(house)];
    for (const error of now)
      if (!before.has(error.message))
        errors.push(jobError(error.path, `in state "${id}" ${error.value}`, error.expected, error.remedy));
    before = new Set(now.map((error) => error.message));
  }
  return errors;
};

/** The house of a state with every change that can be made, the first state when none is named; errors are told elsewhere. */
export const houseOf = (job: Loose, state: string | undefined): Loose => {
  const { states: _, ...base } = job;
  let house: Loose = base;
  for (const each of recordsAt(job, 'states')) {
    for (const change of Array.isArray(each.changes) ? each.changes : [])
      if (isChange(change) && !changeProblem(house, change))
        house = applyChange(house as unknown as Job, change) as unknown as Loose;
    if (state === undefined || each.id === state) return house;
  }
  return house;
};
