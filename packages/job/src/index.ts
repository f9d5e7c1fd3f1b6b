export type { JobError } from './job-error.ts';
export { jobJsonSchema } from './json-schema.ts';
export { type ReadJob, readJob } from './read-job.ts';
export type {
  Change,
  Job,
  JobPart,
  JobRoom,
  JobSurface,
  JobSystem,
  JobZone,
  State,
} from './schema/job-schema.ts';
export { applyState, stateIds } from './states/apply-state.ts';
export { valueAt } from './states/job-path.ts';
export { setField } from './states/set-field.ts';
export { surveyOf } from './survey/survey-of.ts';
export type { Sample } from './survey/surveyor.ts';
export type { Typed } from './typed.ts';
export { writeJob } from './write-job.ts';
