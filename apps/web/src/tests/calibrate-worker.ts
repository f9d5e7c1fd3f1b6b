import { account, type Survey, type UnitSystem } from '@airledger/engine';
import { calibratedSurvey, calibrateSteps } from '@airledger/engine/calibrate/calibrate';
import type { Calibration } from '@airledger/engine/calibrate/calibration';
import { type PressureFinding, pressureDiagnosis } from '@airledger/engine/diagnosis/pressure-diagnosis';
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
};

export type Estimator = typeof estimator;

expose(estimator);
