export { applyChoice } from './as-found/apply-choice.ts';
export {
  type AsFoundChoice,
  asFoundChoices,
  choicesAt,
} from './as-found/as-found-choices.ts';
export * from './edit/index.ts';
export {
  fromBase64,
  referredFiles,
  type StoredFile,
  toBase64,
  withFiles,
  withoutFiles,
} from './files/job-files.ts';
export { type GuidanceItem, type GuidanceOptions, guidance } from './guidance/guidance.ts';
export { applyDiff, type DiffClash, tryDiff } from './history/apply-diff.ts';
export { describeDiff, summariseDiff } from './history/describe-diff.ts';
export { type Difference, diffJobs, invertDiff, type JobDiff } from './history/diff-jobs.ts';
export {
  appendChange,
  type History,
  type HistoryEntry,
  historyEntry,
  type Stamp,
  type TakeBackClash,
  takeBack,
} from './history/history.ts';
export {
  emptyUndoStack,
  pushStep,
  redo,
  type UndoResult,
  type UndoStack,
  type UndoStep,
  undo,
} from './history/undo-stack.ts';
export type { JobError } from './job-error.ts';
export { jobJsonSchema } from './json-schema.ts';
export { type MergeClash, type MergedJob, mergeJobs, settleClash } from './merge/merge-jobs.ts';
export { type QuickStart, quickStart, quickStartProblem } from './quick-start/quick-start.ts';
export { type ReadJob, readJob } from './read-job.ts';
export { candidateReadings } from './readings/candidate-readings.ts';
export {
  guessMapping,
  type ImportFault,
  type ImportField,
  type ImportMapping,
  importFields,
  importReadings,
} from './readings/import-readings.ts';
export { saysPressure } from './readings/leakage-evidence.ts';
export { parseCsv } from './readings/parse-csv.ts';
export { placesFor } from './readings/place-of.ts';
export {
  type Instrument,
  instrumentOf,
  instruments,
  isByRise,
  kindRow,
  type ReadingKindRow,
  readingKindRows,
} from './readings/reading-tables.ts';
export { readingDimension } from './readings/reading-values.ts';
export { type ReadReadings, readingsOf } from './readings/readings-of.ts';
export { setupOf } from './readings/setup-of.ts';
export { sheetName, stateOfReading } from './readings/sheet-doubts.ts';
export {
  burnerCaution,
  proceduresDefer,
  proceduresFor,
  type TestCaution,
  type TestProcedure,
  testCautions,
  testProcedures,
} from './readings/test-procedures.ts';
export type { Candidate, CandidateFacts, Work } from './repairs/candidate.ts';
export { type BothAccounts, candidatesOf } from './repairs/candidates-of.ts';
export {
  type Access,
  catalogueOf,
  type Phase,
  phases,
  type Range,
  type Repair,
  repairCautions,
} from './repairs/catalogue.ts';
export { type Goal, goalKinds, nearlyMet } from './repairs/goals.ts';
export type { PlanMisses, RoomMiss } from './repairs/plan-misses.ts';
export type { PlanMoney } from './repairs/plan-money.ts';
export {
  type PlannedRepair,
  type PlannedSet,
  type PlanRequest,
  planRepairs,
  type RepairPlan,
  type RepairProgress,
  type RunnerUp,
} from './repairs/plan-repairs.ts';
export { planToState } from './repairs/plan-to-state.ts';
export { planningYear } from './repairs/planning-year.ts';
export type { Standing } from './repairs/standing.ts';
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
export { type FileType, fileTypes, type JobFile, type JobPhoto } from './schema/photo-schema.ts';
export type { JobReading, ReadingKind } from './schema/reading-schema.ts';
export type { JobUnderlay } from './schema/underlay-schema.ts';
export { applyState, stateIds } from './states/apply-state.ts';
export { valueAt } from './states/job-path.ts';
export { setField } from './states/set-field.ts';
export { outlineOf, pointOf } from './survey/plan.ts';
export { surveyOf } from './survey/survey-of.ts';
export type { Sample } from './survey/surveyor.ts';
export type { Typed } from './typed.ts';
export { withWeatherFile } from './weather/with-weather-file.ts';
export { writeJob } from './write-job.ts';
