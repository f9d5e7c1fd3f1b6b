import type { JobError } from '../job-error.ts';
export const stateErrors = (_job: unknown): readonly JobError[] => [];
