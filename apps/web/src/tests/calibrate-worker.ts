import { account, type RangedExplanation, type Survey, type UnitSystem } from '@airledger/engine';
import { calibratedSurvey, calibrateSteps } from '@airledger/engine/calibrate/calibrate';
import type { Calibration } from '@airledger/engine/calibrate/calibration';
import {
  type CandidateReading,
  type NextReadingOptions,
  nextReading,
  type RankedReading,
} from '@airledger/engine/calibrate/next-reading';
import { type PressureFinding, pressureDiagnosis } from '@airledger/engine/diagnosis/pressure-diagnosis';
import { explainWithRange } from '@airledger/engine/explain/explain-draws';
import type { Reading } from '@airledger/engine/readings/types';
import { expose } from 'comlink';

/** Houses drawn for the ranges: the page shows them to two figures, which more would not change. */
const draws = 120;

/** What was found, with what the pressures of the most probable house do. */
export type Found = {
  readonly calibration: Calibration;
  readonly pressures: readonly PressureFinding[];
};

/** What the page asks of the estimator; one question at a time, ended by ending the worker. */
const estimator = {
  /** @param progress share of the work done, and the first ranges as soon as there are some */
  calibrate(
    survey: Survey,
    readings: readonly Reading[],
    system: string,
    units: UnitSystem,
    progress: (share: number, first?: Calibration) => void,
  ): Found {
    const steps = calibrateSteps(survey, readings, { system, draws });
    for (;;) {
      const step = steps.next();
      if (!step.done) {
        progress(step.value.share, step.value.first);
        continue;
      }
      const calibration = step.value;
      const house = account(calibratedSurvey(survey, calibration), calibration.mode);
      return { calibration, pressures: pressureDiagnosis(house, units) };
    }
  },

  /** Which of the readings that could be taken tells most per minute. */
  next(
    { survey, readings }: { readonly survey: Survey; readonly readings: readonly Reading[] },
    calibration: Calibration,
    candidates: readonly CandidateReading[],
    options: NextReadingOptions,
  ): readonly RankedReading[] {
    return nextReading(survey, readings, calibration, candidates, options);
  },

  /** Why a room is short of air, with the range of each cause. */
  explain(survey: Survey, calibration: Calibration, room: string): RangedExplanation {
    const house = account(calibratedSurvey(survey, calibration), calibration.mode);
    return explainWithRange(house, survey, calibration, room);
  },
};

export type Estimator = typeof estimator;

expose(estimator);
