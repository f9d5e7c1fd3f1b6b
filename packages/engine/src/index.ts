export { account } from './account/account.ts';
export { type RoomOff, roomDrift_K, roomsOff, wantsAir } from './account/rooms-off.ts';
export type * from './account/types.ts';
export type * from './air/types.ts';
export { type Balance, balance } from './balance/balance.ts';
export { withNewDampers } from './balance/damper-runs.ts';
export { fieldSheets } from './balance/field-sheet.ts';
export { allowedDeparture } from './balance/obstacles.ts';
export type * from './balance/types.ts';
export { zoningCases } from './balance/zoning-cases.ts';
export {
  type CalibrateOptions,
  type CalibrateProgress,
  calibrate,
  calibratedSurvey,
  calibrateSteps,
} from './calibrate/calibrate.ts';
export type * from './calibrate/calibration.ts';
export {
  type CandidateReading,
  type NextReadingOptions,
  nextReading,
  type RankedReading,
  type ReadingGoal,
} from './calibrate/next-reading.ts';
export { type LimitedTotal, probabilityPasses } from './calibrate/probability-passes.ts';
export { designFromWeatherFile, type WeatherFileDesign } from './climate/design-from-weather-file.ts';
export { readWeatherFile, WeatherFileError, type WeatherYear } from './climate/read-weather-file.ts';
export { explainImbalance } from './explain/explain-imbalance.ts';
export { explainRoom } from './explain/explain-room.ts';
export { explainShortage } from './explain/explain-shortage.ts';
export { explainWithRange } from './explain/explain-with-range.ts';
export { imbalanceWithRange } from './explain/imbalance-with-range.ts';
export type * from './explain/types.ts';
export { type UnevenGroups, unevenGroups } from './explain/uneven-groups.ts';
export { figures } from './figures/figures.ts';
export type * from './figures/types.ts';
export type * from './heat/types.ts';
export { buildLedger } from './ledger/build-ledger.ts';
export type * from './ledger/types.ts';
export { loadCautions } from './loads/load-cautions.ts';
export type * from './loads/types.ts';
export * from './money/present-value.ts';
export type * from './money/types.ts';
export { doesNotPay, lifeCycleCost, worth, worthRange } from './money/worth.ts';
export { seededRandom } from './numerics/seeded-random.ts';
export { type FoundPlan, findPlan } from './planner/find-plan.ts';
export type * from './planner/types.ts';
export { type CurvePoint, valueCurve } from './planner/value-curve.ts';
export { type MeasureValue, valueOrder } from './planner/value-order.ts';
export { checkRules } from './rules/check-rules.ts';
export type * from './rules/types.ts';
export { season } from './season/season.ts';
export { type ShortYearOptions, shortYear } from './season/short-year.ts';
export type * from './season/types.ts';
export { seasonSurvey, usualEfficiency, usualEmission_kgJ, usualTariff } from './season/usual-season.ts';
export { type MonthNormal, type Place, yearFromNormals } from './season/year-from-normals.ts';
export { yearOfSite } from './season/year-of-site.ts';
export * from './survey/season.ts';
export type * from './survey/types.ts';
export { modes } from './survey/types.ts';
export { usedModes } from './survey/used-modes.ts';
export * from './units/index.ts';
