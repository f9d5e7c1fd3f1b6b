import type { JobError } from '../job-error.ts';
import { ductErrors } from './check-ducts.ts';
import { idErrors } from './check-ids.ts';
import { referenceErrors } from './check-references.ts';
import { spaceErrors } from './check-spaces.ts';
import { isLoose } from './loose.ts';

/** What a house breaks beyond its schema: ids, references, trees, areas. Reads any value without trusting it. */
export const houseErrors = (job: unknown): readonly JobError[] =>
  isLoose(job) ? [...idErrors(job), ...referenceErrors(job), ...ductErrors(job), ...spaceErrors(job)] : [];
